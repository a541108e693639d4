package sphere

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// Point is a direction and what it came from: an index of the caller's.
type Point struct {
	At   r3.Vec
	From int
}

// Enclosure is the smallest cap that encloses a set, and why it is no smaller.
//
// If Fits is false no hemisphere holds the set, and the points of Support do
// not lie in any open hemisphere themselves: the witness.
type Enclosure struct {
	Cap
	Fits    bool
	Support []Point    // two or three points on the cap's edge (one if the set is a point)
	Gap     unit.Angle // no enclosing cap is smaller than Radius by more than this
}

// Tolerance is the gap at which Enclose is content. 1e-9°.
const Tolerance = 1e-9 * unit.Degree

// exchanges bounds the steps of Enclose; sets of arcs need about ten.
const exchanges = 500

// Enclose returns the smallest enclosing cap of a closed set of directions that
// is known by its farthest point from any axis.
//
// It is Welzl's algorithm with Gärtner's rule (Fast and robust smallest
// enclosing balls, ESA 1999): the farthest point joins the support, and the
// smallest cap of those at most four points gives the new one. The radius rises
// at every step, the set itself never needs to be listed, and the support's own
// radius bounds the answer from below.
func Enclose(first Point, farthest func(axis r3.Vec) Point) Enclosure {
	e := Enclosure{Cap: Cap{Axis: first.At}, Fits: true, Support: []Point{first}}
	for step := 0; ; step++ {
		p := farthest(e.Axis)
		far := Between(e.Axis, p.At)
		e.Gap = max(0, far-e.Radius)
		if e.Gap <= Tolerance/2 || step == exchanges {
			e.Radius = far
			return e
		}
		c, support := smallest(append(e.Support, p))
		if c.Radius >= 90*unit.Degree-1e-12 {
			return Enclosure{Cap: Cap{Axis: c.Axis, Radius: 90 * unit.Degree}, Support: append(e.Support, p)}
		}
		if c.Radius <= e.Radius { // rounding: no better cap can be told apart
			e.Radius = far
			return e
		}
		e.Cap, e.Support = c, support
	}
}

// EncloseDirections returns the smallest enclosing cap of at least one
// direction; Point.From is an index of the list.
func EncloseDirections(list []r3.Vec) Enclosure {
	return Enclose(Point{list[0], 0}, func(n r3.Vec) Point {
		at, least := 0, math.Inf(1)
		for i, u := range list {
			if d := dot(n, u); d < least {
				at, least = i, d
			}
		}
		return Point{list[at], at}
	})
}

// EncloseArcs returns the smallest enclosing cap of at least one arc;
// Point.From is an index of the list.
func EncloseArcs(list []Arc) Enclosure {
	return Enclose(Point{list[0].From, 0}, func(n r3.Vec) Point {
		at, least := 0, math.Inf(1)
		for i := range list {
			if d := list[i].Least(n); d < least {
				at, least = i, d
			}
		}
		u, _ := list[at].Farthest(n)
		return Point{u, at}
	})
}

// smallest returns the smallest enclosing cap of two to four points and those
// on its edge: the least by its own farthest point among the caps of all pairs
// and triples. A radius of 180° means that there is none.
func smallest(p []Point) (Cap, []Point) {
	best, support := Cap{Axis: p[0].At, Radius: 180 * unit.Degree}, p[:1]
	try := func(axis r3.Vec, on ...Point) {
		var far unit.Angle
		for _, q := range p {
			far = max(far, Between(axis, q.At))
		}
		if far < best.Radius {
			best, support = Cap{axis, far}, on
		}
	}
	for i := range p {
		for j := range i {
			if axis, ok := middle(p[i].At, p[j].At); ok {
				try(axis, p[j], p[i])
			}
			for k := range j {
				if axis, ok := around(p[i].At, p[j].At, p[k].At); ok {
					try(axis, p[k], p[j], p[i])
				}
			}
		}
	}
	return best, support
}

// middle returns the axis of the smallest cap through two points; opposite
// points have none.
func middle(a, b r3.Vec) (r3.Vec, bool) {
	s := r3.Add(a, b)
	n := r3.Norm(s)
	if n < 1e-14 {
		return s, false
	}
	return r3.Scale(1/n, s), true
}

// around returns the axis of the cap of at most 90° through three points;
// points that coincide have none.
func around(a, b, c r3.Vec) (r3.Vec, bool) {
	s := r3.Cross(r3.Sub(b, a), r3.Sub(c, a))
	n := r3.Norm(s)
	if n < 1e-18 {
		return s, false
	}
	if dot(s, a) < 0 {
		n = -n
	}
	return r3.Scale(1/n, s), true
}
