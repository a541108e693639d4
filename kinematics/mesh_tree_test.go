package kinematics

import (
	"cmp"
	"math"
	"slices"
)

// meshTree is triangles in boxes in boxes.
type meshTree struct {
	mesh  *rings
	nodes []meshNode
	order []int32 // faces, as the leaves take them
	mids  []vec3  // of the faces, when the tree is built
}

type meshNode struct {
	low, high   vec3
	left, right int32 // nodes; left < 0 for a leaf
	from, to    int32 // of order, of a leaf
}

const leafFaces = 4

func newMeshTree(m *rings) *meshTree {
	t := &meshTree{mesh: m, order: make([]int32, len(m.faces))}
	for i := range t.order {
		t.order[i] = int32(i)
		t.mids = append(t.mids, t.middle(int32(i)))
	}
	t.split(0, int32(len(t.order)))
	t.refit()
	return t
}

// split makes the node of a stretch of the order, halved along the axis in which
// its middles spread most.
func (t *meshTree) split(from, to int32) int32 {
	me := int32(len(t.nodes))
	t.nodes = append(t.nodes, meshNode{left: -1, from: from, to: to})
	if to-from <= leafFaces {
		return me
	}
	low, high := vec3{math.Inf(1), math.Inf(1), math.Inf(1)}, vec3{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for _, f := range t.order[from:to] {
		grow(&low, &high, t.mids[f])
	}
	axis := 0
	for k := range 3 {
		if high[k]-low[k] > high[axis]-low[axis] {
			axis = k
		}
	}
	slices.SortFunc(t.order[from:to], func(a, b int32) int { return cmp.Compare(t.mids[a][axis], t.mids[b][axis]) })
	mid := (from + to) / 2
	left := t.split(from, mid)
	right := t.split(mid, to)
	t.nodes[me].left, t.nodes[me].right = left, right
	return me
}

func (t *meshTree) middle(f int32) (m vec3) {
	for _, i := range t.mesh.faces[f] {
		m = m.plus(1.0/3, t.mesh.points[i])
	}
	return m
}

func grow(low, high *vec3, p vec3) {
	for k := range 3 {
		low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
	}
}

// refit draws the boxes anew after the points have moved. Children come after
// their parents.
func (t *meshTree) refit() {
	for i := len(t.nodes) - 1; i >= 0; i-- {
		n := &t.nodes[i]
		if n.left >= 0 {
			n.low, n.high = t.nodes[n.left].low, t.nodes[n.left].high
			grow(&n.low, &n.high, t.nodes[n.right].low)
			grow(&n.low, &n.high, t.nodes[n.right].high)
			continue
		}
		n.low, n.high = vec3{math.Inf(1), math.Inf(1), math.Inf(1)}, vec3{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
		for _, f := range t.order[n.from:n.to] {
			for _, p := range t.mesh.faces[f] {
				grow(&n.low, &n.high, t.mesh.points[p])
			}
		}
	}
}

// meets reports whether a triangle of one tree cuts one of the other.
func (t *meshTree) meets(o *meshTree) bool { return t.pair(o, 0, 0) }

func (t *meshTree) pair(o *meshTree, i, k int32) bool {
	a, b := &t.nodes[i], &o.nodes[k]
	for x := range 3 {
		if a.low[x] > b.high[x] || b.low[x] > a.high[x] {
			return false
		}
	}
	switch {
	case a.left < 0 && b.left < 0:
		for _, f := range t.order[a.from:a.to] {
			for _, g := range o.order[b.from:b.to] {
				if trianglesMeet(t.corners(f), o.corners(g)) {
					return true
				}
			}
		}
		return false
	case b.left < 0 || a.left >= 0 && a.to-a.from >= b.to-b.from:
		return t.pair(o, a.left, k) || t.pair(o, a.right, k)
	}
	return t.pair(o, i, b.left) || t.pair(o, i, b.right)
}

func (t *meshTree) corners(f int32) (c [3]vec3) {
	for i, p := range t.mesh.faces[f] {
		c[i] = t.mesh.points[p]
	}
	return c
}

// trianglesMeet looks for a direction that parts two triangles: a normal of
// either, one across an edge of each, or within a shared plane one across an
// edge.
func trianglesMeet(a, b [3]vec3) bool {
	var ea, eb [3]vec3
	for i := range 3 {
		ea[i], eb[i] = a[(i+1)%3].plus(-1, a[i]), b[(i+1)%3].plus(-1, b[i])
	}
	na, nb := ea[0].cross(ea[1]), eb[0].cross(eb[1])
	if parted(na, a, b) || parted(nb, a, b) {
		return false
	}
	for i := range 3 {
		if parted(na.cross(ea[i]), a, b) || parted(nb.cross(eb[i]), a, b) {
			return false
		}
		for k := range 3 {
			if parted(ea[i].cross(eb[k]), a, b) {
				return false
			}
		}
	}
	return true
}

func parted(d vec3, a, b [3]vec3) bool {
	a0, a1, a2 := d.dot(a[0]), d.dot(a[1]), d.dot(a[2])
	b0, b1, b2 := d.dot(b[0]), d.dot(b[1]), d.dot(b[2])
	return max(a0, a1, a2) < min(b0, b1, b2) || max(b0, b1, b2) < min(a0, a1, a2)
}
