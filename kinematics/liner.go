package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// LinerRide is what a mobile liner does on one motion of a dual mobility
// bearing: wear information, never a limit. The liner stays where it is until
// the neck meets it, is then dragged, lagging behind the neck axis by the
// inner half angle, and stays where it was left. What it does next therefore
// depends on where it was, which the caller states.
type LinerRide struct {
	Inner   unit.Angle   // half angle of the cone in which the neck is free inside the liner
	Start   r3.Vec       // the liner's axis at the start of the motion, unit, APP of a right hip
	Meets   bool         // the neck meets the liner on the way
	At      motion.Place // where it first does
	Touch   Contact      // the posture there, as neck on shell; its margin is what is left to the hard stop
	Dragged unit.Angle   // the way the liner's axis is dragged, summed
	End     r3.Vec       // the liner's axis at the end, or at the hard stop
}

// rideStep is the turn of the neck after which the liner is moved on: its lag
// follows the neck to below 0.001° of the liner's axis.
const rideStep = 0.02 * unit.Degree

// LinerRide follows a mobile liner, which starts with its axis along start,
// through a motion to its end or to the hard stop. It is zero where the design
// has no mobile liner. A liner that starts coaxial with the cup has the cup
// axis as its start (CupAxis).
func (j Joint) LinerRide(m motion.Path, start r3.Vec) LinerRide {
	mobile := j.Aperture.Rim().Mobile
	if !mobile.Present() || m.Legs() == 0 {
		return LinerRide{}
	}
	ride := LinerRide{Inner: mobile.InnerHalfAngle(j.Aperture.Neck()), Start: start, End: start}
	stop := m.End()
	if l := j.Limit(m); l.Status != Free {
		stop = l.At
	}
	for leg := 0; leg <= stop.Leg; leg++ {
		end := 1.0
		if leg == stop.Leg {
			end = stop.Fraction
		}
		j.rideLeg(m, leg, end, &ride)
	}
	return ride
}

// rideLeg moves the liner along one leg, as far as end.
func (j Joint) rideLeg(m motion.Path, leg int, end float64, ride *LinerRide) {
	neck := func(f float64) r3.Vec { return j.neckAxis(m, motion.Place{Leg: leg, Fraction: f}) }
	rate := turnOf(m, leg)
	from := 0.0
	if !ride.Meets {
		gap := func(f float64) float64 { return float64(ride.Inner - angleBetween(neck(f), ride.End)) }
		at, found := solve.FirstCrossing(gap, 0, end, solve.Bound{Slope: math.Max(rate, 1e-12), Zero: float64(Touch)})
		if !found {
			return
		}
		ride.Meets, ride.At, from = true, motion.Place{Leg: leg, Fraction: at}, at
		ride.Touch = j.contact(m.At(ride.At), m.Zero)
	}
	steps := int(math.Ceil((end - from) * rate / float64(rideStep)))
	for i := 1; i <= steps; i++ {
		ride.drag(neck(from + (end-from)*float64(i)/float64(steps)))
	}
}

// drag moves the liner's axis towards the neck's until it lags by the inner
// half angle, if it lags by more.
func (r *LinerRide) drag(neck r3.Vec) {
	behind := angleBetween(neck, r.End) - r.Inner
	if behind <= 0 {
		return
	}
	toward := r3.Sub(neck, r3.Scale(r3.Dot(neck, r.End), r.End))
	s, c := behind.Sincos()
	r.End = r3.Add(r3.Scale(c, r.End), r3.Scale(s/r3.Norm(toward), toward))
	r.Dragged += behind
}

// neckAxis returns the neck axis at a place of a motion, in the APP.
func (j Joint) neckAxis(m motion.Path, at motion.Place) r3.Vec {
	return j.On(m).APPFromNeck(m.At(at), m.Zero).Column(2)
}

// angleBetween returns the angle between two unit vectors, well conditioned
// everywhere.
func angleBetween(a, b r3.Vec) unit.Angle {
	return unit.Angle(math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b)))
}

// LinerAt returns the axis of a mobile liner at a posture with its zero in the
// case's posture plane, reached straight from neutral with the liner coaxial
// with the cup at the start, in the APP of a right hip. Without a mobile liner
// it is the cup axis.
func (j Joint) LinerAt(p hip.Posture) r3.Vec {
	axis := j.CupAxis()
	if !j.Aperture.Rim().Mobile.Present() || p == hip.Neutral {
		return axis
	}
	return j.LinerRide(motion.Through(j.zero, p), axis).End
}
