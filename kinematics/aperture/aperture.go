// Package aperture answers the one geometric question of the program: in which
// directions may the neck point before it meets the rim?
//
// The parts are concentric, so a pose is a pure rotation about the head
// centre, and rim and neck can only meet at equal distance from it: contact is
// a question on the sphere. At distance rho the face of the cup stands at a
// polar angle gamma from the cup axis, and the neck has an angular half-width
// beta about its own. The aperture is the set of neck directions, in the cup
// frame, at which they do not meet.
//
// The cup frame has Z out of the opening, X towards 12 o'clock (superior) and
// Y towards 3 o'clock (anterior). An Aperture is immutable and depends on the
// shapes only, so it is built once per change of implant.
package aperture

import (
	"math"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// Pose is the neck in the cup: its axis (from the head centre towards the
// shaft) and the two directions across it from which its own azimuth counts,
// all unit vectors in the cup frame.
type Pose struct {
	Axis     r3.Vec
	Superior r3.Vec
	Anterior r3.Vec
}

// Aperture is the free set of one rim and one neck.
type Aperture struct {
	rim  implant.Rim
	neck implant.Neck

	round   bool
	theta   unit.Angle     // half angle of the free cone, round designs only
	vertex  implant.Vertex // where a round design touches
	cosFree float64        // of theta less the touch

	pair  pair                  // of all other designs
	table atomic.Pointer[table] // nil until it is first asked: see glance
	field *field                // nil for round designs
	short unit.Angle            // by how much the margin over samples overstates
}

// pair is a rim and a neck that are not both round: one of rimmed, necked and
// mutual.
type pair interface {
	margin(Pose) unit.Angle // over samples
	sampled(Pose) Touch     // the sample of that margin
	// bound is at most the exact margin of a free pose; loss is what was taken off
	// the margin over samples for that.
	bound(Pose) (least, loss unit.Angle)
	nearest(Pose) Touch // refined on the exact shapes
	seen(Pose) r3.Vec   // the direction that table and field ask about
	// least is the margin over samples at a direction seen, or a lower bound of
	// it that falls no faster than the direction moves, up to a radius around.
	least(seen r3.Vec, radius unit.Angle) unit.Angle
	gap(Pose, Touch) unit.Angle // at the place of a touch
	rise(margin unit.Angle) float64
	short() unit.Angle // by how much margin overstates, at most
	rate() float64
	steady() unit.Angle
	table() *table
	stations() *outline // of the rim
}

// Build works out the aperture of a rim and a neck whose values are finite and
// in range (kinematics validates them).
func Build(rim implant.Rim, neck implant.Neck) *Aperture {
	a := &Aperture{rim: rim, neck: neck}
	switch {
	case rim.Round() && neck.Round():
		a.round = true
		a.theta, a.vertex = cone(rim, neck)
		a.cosFree = (a.theta - touch).Cos()
		return a
	case neck.Round():
		a.pair = newRimmed(rim, neck)
	case rim.Round():
		a.pair = newNecked(rim, neck)
	default:
		a.pair = newMutual(rim, neck)
	}
	a.field, a.short = new(field), a.pair.short()
	return a
}

// Rim and Neck return the shapes the aperture was built from.
func (a *Aperture) Rim() implant.Rim   { return a.rim }
func (a *Aperture) Neck() implant.Neck { return a.neck }

// Theta returns the half angle of the cone in which the neck axis is free
// about the cup axis, and whether the aperture is such a cone: it is when rim
// and neck are both round. Below zero no direction is free.
func (a *Aperture) Theta() (theta unit.Angle, round bool) { return a.theta, a.round }

// Rate returns how fast the margin can fall, at most, per radian of rotation:
// 1 where it is a distance on the sphere, more where neither rim nor neck is
// round.
func (a *Aperture) Rate() float64 {
	if a.round {
		return 1
	}
	return a.pair.rate()
}

// Steady returns the margin down to which Rate holds. In deeper contact, where
// the neck axis itself points into the body of the cup, the margin may jump.
func (a *Aperture) Steady() unit.Angle {
	if a.round {
		return -180 * unit.Degree
	}
	return a.pair.steady()
}

// Margin returns the angle by which the neck is clear of the rim, negative in
// contact: the least rotation, in any direction, that brings contact
// (geodesic). Where neither rim nor neck is round it is the gap along the
// neck's own meridian, and Margin/Rate bounds that rotation from below.
//
// It is exact for round designs. Others are looked up on samples half a degree
// apart, which overstates by no more than Overstated; Nearest refines on the
// exact shapes.
func (a *Aperture) Margin(p Pose) unit.Angle {
	if a.round {
		return a.theta - polar(p.Axis)
	}
	return a.pair.margin(p)
}

// Overstated bounds by how much Margin exceeds the exact margin of a free pose:
// about 0.01° for lips and ovals, a tenth of a degree or two where sharp corners
// of the neck meet a rim that is not round, 0.6° where a skirt ends on a face that
// is not radial or another edge of the neck reaches under it.
func (a *Aperture) Overstated() unit.Angle { return a.short }

// Below returns a lower bound of the margin at a glance. It is less than 4°
// below, but where neither rim nor neck is round, and beside the body of a cup
// whose face is not radial.
func (a *Aperture) Below(p Pose) unit.Angle {
	if a.round {
		return a.theta - polar(p.Axis)
	}
	return a.field.below(a, a.pair.seen(p))
}

// Clear returns a certified margin for stepping along a motion: the exact one
// near contact, and a lower bound of it where that is enough.
func (a *Aperture) Clear(p Pose) unit.Angle {
	if a.round {
		return a.theta - polar(p.Axis)
	}
	if b := a.Below(p); b > nearly {
		return b
	}
	if b, loss := a.pair.bound(p); b > 4*loss {
		return b
	}
	return a.pair.nearest(p).Margin
}

// nearly is the bound below which Clear asks for more than a glance.
const nearly = 2 * unit.Degree

// Touch is the place where rim and neck come closest.
type Touch struct {
	Margin  unit.Angle
	Azimuth unit.Angle // of the rim point about the cup axis, 0 superior, positive anterior
	Vertex  implant.Vertex
	Roll    unit.Angle // azimuth of the touched side about the neck axis
	seat    int        // across the face of a round rim
	share   float64    // of the way along the seat's segment
	under   *under     // of a place under the face: it goes on with the neck; else nil
	follows *level     // of an overhanging neck, whose edge the place goes on with; else nil
	polar   unit.Angle // of the face, where the place is not at rest
}

// RimPoint returns the touched rim point in the cup frame, in mm.
func (t Touch) RimPoint() r3.Vec {
	s, c := t.Azimuth.Sincos()
	return r3.Vec{X: t.Vertex.Radial * c, Y: t.Vertex.Radial * s, Z: t.Vertex.Axial}
}

// Nearest returns where rim and neck come closest in angle.
func (a *Aperture) Nearest(p Pose) Touch {
	if !a.round {
		return a.pair.nearest(p)
	}
	t := Touch{
		Margin:  a.theta - polar(p.Axis),
		Azimuth: azimuth(p.Axis),
		Vertex:  a.vertex,
	}
	t.Roll = rollOf(p, t.RimPoint())
	return t
}

// Gap returns the exact gap between rim and neck at the place of a touch that
// was found at another pose: where it is not above 0, neither is the margin.
func (a *Aperture) Gap(p Pose, t Touch) unit.Angle {
	if a.round {
		return a.theta - polar(p.Axis)
	}
	return a.pair.gap(p, t)
}

// Rise returns, for a margin above 0, a lower bound of a measure of how far the
// neck is clear. As long as a motion is free the measure bends up by no more
// than the square of how fast the neck turns; it is 0 where contact begins. 0
// where there is no such measure.
func (a *Aperture) Rise(margin unit.Angle) float64 {
	switch {
	case margin <= 0:
		return 0
	case a.round:
		return discRise(180*unit.Degree-a.theta, 180*unit.Degree-a.theta, margin)
	}
	return a.pair.rise(margin)
}

// Touching returns some place in contact where contact is deep, which costs
// less than to find the deepest, and else the nearest.
func (a *Aperture) Touching(p Pose) Touch {
	if !a.round {
		if t := a.pair.sampled(p); t.Margin < -4*a.short {
			return t
		}
	}
	return a.Nearest(p)
}

// NeckPoint returns the point of the neck's surface that faces a touch, at the
// rim point's own distance from the head centre, in the cup frame, in mm.
func (a *Aperture) NeckPoint(p Pose, t Touch) r3.Vec {
	rho := t.Vertex.Rho()
	sb, cb := a.neck.Beta(t.Roll, rho).Sincos()
	sr, cr := t.Roll.Sincos()
	across := r3.Add(r3.Scale(cr, p.Superior), r3.Scale(sr, p.Anterior))
	return r3.Add(r3.Scale(rho*cb, p.Axis), r3.Scale(rho*sb, across))
}

// polar returns the angle of a unit vector from the cup axis, well conditioned
// near 0 and 180°.
func polar(u r3.Vec) unit.Angle { return unit.Angle(math.Atan2(math.Hypot(u.X, u.Y), u.Z)) }

// azimuth returns the azimuth of a vector about the cup axis.
func azimuth(u r3.Vec) unit.Angle { return unit.Angle(math.Atan2(u.Y, u.X)) }

// rollOf returns the azimuth of a point about the neck axis.
func rollOf(p Pose, at r3.Vec) unit.Angle {
	return unit.Angle(math.Atan2(r3.Dot(p.Anterior, at), r3.Dot(p.Superior, at)))
}

// between returns the angle between two unit vectors, well conditioned
// everywhere.
func between(a, b r3.Vec) unit.Angle {
	return unit.Angle(math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b)))
}
