package kinematics

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
)

// featureSets are the shapes whose limits are compared with the solids, each on
// its own and together.
var featureSets = []string{
	"plain", "lip", "steep", "step", "lip lip2", "steep lip2", "step step2", "notch", "lip notch", "step notch steepnotch",
	"taper", "skirt", "taper skirt", "oval", "oval shift", "trapezoid", "bump", "oval bump", "trapezoid taper",
	"inset", "extension", "edge", "chamfer", "recess", "chamfer recess", "thick flare", "shift flare",
	"lip oval", "step oval shift", "steep trapezoid", "lip bump", "notch trapezoid", "lip taper", "step skirt", "lip skirt inset",
	"lip chamfer", "step recess", "edge lip", "lip extension", "inset oval", "recess trapezoid", "chamfer skirt flare", "any",
	"chamfer oval shift taper", "recess trapezoid flare inset", "lip oval taper chamfer", "step trapezoid flare inset", "steep oval shift taper recess", "many",
}

// edges are sets of necks with an edge about where they leave the ball: one that
// hangs over what lies beyond, or one that reaches a little under the face. The
// solids take a second or more for each, so that few are compared.
var edges = []string{"lip oval shift cliff", "chamfer lip oval shift cliff", "lip extension trapezoid sill", "step inset oval shift sill"}

// freshSet is what the fresh design of a number is drawn from.
func freshSet(i int) string {
	const seldom = 500
	if i%seldom == seldom-1 {
		return edges[i/seldom%len(edges)]
	}
	return featureSets[i%len(featureSets)]
}

// anyFeatures are those of which "any" takes a few.
var anyFeatures = []string{"lip", "steep", "step", "lip2", "step2", "notch", "taper", "skirt", "oval", "shift", "trapezoid", "bump",
	"inset", "extension", "chamfer", "recess", "thick"}

// manyFeatures are those of which "many" takes more: the shapes that have been
// wrong are among them more than once.
var manyFeatures = append([]string{"flare", "edge", "steepnotch", "taper", "flare", "skirt", "oval", "trapezoid"}, anyFeatures...)

// drawn draws some names of a list.
func drawn(r *rand.Rand, list []string, count int) (names []string) {
	for range count {
		names = append(names, list[r.IntN(len(list))])
	}
	return names
}

// shaped draws a valid design with the named features.
func shaped(r *rand.Rand, features string) (Hip, Design) {
	for {
		names := strings.Fields(features)
		switch features {
		case "any":
			names = drawn(r, anyFeatures, 2+r.IntN(4))
		case "many":
			names = drawn(r, manyFeatures, 4+r.IntN(6))
		}
		h, d := randomHip(r), roughDesign(r)
		for _, f := range names {
			feature(r, &d, f)
		}
		if valid(d) {
			return h, d
		}
	}
}

// usualCase is what a design is tried in.
var usualCase = Default()

// valid reports whether a design is one that the program answers for.
func valid(d Design) bool {
	c := usualCase
	c.Designs[0] = d
	return len(Validate(&c)) == 0
}

func roughDesign(r *rand.Rand) Design {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	head := u(22, 56)
	d := plain(head, head*u(0.3, 0.75), u(150, 205), u(20, 65), u(-15, 40), u(-10, 40), u(115, 150))
	d.Rim.Wall = u(1.5, 8)
	if d.Cup.Anteversion < 0 && r.IntN(2) == 0 {
		d.Cup.Definition = hip.Definition(r.IntN(3))
	}
	if r.IntN(2) == 0 {
		d.Stem.Varus, d.Stem.SagittalTilt = deg(u(-8, 8)), deg(u(-8, 8))
	}
	return d
}

// ramp draws a ramp: none, steep or gentle.
func ramp(r *rand.Rand) float64 {
	return [3]float64{0, 0.2 + 3*r.Float64(), 5 + 40*r.Float64()}[r.IntN(3)]
}

func feature(r *rand.Rand, d *Design, name string) {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	lip := func(ramp float64) implant.Lip {
		return implant.Lip{Height: deg(u(2, 25)), Centre: deg(u(-180, 180)), Plateau: deg(u(1, 150)), Ramp: deg(ramp)}
	}
	n, m, head := &d.Neck, &d.Rim, d.Rim.HeadDiameter
	room := (head - n.Widest()) / 2
	switch name {
	case "lip":
		m.Lips[0] = lip(u(5, 60))
	case "steep":
		m.Lips[0] = lip(u(0.2, 4))
	case "step":
		m.Lips[0] = lip(0)
	case "lip2":
		m.Lips[1] = lip(ramp(r))
	case "step2":
		m.Lips[1] = lip(0)
	case "notch":
		m.Notch = lip(ramp(r))
	case "steepnotch":
		m.Notch = lip(u(0.2, 3))
	case "taper", "flare":
		wide := u(0.6, 1.3)
		if name == "flare" {
			wide = u(1.2, 1.9)
		}
		at := u(0, 0.9*head)
		thick := max(n.Diameter, n.Oval.Width, n.Trapezoid.Width)
		n.Taper = implant.Taper{StartDiameter: thick, Start: at, EndDiameter: thick * wide, End: at + u(4, 25)}
		n.Diameter = 0
	case "cliff": // an edge that overhangs, about where the neck leaves the ball
		if !n.Oval.Present() && !n.Trapezoid.Present() {
			feature(r, d, "oval")
		}
		reach, thick := n.Widest()/2, max(n.Oval.Width, n.Trapezoid.Width)
		at := math.Sqrt(max(1, math.Pow(head/2+u(-1, 1)*m.Wall/2, 2)-reach*reach))
		long := u(0.2, 0.9) * reach * reach / at
		n.Taper = implant.Taper{StartDiameter: thick, Start: at, EndDiameter: thick * u(0.5, 0.9), End: at + max(1, min(long*0.4, 20))}
	case "sill": // an edge a little outside the ball, and a bearing that is nearly concentric
		m.Inset, m.Extension = m.Inset*u(0, 0.3), m.Extension*u(0, 0.3)
		reach, thick := n.Widest()/2, max(n.Oval.Width, n.Trapezoid.Width)
		at := math.Sqrt(max(1, math.Pow(head/2+u(0, 0.5), 2)-reach*reach))
		n.Taper = implant.Taper{StartDiameter: thick, Start: at, EndDiameter: thick * u(0.6, 1.3), End: at + u(10, 25)}
	case "skirt":
		n.Skirt = implant.Skirt{Diameter: n.Widest() * u(1.05, 1.5), Length: head/2*u(0.75, 1.15) + u(0, m.Wall)}
	case "oval":
		n.Oval = implant.Oval{Width: n.Diameter, Depth: n.Diameter * u(0.6, 1.3), Roll: deg(u(-90, 90))}
		n.Diameter = 0
	case "shift":
		if !n.Oval.Present() {
			feature(r, d, "oval")
		}
		n.Oval.SuperiorShift, n.Oval.AnteriorShift = u(-0.25, 0.25)*n.Oval.Width, u(-0.25, 0.25)*n.Oval.Depth
	case "trapezoid":
		w := n.Diameter
		n.Trapezoid = implant.Trapezoid{Width: w, Superior: w * u(0.4, 1), Inferior: w * u(0.5, 1.1), Corner: w * u(0, 0.15), Roll: deg(u(-90, 90))}
		n.Diameter = 0
	case "bump":
		n.Bump = implant.Bump{Height: u(0.3, 0.8) * room, Centre: deg(u(-180, 180)), Plateau: deg(u(0, 90)), Ramp: deg(u(leastBumpRamp, 60))}
	case "inset":
		m.Inset = u(-0.6, 0.6) * math.Min(8, room)
	case "extension":
		m.Extension = u(0.1, 0.6) * math.Min(8, room)
	case "edge":
		m.Edge = implant.Edge{Radius: head / 2 * u(1.02, 1.25), Height: u(-3, 4)}
	case "chamfer":
		m.Chamfer = implant.Chamfer{Width: u(0.1, 0.7) * m.Wall, Depth: u(0.1, 3)}
	case "recess":
		m.Recess = implant.Recess{Width: u(0.1, 0.8) * m.Wall, Depth: u(0.2, 3)}
	case "thick":
		m.Wall = u(8, 15)
	}
}

// roaming draws a motion: one joint angle from neutral or anywhere, or all three
// on two legs.
func roaming(r *rand.Rand) motion.Path {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	zero := hip.Plane(r.IntN(int(hip.PlaneCount)))
	anywhere := func() hip.Posture { return posture(u(-30, 130), u(-45, 45), u(-70, 70)) }
	switch k := r.IntN(10); {
	case k < 4:
		a, sign := Movement(r.IntN(int(MovementCount))).Joint()
		return motion.Sweep(hip.Neutral, a, sign*deg(u(60, 180)), zero)
	case k < 7:
		a, start := hip.JointAngle(r.IntN(3)), anywhere()
		return motion.Sweep(start, a, start.Angle(a)+deg(u(-200, 200)), zero)
	}
	return motion.Path{Zero: zero, Waypoints: []hip.Posture{hip.Neutral, anywhere(), anywhere()}}
}

// unlike returns the stretches that are in one list and not in the other.
func unlike(a, b [][2]float64) (list [][2]float64) {
	var cuts []float64
	for _, x := range append(append([][2]float64{}, a...), b...) {
		cuts = append(cuts, x[0], x[1])
	}
	for len(cuts) > 0 { // the next stretch between neighbouring ends
		least, next := math.Inf(1), math.Inf(1)
		for _, c := range cuts {
			if c < least {
				least, next = c, least
			} else if c > least && c < next {
				next = c
			}
		}
		if math.IsInf(next, 1) {
			break
		}
		mid := (least + next) / 2
		if in(a, mid) != in(b, mid) {
			list = append(list, [2]float64{least, next})
		}
		var rest []float64
		for _, c := range cuts {
			if c > least {
				rest = append(rest, c)
			}
		}
		cuts = rest
	}
	return list
}

func in(list [][2]float64, x float64) bool {
	for _, i := range list {
		if x >= i[0] && x <= i[1] {
			return true
		}
	}
	return false
}

// Where limits agree with the solids: to within, in degrees of the way, or
// where between the two places nothing stands farther than a graze, in mm, from
// touching.
const (
	solidTolerance = 1e-4
	solidGraze     = 1e-6
)

// graze is the depth that counts as touching. Where the end of a skirt comes as
// far out as a corner of the face or as the ball, within a hair, they meet in a
// sliver thinner than the pieces of the solids.
func (h *solidHip) graze() float64 {
	const hair, thin = 0.01, 5e-3 // mm
	k := h.neck.n.Skirt
	if k.Diameter == 0 {
		return solidGraze
	}
	end := math.Hypot(k.Length, k.Diameter/2)
	line, count := h.cup.profile(h.cup.base)
	for _, c := range append(line[:count:count], vec2{h.cup.r.HeadDiameter / 2, 0}) {
		if math.Abs(math.Hypot(c[0], c[1])-end) < hair {
			return thin
		}
	}
	return solidGraze
}

// solidTally is what a comparison found.
type solidTally struct {
	cases, stopped, started, free, intervals, grazes int
	worst, worstGraze                                float64 // degrees
}

// agreeWithSolids compares status, limit and all intervals of a motion, and
// reports whether they are the same.
func agreeWithSolids(t *testing.T, h Hip, d Design, m motion.Path, sum *solidTally) bool {
	j := NewJoint(h, d)
	l := j.Limit(m)
	p := newSolidPath(newSolidHip(h, d), h, m)
	var got [][2]float64
	for _, i := range l.Intervals {
		got = append(got, [2]float64{p.way(i.From), p.way(i.To)})
	}
	sum.cases++
	sum.intervals += len(got)
	want := p.contacts()
	for try := range 2 {
		worst, grazing, bad := judge(p, unlike(got, want))
		if !bad {
			sum.worst = math.Max(sum.worst, worst)
			if grazing > 0 {
				sum.grazes++
				sum.worstGraze = math.Max(sum.worstGraze, grazing)
			}
			break
		}
		if try == 1 {
			t.Errorf("%+v\n%+v\n%+v:\ncontact at %.6f by the library, %.6f by the solids", h, d, m, got, want)
			return false
		}
		p.step = 1e-5 // has a narrow contact been stepped over?
		want = p.contacts()
	}
	status := Free
	switch {
	case len(want) > 0 && want[0][0] == 0:
		status = StartsInContact
		sum.started++
	case len(want) > 0:
		status = Stopped
		sum.stopped++
	default:
		sum.free++
	}
	agrees := true
	if l.Status != status && len(unlike(got, want)) == 0 {
		agrees = false
		t.Errorf("%+v\n%+v\n%+v: status %d, want %d", h, d, m, l.Status, status)
	}
	if l.Status == Stopped && l.At != l.Intervals[0].From {
		agrees = false
		t.Errorf("%+v: stops at %v, but contact begins at %v", d, l.At, l.Intervals[0].From)
	}
	return agrees
}

// judge measures the stretches on which two answers differ: the longest, the
// longest that does no more than graze, and whether one is neither.
func judge(p *solidPath, stretches [][2]float64) (worst, grazing float64, bad bool) {
	for _, s := range stretches {
		long := s[1] - s[0]
		if long <= solidTolerance {
			worst = math.Max(worst, long)
			continue
		}
		grazing = math.Max(grazing, long)
		for k := range 9 {
			g := p.hip.gap(p.pose(s[0] + long*float64(k)/8))
			bad = bad || math.Abs(g) > p.hip.graze()
		}
	}
	return worst, grazing, bad
}

// The limits of at least two thousand random featured designs on random motions
// are those at which the solids first touch.
func TestRandomFeaturedDesignsStopWhereTheSolidsTouch(t *testing.T) {
	if testing.Short() {
		t.Skip("the full run asks the solids")
	}
	const each, few = 48, 12
	for k, features := range append(featureSets, edges...) {
		t.Run(strings.ReplaceAll(features, " ", "_"), func(t *testing.T) {
			t.Parallel()
			r := rand.New(rand.NewPCG(20, uint64(k)))
			var sum solidTally
			count := each
			if k >= len(featureSets) {
				count = few
			}
			for range count {
				h, d := shaped(r, features)
				agreeWithSolids(t, h, d, roaming(r), &sum)
				if t.Failed() {
					return
				}
			}
			t.Logf("%d designs: %d stop, %d start in contact, %d free, %d contacts; worst difference %.2g°, grazing %d (longest %.2g°)",
				sum.cases, sum.stopped, sum.started, sum.free, sum.intervals, sum.worst, sum.grazes, sum.worstGraze)
		})
	}
}
