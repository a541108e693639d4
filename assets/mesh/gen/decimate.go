package main

import (
	"container/heap"

	"gonum.org/v1/gonum/spatial/r3"
)

// quadric is the symmetric 4×4 form whose value at a point is the sum of
// squared distances to planes (Garland and Heckbert, SIGGRAPH 1997).
type quadric [10]float64

func planeQuadric(n r3.Vec, d, weight float64) quadric {
	return quadric{
		weight * n.X * n.X, weight * n.X * n.Y, weight * n.X * n.Z, weight * n.X * d,
		weight * n.Y * n.Y, weight * n.Y * n.Z, weight * n.Y * d,
		weight * n.Z * n.Z, weight * n.Z * d, weight * d * d,
	}
}

func (q quadric) add(o quadric) quadric {
	for i := range q {
		q[i] += o[i]
	}
	return q
}

func (q quadric) at(p r3.Vec) float64 {
	return q[0]*p.X*p.X + 2*q[1]*p.X*p.Y + 2*q[2]*p.X*p.Z + 2*q[3]*p.X +
		q[4]*p.Y*p.Y + 2*q[5]*p.Y*p.Z + 2*q[6]*p.Y + q[7]*p.Z*p.Z + 2*q[8]*p.Z + q[9]
}

// collapse is a candidate: edge a-b to one point.
type collapse struct {
	a, b   int32
	ga, gb int32 // generations of a and b when reckoned
	to     r3.Vec
	cost   float64
}

type queue []collapse

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	if q[i].cost != q[j].cost {
		return q[i].cost < q[j].cost
	}
	if q[i].a != q[j].a {
		return q[i].a < q[j].a
	}
	return q[i].b < q[j].b
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(collapse)) }
func (q *queue) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}

// thinner is a solid being thinned.
type thinner struct {
	solid
	form       []quadric
	generation []int32
	dead       []bool    // triangles
	around     [][]int32 // triangles at each point, dead ones included
	queue      queue
	live       int
}

// thin returns s with about the wanted number of triangles: the edge whose
// collapse moves the surface least goes first. It stays closed.
func thin(s solid, want int) solid {
	t := &thinner{solid: s, live: len(s.corners)}
	t.form = make([]quadric, len(s.points))
	t.generation = make([]int32, len(s.points))
	t.dead = make([]bool, len(s.corners))
	t.around = make([][]int32, len(s.points))
	for i, c := range s.corners {
		n := r3.Cross(r3.Sub(s.points[c[1]], s.points[c[0]]), r3.Sub(s.points[c[2]], s.points[c[0]]))
		area := r3.Norm(n)
		for _, v := range c {
			t.around[v] = append(t.around[v], int32(i))
			if area > 0 {
				u := r3.Scale(1/area, n)
				t.form[v] = t.form[v].add(planeQuadric(u, -r3.Dot(u, s.points[c[0]]), area*weight(s.points[v])))
			}
		}
	}
	for _, c := range s.corners {
		for k := range c {
			if a, b := c[k], c[(k+1)%3]; a < b {
				t.push(a, b)
			}
		}
	}
	for t.live > want && t.queue.Len() > 0 {
		c := heap.Pop(&t.queue).(collapse)
		if c.ga == t.generation[c.a] && c.gb == t.generation[c.b] && t.allowed(c) {
			t.join(c)
		}
	}
	return t.rest()
}

// weight is how much more a change near the joint counts, where the eye rests.
func weight(p r3.Vec) float64 {
	if r3.Norm(p) < 40 {
		return 4
	}
	return 1
}

func (t *thinner) push(a, b int32) {
	q := t.form[a].add(t.form[b])
	pa, pb := t.points[a], t.points[b]
	c := collapse{a: min(a, b), b: max(a, b), ga: t.generation[min(a, b)], gb: t.generation[max(a, b)]}
	for i, p := range []r3.Vec{r3.Scale(0.5, r3.Add(pa, pb)), pa, pb} {
		if v := q.at(p); i == 0 || v < c.cost {
			c.cost, c.to = v, p
		}
	}
	// A little of the length keeps triangles on flat ground well shaped.
	c.cost += 2e-3 * weight(pa) * r3.Norm2(r3.Sub(pa, pb)) * r3.Norm2(r3.Sub(pa, pb))
	heap.Push(&t.queue, c)
}

// ring returns the neighbours of v.
func (t *thinner) ring(v int32) map[int32]bool {
	n := map[int32]bool{}
	for _, i := range t.around[v] {
		if !t.dead[i] {
			for _, c := range t.corners[i] {
				if c != v {
					n[c] = true
				}
			}
		}
	}
	return n
}

// allowed reports whether the collapse keeps the surface a surface (the two
// ends share exactly two neighbours) and turns no triangle over.
func (t *thinner) allowed(c collapse) bool {
	ra, rb := t.ring(c.a), t.ring(c.b)
	if !ra[c.b] {
		return false
	}
	shared := 0
	for v := range ra {
		if rb[v] {
			shared++
		}
	}
	return shared == 2 && len(ra)+len(rb) > 8 && t.upright(c.a, c.b, c.to) && t.upright(c.b, c.a, c.to)
}

// upright reports whether the triangles of v without other keep their facing
// and a tolerable shape when v moves to p.
func (t *thinner) upright(v, other int32, p r3.Vec) bool {
	for _, i := range t.around[v] {
		if t.dead[i] {
			continue
		}
		var now, then [3]r3.Vec
		keeps := true
		for k, c := range t.corners[i] {
			now[k], then[k] = t.points[c], t.points[c]
			if c == v {
				then[k] = p
			}
			keeps = keeps && c != other
		}
		if !keeps {
			continue
		}
		n0 := r3.Cross(r3.Sub(now[1], now[0]), r3.Sub(now[2], now[0]))
		n1 := r3.Cross(r3.Sub(then[1], then[0]), r3.Sub(then[2], then[0]))
		s0, s1 := shapely(now), shapely(then)
		if s1 < 0.15 && s1 < s0 || s0 > 0.05 && r3.Dot(n0, n1) < 0.3*r3.Norm(n0)*r3.Norm(n1) {
			return false
		}
	}
	return true
}

// shapely is twice the area of a triangle over its longest side squared: 0.87
// for an equilateral one, 0 for a sliver.
func shapely(p [3]r3.Vec) float64 {
	e1, e2 := r3.Sub(p[1], p[0]), r3.Sub(p[2], p[0])
	return r3.Norm(r3.Cross(e1, e2)) / max(r3.Norm2(e1), r3.Norm2(e2), r3.Norm2(r3.Sub(e1, e2)))
}

func (t *thinner) join(c collapse) {
	t.points[c.a] = c.to
	t.form[c.a] = t.form[c.a].add(t.form[c.b])
	t.generation[c.a]++
	t.generation[c.b]++
	for _, i := range t.around[c.b] {
		if t.dead[i] {
			continue
		}
		tri := &t.corners[i]
		if tri[0] == c.a || tri[1] == c.a || tri[2] == c.a {
			t.dead[i] = true
			t.live--
			continue
		}
		for k := range tri {
			if tri[k] == c.b {
				tri[k] = c.a
			}
		}
		t.around[c.a] = append(t.around[c.a], i)
	}
	t.around[c.b] = nil
	// Neighbours in the order of the triangles, so that runs agree.
	done := map[int32]bool{c.a: true}
	for _, i := range t.around[c.a] {
		if t.dead[i] {
			continue
		}
		for _, v := range t.corners[i] {
			if !done[v] {
				done[v] = true
				t.push(c.a, v)
			}
		}
	}
}

// rest returns what is left, renumbered in the order of use.
func (t *thinner) rest() solid {
	var s solid
	number := map[int32]int32{}
	for i, c := range t.corners {
		if t.dead[i] {
			continue
		}
		var tri [3]int32
		for k, v := range c {
			n, ok := number[v]
			if !ok {
				n = int32(len(s.points))
				number[v] = n
				s.points = append(s.points, t.points[v])
			}
			tri[k] = n
		}
		s.corners = append(s.corners, tri)
	}
	return s
}
