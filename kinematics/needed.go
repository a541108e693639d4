package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// Needed is a value of a parameter that decides whether a bearing serves.
type Needed struct {
	Found bool    // some value in the parameter's range serves
	Value float64 // in the unit of files and screen
	Bound bool    // it is an end of the range: the limit is the table's, not the motions'
	Moot  bool    // the design has no such size, so none was looked for
}

// SmallestHead returns the smallest head that would serve on the design's neck,
// all else unchanged, with the cup axis (of the anterior pelvic plane) at n and
// a worst margin of at least spare. A round bearing's best axis does not depend
// on its head, so Target.Best or Constrained gives the smallest head at any cup
// position; for others it is the smallest at that axis.
func SmallestHead(s Search, n r3.Vec, spare unit.Angle) Needed {
	return s.needed("head_diameter_mm", true, n, spare)
}

// WidestNeck returns the widest cylindrical neck that would serve under the
// design's head, in the same sense. It is moot for a design whose neck is not
// one.
func WidestNeck(s Search, n r3.Vec, spare unit.Angle) Needed {
	if s.Design.Neck != (implant.Neck{Diameter: s.Design.Neck.Diameter}) {
		return Needed{Moot: true}
	}
	return s.needed("neck_diameter_mm", false, n, spare)
}

// sizeSteps is how finely a size is looked for before it is refined.
const sizeSteps = 64

// needed looks for the end of the values of a parameter that serve: the least if
// small, else the greatest.
func (s Search) needed(key string, small bool, n r3.Vec, spare unit.Angle) Needed {
	p := ParameterByKey(key)
	reserve := s.reserve(p, n, max(spare, Touch))
	good, bad := p.Max, p.Min
	if !small {
		good, bad = bad, good
	}
	last := bad
	for i := range sizeSteps + 1 {
		x := bad + (good-bad)*float64(i)/sizeSteps
		if reserve(x) > 0 {
			if i == 0 {
				return Needed{Found: true, Value: x, Bound: true}
			}
			return Needed{Found: true, Value: solve.Root(reserve, last, x)}
		}
		last = x
	}
	return Needed{}
}

// reserve returns by how much the worst margin exceeds what is wanted as a
// function of a parameter; below zero where the values make no bearing.
func (s Search) reserve(p *Parameter, n r3.Vec, spare unit.Angle) func(float64) float64 {
	list := s.Required
	ask := newTrial(s.Hip, s.Design, aperture.Build(s.Design.Rim, s.Design.Neck), list)
	if ask.Empty() {
		return func(float64) float64 { return 1 }
	}
	farthest := ask.Farthest(n).Angle
	near := hint{}
	return func(x float64) float64 {
		c := Case{Hip: s.Hip}
		d := &c.Designs[0]
		*d = s.Design
		p.set(&c, d, x)
		if len(d.faults(0)) > 0 {
			return -1
		}
		t := *ask
		t.d, t.ap = *d, aperture.Build(d.Rim, d.Neck)
		if t.theta, t.round = t.ap.Theta(); t.round {
			return float64(t.theta - farthest - spare)
		}
		if t.tracks != nil {
			if m := t.search(n, &near, noFloor).Margin - spare; m.Abs() > roughly {
				return float64(m)
			}
		}
		return float64(t.worst(n).Margin - spare)
	}
}

// roughly is well above what a search over samples is off by.
const roughly = 0.1 * unit.Degree

// Margins returns the margin of every required motion with the cup axis at n in
// a bearing of half angle theta, into a list of as many: what a surgeon sees
// beside a map as the cup is dragged. 180° where a motion asks for nothing.
func (d *Demand) Margins(n r3.Vec, theta unit.Angle, into []unit.Angle) {
	for i := range d.list {
		into[i] = 180 * unit.Degree
		if e, ok := d.FarthestOf(i, n); ok {
			into[i] = theta - e.Angle
		}
	}
}

// Sides returns the least margins of the motions that risk a posterior and an
// anterior dislocation: one worst margin hides what a change of version buys
// and what it sells.
func Sides(list []motion.Requirement, margins []unit.Angle) (posterior, anterior Flank) {
	for i, r := range list {
		switch {
		case r.Open:
		case r.Risk == motion.Posterior:
			posterior.lower(margins[i], i)
		case r.Risk == motion.Anterior:
			anterior.lower(margins[i], i)
		}
	}
	return posterior, anterior
}
