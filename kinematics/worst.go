package kinematics

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/solve"
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
	ap       *aperture.Aperture
	theta    unit.Angle
	round    bool
	cupPlane hip.Rotation // APP from the plane in which the rim's clock is read
	neck     hip.Rotation // shaft from neck
	fine     float64      // least step along a motion, as a share of the usual
}

func newTrial(h Hip, s hip.Stem, ap *aperture.Aperture, list []motion.Requirement) *trial {
	t := &trial{Demand: NewDemand(h, s, list), ap: ap, fine: 1}
	t.theta, t.round = ap.Theta()
	t.cupPlane = h.Tilts.APPFromPlane(h.CupPlane)
	t.neck = s.FemurFromNeck()
	return t
}

// worst returns the worst margin at a cup axis given in the anterior pelvic
// plane.
func (t *trial) worst(n r3.Vec) Worst {
	if t.round {
		e := t.Farthest(n)
		return Worst{t.theta - e.Angle, e.Moment}
	}
	return t.search(n, unit.Angle(10))
}

// margin returns the worst margin alone, fast.
func (t *trial) margin(n r3.Vec) unit.Angle {
	if t.round {
		return t.theta - t.Farthest(n).Angle
	}
	return t.search(n, unit.Angle(10)).Margin
}

// stride is the least step along a motion on which the margin is sampled, by
// the sum of the joint angles' changes. Between samples so close the margin
// dips by less than half of it, and the least found is then refined.
const stride = 1 * unit.Degree

// search returns the least margin of a bearing that is not round. It steps
// along the pieces: from a margin m no less than best can come within
// (m - best)/rate. A best that is known to be reached prunes from the start.
func (t *trial) search(n r3.Vec, best unit.Angle) Worst {
	w := Worst{Margin: best}
	cupFromAPP := t.cupFromAPP(n)
	least, rate := stride*unit.Angle(t.fine), t.ap.Rate()
	at := -1
	for i := range t.piece {
		p := &t.piece[i]
		length := t.length(p)
		cup := cupFromAPP.Mul(hip.RotationZ(t.tilts.Of(p.zero)))
		for x := unit.Angle(0); ; {
			share := 0.0
			if length > 0 {
				share = float64(x / length)
			}
			m := t.ap.Margin(t.pose(cup, p, share))
			if m < w.Margin {
				w.Margin, at = m, i
				w.Moment = Moment{p.motion, p.path, motion.Place{Leg: p.leg, Fraction: p.from + share*(p.to-p.from)}}
			}
			if x >= length {
				break
			}
			x = min(length, x+max(least, (m-w.Margin)/unit.Angle(rate)))
		}
	}
	if at >= 0 {
		t.refineMargin(cupFromAPP, &t.piece[at], &w, least)
	}
	return w
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
	a, b := path.Waypoints[p.leg], path.Waypoints[p.leg+1]
	turn := (b.Flexion - a.Flexion).Abs() + (b.Adduction - a.Adduction).Abs() + (b.InternalRotation - a.InternalRotation).Abs()
	return turn * unit.Angle(p.to-p.from)
}

// pose returns the neck in the cup at a share of a piece; cup is the rotation
// from the piece's zero plane.
func (t *trial) pose(cup hip.Rotation, p *piece, share float64) aperture.Pose {
	path := t.list[p.motion].Paths[p.path]
	q := path.At(motion.Place{Leg: p.leg, Fraction: p.from + share*(p.to-p.from)})
	r := cup.Mul(shaft(path, q)).Mul(t.neck)
	return aperture.Pose{Superior: r.Column(0), Anterior: r.Column(1), Axis: r.Column(2)}
}

// refineMargin lowers a sampled least margin to the bottom beside it, on the
// exact rim.
func (t *trial) refineMargin(cupFromAPP hip.Rotation, p *piece, w *Worst, step unit.Angle) {
	cup := cupFromAPP.Mul(hip.RotationZ(t.tilts.Of(p.zero)))
	exact := func(share float64) float64 { return float64(t.ap.Nearest(t.pose(cup, p, share)).Margin) }
	length := t.length(p)
	if length == 0 {
		w.Margin = unit.Angle(exact(0))
		return
	}
	here, reach := (w.Moment.Place.Fraction-p.from)/(p.to-p.from), float64(step/length)
	lo, hi := max(0, here-reach), min(1, here+reach)
	best, v := here, exact(here)
	x, u := solve.Minimum(exact, lo, hi)
	if u < v {
		best, v = x, u
	}
	w.Margin, w.Moment.Place.Fraction = unit.Angle(v), p.from+best*(p.to-p.from)
}
