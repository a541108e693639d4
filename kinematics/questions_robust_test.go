package kinematics

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"reflect"
	"sync"
	"testing"
	"time"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/assets"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// everyMotion is the library that comes with the program.
var everyMotion = sync.OnceValue(func() motion.Library {
	var all motion.Library
	for _, data := range assets.Activities() {
		l, err := motion.Read(bytes.NewReader(data))
		if err == nil {
			all, err = all.With(l)
		}
		if err != nil {
			panic(err)
		}
	}
	return all
})

// asked draws up to a few of the library's activities and criteria for a case.
func askedOf(t *rapid.T, c *Case, most int) []motion.Requirement {
	l := everyMotion()
	var list []motion.Requirement
	for range rapid.IntRange(0, most).Draw(t, "motions") {
		list = append(list, rapid.SampledFrom(l.Activities).Draw(t, "activity").Requirement(c.Setting()))
	}
	if rapid.IntRange(0, 3).Draw(t, "criteria") == 0 && len(l.Criteria) > 0 {
		list = append(list, rapid.SampledFrom(l.Criteria).Draw(t, "set").Requirements()...)
	}
	return list
}

// Questions must be answered within these, many times what they take on two
// busy cores; one that hangs ends the test.
const (
	answeredWithin = 20 * time.Second
	hangs          = 3 * time.Minute
)

// ask answers a question of a case and checks that the answer is finite and
// comes in time.
func ask[A any](t *rapid.T, c *Case, question string, answer func() A) A {
	start := time.Now()
	watch := time.AfterFunc(hangs, func() { panic(fmt.Sprintf("%s is not answered within %v for %+v", question, hangs, *c)) })
	a := answer()
	watch.Stop()
	if took := time.Since(start); took > answeredWithin {
		t.Fatalf("%s took %v for %+v", question, took, *c)
	}
	if where := notFinite(question, reflect.ValueOf(a)); where != "" {
		t.Fatalf("%s is not finite for %+v: %+v", where, *c, a)
	}
	return a
}

func TestEveryFaultNamesKeyValueAndRange(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := edgyCase(t)
		for _, f := range Validate(&c) {
			named(t, &c, f)
		}
	})
}

func TestAnEdgyCaseHasFiniteLimits(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := mended(t, edgyCase(t))
		Warnings(&c)
		for _, d := range c.Active() {
			j := ask(t, &c, "assembling", func() *Joint { j := NewJoint(c.Hip, d); return &j })
			for _, a := range ask(t, &c, "limits", func() []Answer { return j.Answers(c.Hip) }) {
				sound(t, *j, a.Path, a.Limit)
			}
			k := ask(t, &c, "contact", func() Contact { return j.Contact(c.Posture) })
			if k.Clearance < 0 || k.InContact() && k.Clearance > 0 {
				t.Fatalf("clearance %v mm at a margin of %v° for %+v", k.Clearance, k.Margin.Degrees(), c)
			}
			ask(t, &c, "margin", func() unit.Angle { return j.Margin(c.Posture) })
		}
	})
}

// within is the margin, in radians, that a limit may be off: 1e-6°.
const within = 1e-6 * unit.Degree

// sound checks a limit against margins along its path.
func sound(t *rapid.T, j Joint, m motion.Path, l Limit) {
	on := j.On(m)
	margin := func(at motion.Place) unit.Angle { return on.contact(m.At(at), m.Zero).Margin }
	switch l.Status {
	case Stopped:
		if l.Contact.Margin.Abs() > within {
			t.Fatalf("stopped at a margin of %v°: %+v", l.Contact.Margin.Degrees(), l)
		}
	case StartsInContact:
		if v := margin(motion.Place{}); v > within {
			t.Fatalf("starts in contact at a margin of %v°: %+v", v.Degrees(), l)
		}
		return
	case Free:
		if len(l.Intervals) > 0 || l.At != m.End() {
			t.Fatalf("free, yet %+v", l)
		}
	default:
		t.Fatalf("status %d", l.Status)
	}
	for leg := 0; leg <= l.At.Leg; leg++ {
		end := 1.0
		if leg == l.At.Leg {
			end = l.At.Fraction
		}
		for i := range 8 {
			at := motion.Place{Leg: leg, Fraction: end * (float64(i) + 0.5) / 8}
			if v := margin(at); v < -within {
				t.Fatalf("margin %v° at %+v, on the way to %+v", v.Degrees(), at, l)
			}
		}
	}
	for i, n := range l.Intervals {
		if after(n.From, n.To) || i > 0 && after(l.Intervals[i-1].To, n.From) {
			t.Fatalf("intervals out of order: %+v", l.Intervals)
		}
		if n.From.Leg == n.To.Leg {
			if v := margin(motion.Place{Leg: n.From.Leg, Fraction: (n.From.Fraction + n.To.Fraction) / 2}); v > within {
				t.Fatalf("margin %v° within contact %+v", v.Degrees(), n)
			}
		}
	}
}

// after reports whether a place lies behind another.
func after(a, b motion.Place) bool {
	return a.Leg > b.Leg || a.Leg == b.Leg && a.Fraction > b.Fraction
}

func TestAnEdgyCaseHasAFiniteEnvelope(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := mended(t, edgyCase(t))
		j := NewJoint(c.Hip, c.Designs[0])
		for k := range SliceKindCount {
			s := StandardSlice(k, c.Posture)
			s.Across.Count, s.Up.Count = 9, 7
			r := ask(t, &c, "region", func() Region { return j.Region(s) })
			if f := ask(t, &c, "free share", r.FreeShare); f < 0 || f > 1 {
				t.Fatalf("a share of %v is free for %+v", f, c)
			}
		}
	})
}

func TestAnEdgyCaseIsJudged(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := mended(t, edgyCase(t))
		j, list := NewJoint(c.Hip, c.Designs[0]), askedOf(t, &c, 6)
		v := ask(t, &c, "verdict", func() Verdict { return j.Judge(list, c.Goal.Closeness) })
		all := 0
		for _, n := range v.Count {
			all += n
		}
		if all != len(list) || len(v.Outcomes) != len(list) {
			t.Fatalf("%d motions, %v counted", len(list), v.Count)
		}
		for i, o := range v.Outcomes {
			if o.Missing < 0 {
				t.Fatalf("%s: %v° are missing for %+v", list[i].Key, o.Missing.Degrees(), c)
			}
			switch {
			case o.Standing == Short && (o.Least.Margin > Touch || o.Contact.Margin > within):
				t.Fatalf("%s is short with a margin of %v° for %+v", list[i].Key, o.Least.Margin.Degrees(), c)
			case (o.Standing == Met || o.Standing == Close) && o.Contact.Margin < -within:
				t.Fatalf("%s is free and in contact: %+v for %+v", list[i].Key, o, c)
			}
			if o.Standing == Asked {
				continue
			}
			if l := o.Least; i < len(list) && len(list[i].Paths) > l.Path {
				p := list[i].Paths[l.Path]
				if v := j.On(p).contact(p.At(l.At), p.Zero).Margin; (v - l.Margin).Abs() > 0.01*unit.Degree {
					t.Fatalf("%s: least margin %v°, there it is %v° for %+v", list[i].Key, l.Margin.Degrees(), v.Degrees(), c)
				}
			}
		}
	})
}

func TestAnEdgyCupHoldsItsHeadByFiniteFigures(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := mended(t, edgyCase(t))
		d := c.Designs[0]
		j := NewJoint(c.Hip, d)
		ask(t, &c, "totals", j.Totals)
		limits := j.Answers(c.Hip)
		for _, l := range Loads {
			vertical := l
			vertical.Medial, vertical.Anterior = 0, 0
			for _, l := range [2]Load{l, vertical} {
				s := ask(t, &c, "stability", func() Stability { return j.Stability(d, l, CobaltChrome) })
				if s.LeastJump < 0 || s.LateralJump < 0 || s.LeastJump > 2*d.Rim.HeadDiameter {
					t.Fatalf("jump distances %v, %v mm for %+v", s.LeastJump, s.LateralJump, c)
				}
				if s.Patch.Known != (d.Bearing == Resurfacing) {
					t.Fatalf("patch %+v of bearing %d", s.Patch, d.Bearing)
				}
			}
			load := l.InAPP(c.Hip.Tilts)
			for _, a := range limits {
				if a.Limit.Status != Stopped {
					continue
				}
				v := ask(t, &c, "levers", func() [len(LeverTurns)]Lever { return j.Levers(a.Limit.Contact, load) })
				for i := range v {
					if v[i].Travel <= 0 || i > 0 && v[i].Travel <= v[i-1].Travel || v[i].Barrier < 0 {
						t.Fatalf("levers %+v for %+v", v, c)
					}
				}
				if e := ask(t, &c, "escape", func() float64 { return j.EscapeJump(a.Limit.Contact, load) }); e < 0 {
					t.Fatalf("jump of %v mm towards the escape for %+v", e, c)
				}
			}
		}
	})
}

func TestAnEdgyCaseStandsToEveryZone(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := mended(t, edgyCase(t))
		d := c.Designs[0]
		for _, z := range Zones {
			ask(t, &c, "zone "+z.Key, func() bool { return z.Holds(c.Hip, d.Cup, d.Stem.Anteversion) })
			ask(t, &c, "outline "+z.Key, func() []Spot {
				return z.Outline(c.Hip.Tilts, d.Stem.Anteversion, d.Cup.Definition, c.Hip.CupPlane, allInclination)
			})
			ask(t, &c, "versions "+z.Key, func() []Spot {
				list, _ := z.VersionOutline(c.Hip.Tilts, d.Cup.Definition, c.Hip.CupPlane, d.Cup.Inclination, Range{-30 * unit.Degree, 75 * unit.Degree})
				return list
			})
		}
	})
}

// simpler leaves lips and notch out where the neck is not round either, except in
// a long run: a target for both takes seconds for each motion.
func simpler(c Case) Case {
	d := &c.Designs[0]
	if os.Getenv("RIMCLEAR_LONG") != "1" && !d.Neck.Round() {
		d.Rim = d.Rim.Bare()
	}
	return c
}

func TestAnEdgyCaseHasATarget(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := simpler(mended(t, edgyCase(t)))
		d, ctx := c.Designs[0], context.Background()
		s := Search{Hip: c.Hip, Design: d, Required: askedOf(t, &c, 2), Bounds: c.Goal.Bounds(c.Hip, d)}
		a := ask(t, &c, "target", func() Target { a, _ := FindTarget(ctx, s); return a })
		switch {
		case a.Asked && a.Fits && math.Abs(r3.Norm(a.Best.Axis)-1) > 1e-9:
			t.Fatalf("the best cup's axis is %v for %+v", a.Best.Axis, c)
		case a.Asked && a.Fits && a.Reachable && a.Cost() < -0.02*unit.Degree:
			t.Fatalf("bounds gain %v° for %+v", -a.Cost().Degrees(), c)
		case a.Serves() && !a.Asked:
			t.Fatalf("nothing is asked, and it serves: %+v", a)
		}
		n := NewJoint(c.Hip, d).CupAxis()
		ask(t, &c, "smallest head", func() Needed { return SmallestHead(s, n, 0) })
		ask(t, &c, "widest neck", func() Needed { return WidestNeck(s, n, 0) })
	})
}

func TestAnEdgyCaseIsMappedAndSimulated(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := simpler(mended(t, edgyCase(t)))
		d, ctx := c.Designs[0], context.Background()
		list := askedOf(t, &c, 2)
		for _, g := range []Grid{
			PlacementGrid(d.Cup.Definition, c.Hip.CupPlane), VersionGrid(d.Cup.Definition, c.Hip.CupPlane),
			PairGrid(rapid.SampledFrom(Mapped()).Draw(t, "across"), rapid.SampledFrom(Mapped()).Draw(t, "up"), d.Cup.Definition, c.Hip.CupPlane),
		} {
			g.Across.Count, g.Up.Count = 4, 3
			ask(t, &c, "map", func() Map {
				var m Map
				if err := Survey(ctx, c, 0, list, g, 1, &m); err != nil && g.Across.Key != g.Up.Key {
					t.Fatalf("map over %s and %s: %v", g.Across.Key, g.Up.Key, err)
				}
				return m
			})
		}
		s := Simulation{Search: Search{Hip: c.Hip, Design: d, Required: list, Bounds: c.Goal.Bounds(c.Hip, d)},
			Scatter: c.Goal.Scatter(), Points: 8, Randomisations: 2, Workers: 1}
		a := ask(t, &c, "placements", func() Share {
			a, err := Placement(ctx, s)
			if err != nil {
				t.Fatalf("scatter %+v: %v", s.Scatter, err)
			}
			return a
		})
		if a.Share < 0 || a.Share > 1 || a.Uncovered < 0 || a.Uncovered > 1 {
			t.Fatalf("shares %+v for %+v", a, c)
		}
	})
}

func TestAnEdgyMobileLinerRides(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		c := mended(t, edgyCase(t))
		j := NewJoint(c.Hip, c.Designs[0])
		q := rapid.SampledFrom(Questions).Draw(t, "question")
		r := ask(t, &c, "liner", func() LinerRide { return j.LinerRide(q.Path(c.Hip), j.CupAxis()) })
		if r.Dragged < 0 {
			t.Fatalf("dragged by %v° for %+v", r.Dragged.Degrees(), c)
		}
	})
}

// A left hip is the mirror image of a right one: the same angles, and the same
// points mirrored in Z.
func TestAnEdgyLeftHipIsTheMirrorImage(t *testing.T) {
	often(t, 100, func(t *rapid.T) {
		right := mended(t, edgyCase(t))
		right.Hip.Side = hip.Right
		left := right
		left.Hip.Side = hip.Left
		d := right.Designs[0]
		r, l := NewJoint(right.Hip, d), NewJoint(left.Hip, d)
		if a, b := r.Answers(right.Hip), l.Answers(left.Hip); !reflect.DeepEqual(a, b) {
			t.Fatalf("limits of a right hip %+v, of a left one %+v", a, b)
		}
		a, b := r.Contact(right.Posture), l.Contact(left.Posture)
		mirrored := r3.Vec{X: a.RimPoint.X, Y: a.RimPoint.Y, Z: -a.RimPoint.Z}
		if got := l.Side().Mirror(b.RimPoint); a.Margin != b.Margin || got != mirrored || r.Side().Mirror(a.RimPoint) != a.RimPoint {
			t.Fatalf("rim point %v on the right, %v on the left", a.RimPoint, got)
		}
	})
}
