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
	tracks   *tracks      // where the bearing is not round
}

func newTrial(h Hip, d Design, ap *aperture.Aperture, list []motion.Requirement) *trial {
	t := &trial{Demand: NewDemand(h, d.Stem, list), h: h, d: d, ap: ap}
	t.theta, t.round = ap.Theta()
	t.cupPlane = h.Tilts.APPFromPlane(h.CupPlane)
	t.neck = d.Stem.FemurFromNeck()
	if !t.round {
		t.tracks = newTracks(list)
	}
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

// hint is a sample that was the worst at a position nearby.
type hint struct{ track, sample int }

// search returns the least margin of a bearing that is not round, to about
// 0.02°, or some margin of floor or less if it is no more. The hint is tried
// first, since it prunes the rest, and is told anew; it does not change the
// answer.
func (t *trial) search(n r3.Vec, near *hint, floor unit.Angle) Worst {
	k := t.comb(n)
	k.look(near.track, near.sample)
	for i := range k.list {
		if k.margin <= floor {
			break
		}
		k.along(i)
	}
	*near = hint{k.at, k.sample}
	if k.margin <= floor {
		return Worst{k.margin, k.list[k.at].moment(k.sample)}
	}
	return k.settle(t.list)
}

// noFloor is below any margin.
const noFloor = -10

// cupFromAPP returns the rotation into the cup at a cup axis given in the
// anterior pelvic plane; its clock is that of the cup's plane.
func (t *trial) cupFromAPP(n r3.Vec) hip.Rotation {
	axis := t.cupPlane.Inverse().Apply(n)
	return t.cupPlane.Mul(hip.PlaneFromCup(axis)).Inverse()
}
