package kinematics

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
)

// meshHip is cup and neck as meshes, the cup in the neck's axes.
type meshHip struct {
	placing *solidHip // where cup and neck stand
	rest    []vec3    // the cup's points in its own axes
	cup     *meshTree
	neck    *meshTree
}

func newMeshHip(h Hip, d Design) *meshHip {
	far := d.Rim.HeadDiameter/2 + d.Rim.Wall + math.Abs(d.Rim.Inset) + 2
	cup := cupMesh(d.Rim)
	m := &meshHip{placing: newSolidHip(h, d), rest: append([]vec3{}, cup.points...)}
	m.cup, m.neck = newMeshTree(cup), newMeshTree(neckMesh(d.Neck, far))
	return m
}

func (m *meshHip) touches(p *solidPose) bool {
	for i, q := range m.rest {
		m.cup.mesh.points[i] = vec3{p[0].dot(q), p[1].dot(q), p[2].dot(q)}
	}
	m.cup.refit()
	return m.cup.meets(m.neck)
}

// Where a mesh and the exact shapes agree: to within so many degrees of the
// way, or where the exact margin is no more than so many degrees. A chord of a
// 720th of a turn lies 2.7e-4 mm inside a rim of 28 mm; ramps are cut finer.
const (
	meshTolerance = 0.01
	meshMargin    = 0.004
)

// meshFeatures are those that are cut into triangles.
var meshFeatures = []string{
	"plain", "lip", "steep", "step", "lip lip2", "notch", "step notch", "taper", "flare", "skirt", "taper skirt", "oval",
	"oval shift", "trapezoid", "trapezoid taper", "inset", "thick flare", "lip oval", "step oval shift", "notch trapezoid",
	"lip skirt inset", "shift flare",
}

// agreeWithMeshes asks the meshes at every degree of the way, and finds each
// change between contact and none by bisection.
func agreeWithMeshes(t *testing.T, r *rand.Rand, features string) (worst float64, changes int) {
	h, d := shaped(r, features)
	path := roaming(r)
	j := NewJoint(h, d)
	l := j.Limit(path)
	m := newMeshHip(h, d)
	p := newSolidPath(m.placing, h, path)
	var ends []float64
	for _, i := range l.Intervals {
		ends = append(ends, p.way(i.From), p.way(i.To))
	}
	inside := func(way float64) bool {
		for i := 0; i < len(ends); i += 2 {
			if way >= ends[i] && way <= ends[i+1] {
				return true
			}
		}
		return false
	}
	nearest := func(way float64) float64 {
		off := math.Inf(1)
		for _, e := range ends {
			off = math.Min(off, math.Abs(way-e))
		}
		return off
	}
	margin := func(way float64) float64 {
		q := p.pose(way)
		at := func(v vec3) r3.Vec { return r3.Vec{X: v[0], Y: v[1], Z: v[2]} }
		return j.Aperture.Margin(aperture.Pose{Axis: at(q[0]), Superior: at(q[1]), Anterior: at(q[2])}).Degrees()
	}
	steps := int(math.Ceil(p.end()))
	before := false
	for k := range steps + 1 {
		way := p.end() * float64(k) / float64(steps)
		now := m.touches(p.pose(way))
		if now != inside(way) && nearest(way) > meshTolerance && math.Abs(margin(way)) > meshMargin {
			t.Errorf("%s: %+v\n%+v: meshes touch at %.4f: %v; contact by the library %v, margin there %.4f°", features, d, path, way, now, ends, margin(way))
			return worst, changes
		}
		if k > 0 && now != before {
			a, b := p.end()*float64(k-1)/float64(steps), way
			for b-a > 1e-5 {
				if c := (a + b) / 2; m.touches(p.pose(c)) == before {
					a = c
				} else {
					b = c
				}
			}
			changes++
			if off := nearest(a); off <= meshTolerance {
				worst = math.Max(worst, off)
			} else if math.Abs(margin(a)) > meshMargin {
				t.Errorf("%s: %+v\n%+v: the meshes change state at %.4f, contact by the library %v, margin there %.4f°", features, d, path, a, ends, margin(a))
			}
		}
		before = now
	}
	return worst, changes
}

// Limits are those of triangle meshes in a tree of boxes, as far as triangles
// show them. A long run (see fresh_test.go) takes one design in fifty.
func TestMeshesTouchWhereTheLimitIs(t *testing.T) {
	designs, seed := 6*len(meshFeatures), uint64(29)
	switch {
	case *freshDesigns > 0:
		designs, seed = max(1, *freshDesigns/50), *freshSeed
		if seed == 0 {
			seed = rand.Uint64()>>1 + 1
		}
		t.Logf("%d designs, seed %d", designs, seed)
	case testing.Short():
		t.Skip("the full run cuts the parts into triangles")
	}
	worst := map[string]float64{}
	changes := 0
	for i := range designs {
		features := meshFeatures[i%len(meshFeatures)]
		w, n := agreeWithMeshes(t, rand.New(rand.NewPCG(seed, uint64(i))), features)
		for _, f := range strings.Fields(features) {
			worst[f] = math.Max(worst[f], math.Ceil(w*1e5)/1e5)
		}
		changes += n
	}
	if changes < designs/2 {
		t.Errorf("only %d changes between contact and none in %d designs", changes, designs)
	}
	t.Logf("%d designs, %d changes between contact and none; largest difference in degrees by feature: %v", designs, changes, worst)
}

func TestTrianglesMeetWhereTheyCross(t *testing.T) {
	flat := [3]vec3{{0, 0, 0}, {1, 0, 0}, {0, 1, 0}}
	for _, c := range []struct {
		name  string
		other [3]vec3
		meet  bool
	}{
		{"through the middle", [3]vec3{{0.2, 0.2, -1}, {0.3, 0.2, 1}, {0.2, 0.3, 1}}, true},
		{"above", [3]vec3{{0, 0, 0.01}, {1, 0, 0.01}, {0, 1, 0.01}}, false},
		{"beside, across the plane", [3]vec3{{2, 2, -1}, {2, 2, 1}, {3, 2, 0}}, false},
		{"beside the long edge", [3]vec3{{0.6, 0.6, -1}, {0.6, 0.6, 1}, {0.9, 0.9, 0}}, false},
		{"edge across edge", [3]vec3{{0.5, -0.5, -0.5}, {0.5, 0.5, 0.5}, {0.5, -0.5, 0.5}}, true},
		{"in the plane, apart", [3]vec3{{2, 0, 0}, {3, 0, 0}, {2, 1, 0}}, false},
	} {
		if got := trianglesMeet(flat, c.other); got != c.meet {
			t.Errorf("%s: meet %v, want %v", c.name, got, c.meet)
		}
		if got := trianglesMeet(c.other, flat); got != c.meet {
			t.Errorf("%s, the other way round: meet %v, want %v", c.name, got, c.meet)
		}
	}
}
