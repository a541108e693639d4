package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Worst is the least margin over all required motions at one placement, and
// where it is.
type Worst struct {
	Margin unit.Angle
	Moment Moment
}

// trial is a bearing held to what motions demand of it, at one cup axis after
// another. Round bearings are answered on the demand's arcs; all others on the
// aperture, along the motions.
type trial struct {
	*Demand
	h        Hip
	d        Design
	ap       *aperture.Aperture
	theta    unit.Angle
	round    bool
	cupPlane hip.Rotation // APP from the plane in which the rim's clock is read
	neck     hip.Rotation // shaft from neck
}

func newTrial(h Hip, d Design, ap *aperture.Aperture, list []motion.Requirement) *trial {
	t := &trial{Demand: NewDemand(h, d.Stem, list), h: h, d: d, ap: ap}
	t.theta, t.round = ap.Theta()
	t.cupPlane = h.Tilts.APPFromPlane(h.CupPlane)
	t.neck = d.Stem.FemurFromNeck()
	return t
}

// worst returns the worst margin at a cup axis given in the anterior pelvic
// plane, exactly.
func (t *trial) worst(n r3.Vec) Worst {
	if t.round {
		e := t.Farthest(n)
		return Worst{t.theta - e.Angle, e.Moment}
	}
	d := t.d
	d.Cup.Inclination, d.Cup.Anteversion = hip.AnglesBy(d.Cup.Definition, t.cupPlane.Inverse().Apply(n))
	j := Assemble(t.h, d, t.ap)
	w := Worst{Margin: 10}
	for i, r := range t.list {
		if r.Open || len(r.Paths) == 0 {
			continue
		}
		if l := j.LeastOf(r.Paths); l.Margin < w.Margin {
			w = Worst{l.Margin, Moment{i, l.Path, l.At}}
		}
	}
	return w
}

// stride is the least step along a motion on which the margin is sampled, by
// the sum of the joint angles' changes: between samples so close it dips by
// some 0.01° more.
const stride = 1 * unit.Degree

// search returns the least margin of a bearing that is not round, to about
// 0.02°. A piece whose farthest direction is no farther than the inscribed cone
// allows cannot hold a margin below best; along the others, from a margin m
// none below best can come within (m - best)/rate. A moment that was the worst
// nearby, if given, is tried first and prunes the rest.
func (t *trial) search(n r3.Vec, near *Moment) Worst {
	k := combing{trial: t, cup: t.cupFromAPP(n), worst: Worst{Margin: 10}, at: -1, rate: unit.Angle(t.ap.Rate())}
	if near != nil {
		k.again(*near)
	}
	s := t.see(n)
	for i := range t.piece {
		if p := &t.piece[i]; k.lower(t.arc[i].Least(s[p.zero])) < k.worst.Margin {
			k.along(i)
		}
	}
	k.settle()
	return k.worst
}

// combing is one search.
type combing struct {
	*trial
	cup   hip.Rotation // from the APP
	worst Worst
	at    int // piece
	rate  unit.Angle
}

// lower bounds the margin where the cosine between the axes is given.
func (k *combing) lower(cos float64) unit.Angle { return k.ap.Inscribed() - unit.Angle(acos(cos)) }

// along looks along a piece.
func (k *combing) along(i int) {
	p := &k.piece[i]
	length := k.length(p)
	cup := k.cup.Mul(hip.RotationZ(k.tilts.Of(p.zero)))
	for x := unit.Angle(0); ; {
		share := 0.0
		if length > 0 {
			share = float64(x / length)
		}
		pose := k.pose(cup, p, share)
		m := k.lower(pose.Axis.Z)
		if m < k.worst.Margin {
			m = k.ap.Margin(pose)
		}
		if m < k.worst.Margin {
			k.at, k.worst = i, Worst{m, p.moment(share)}
		}
		if x >= length {
			return
		}
		x = min(length, x+max(stride, (m-k.worst.Margin)/k.rate))
	}
}

// again tries a moment.
func (k *combing) again(m Moment) {
	for i := k.first[m.Motion]; i < k.first[m.Motion+1]; i++ {
		p := &k.piece[i]
		if p.path != m.Path || p.leg != m.Place.Leg || m.Place.Fraction > p.to {
			continue
		}
		k.at, k.worst = i, Worst{k.marginAt(p, p.share(m.Place.Fraction)), m}
		return
	}
}

func (k *combing) marginAt(p *piece, share float64) unit.Angle {
	cup := k.cup.Mul(hip.RotationZ(k.tilts.Of(p.zero)))
	return k.ap.Margin(k.pose(cup, p, share))
}

// settle lowers a sampled least margin to the bottom of a parabola through it
// and its neighbours, if that is lower.
func (k *combing) settle() {
	p := &k.piece[k.at]
	length := k.length(p)
	if length == 0 {
		return
	}
	h := min(0.5, float64(stride/length))
	b := k.worst.Margin
	x := max(h, min(1-h, p.share(k.worst.Moment.Place.Fraction)))
	if x != p.share(k.worst.Moment.Place.Fraction) {
		b = k.marginAt(p, x)
	}
	a, c := k.marginAt(p, x-h), k.marginAt(p, x+h)
	if d := a - 2*b + c; d > 0 {
		x = max(0, min(1, x+h*float64((a-c)/2/d)))
		if m := k.marginAt(p, x); m < k.worst.Margin {
			k.worst = Worst{m, p.moment(x)}
		}
	}
}

// moment returns the moment at a share of the piece, and share its inverse.
func (p *piece) moment(share float64) Moment {
	return Moment{p.motion, p.path, motion.Place{Leg: p.leg, Fraction: p.from + share*(p.to-p.from)}}
}

func (p *piece) share(fraction float64) float64 {
	if p.to == p.from {
		return 0
	}
	return (fraction - p.from) / (p.to - p.from)
}

// cupFromAPP returns the rotation into the cup at a cup axis given in the
// anterior pelvic plane; its clock is that of the cup's plane.
func (t *trial) cupFromAPP(n r3.Vec) hip.Rotation {
	axis := t.cupPlane.Inverse().Apply(n)
	return t.cupPlane.Mul(hip.PlaneFromCup(axis)).Inverse()
}

// length returns how far the joint angles move over a piece.
func (t *trial) length(p *piece) unit.Angle {
	path := t.list[p.motion].Paths[p.path]
	if path.Legs() == 0 {
		return 0
	}
	return unit.Angle(turnOf(path, p.leg) * (p.to - p.from))
}

// pose returns the neck in the cup at a share of a piece; cup is the rotation
// from the piece's zero plane.
func (t *trial) pose(cup hip.Rotation, p *piece, share float64) aperture.Pose {
	path := t.list[p.motion].Paths[p.path]
	q := path.At(motion.Place{Leg: p.leg, Fraction: p.from + share*(p.to-p.from)})
	r := cup.Mul(shaft(path, q)).Mul(t.neck)
	return aperture.Pose{Superior: r.Column(0), Anterior: r.Column(1), Axis: r.Column(2)}
}
