package kinematics

import (
	"math"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// dualMobility is a shell under a mobile liner 46 mm wide with a 28 mm head,
// sizes of our own.
func dualMobility() Design {
	return Design{
		Bearing: DualMobility,
		Rim: implant.Rim{HeadDiameter: 46, Arc: 175 * unit.Degree, Wall: 3,
			Mobile: implant.Mobile{Head: 28, Arc: 220 * unit.Degree}},
		Neck: implant.Neck{Diameter: 12},
		Cup:  Cup{Inclination: 40 * unit.Degree, Anteversion: 15 * unit.Degree},
		Stem: hip.Stem{Anteversion: 15 * unit.Degree, NeckShaft: 135 * unit.Degree},
	}
}

func TestTheHardStopOfADualMobilityIsItsShell(t *testing.T) {
	d := dualMobility()
	bare := d
	bare.Rim.Mobile = implant.Mobile{}
	m := FlexionMovement.Path(hip.Neutral, 180*unit.Degree, hip.APP)
	with, without := NewJoint(Hip{}, d).Limit(m), NewJoint(Hip{}, bare).Limit(m)
	if with.Angle != without.Angle {
		t.Errorf("the mobile liner changes the hard stop from %.4f° to %.4f°", without.Angle.Degrees(), with.Angle.Degrees())
	}
	theta, _ := NewJoint(Hip{}, d).Aperture.Theta()
	want := 180 - 87.5 - math.Asin(12.0/46)*180/math.Pi
	if math.Abs(theta.Degrees()-want) > 1e-12 {
		t.Errorf("half angle to the shell = %.9f°, want %.9f°", theta.Degrees(), want)
	}
}

func TestALinerStaysUntilTheNeckMeetsItAndThenLags(t *testing.T) {
	j := NewJoint(Hip{}, dualMobility())
	m := FlexionMovement.Path(hip.Neutral, 100*unit.Degree, hip.APP)
	ride := j.LinerRide(m, j.CupAxis())
	if want := 180 - 110 - math.Asin(12.0/28)*180/math.Pi; math.Abs(ride.Inner.Degrees()-want) > 1e-9 {
		t.Fatalf("inner half angle = %.6f°, want %.6f°", ride.Inner.Degrees(), want)
	}
	if !ride.Meets {
		t.Fatal("the neck does not meet the liner within 100° of flexion")
	}
	at := j.neckAxis(m, ride.At)
	if got := angleBetween(at, j.CupAxis()); math.Abs((got - ride.Inner).Degrees()) > 1e-8 {
		t.Errorf("the neck meets the liner %.9f° from the cup axis, want its inner half angle, %.9f°", got.Degrees(), ride.Inner.Degrees())
	}
	if lag := angleBetween(j.neckAxis(m, m.End()), ride.End); math.Abs((lag - ride.Inner).Degrees()) > 1e-9 {
		t.Errorf("at the end the liner lags by %.6f°, want %.6f°", lag.Degrees(), ride.Inner.Degrees())
	}
	before := m.At(ride.At)
	short := FlexionMovement.Path(hip.Neutral, before.Flexion-0.01*unit.Degree, hip.APP)
	if still := j.LinerRide(short, j.CupAxis()); still.Meets || still.Dragged != 0 {
		t.Errorf("the liner moves before the neck meets it: %+v", still)
	}
}

func TestALinerStaysWhereItWasLeft(t *testing.T) {
	j := NewJoint(Hip{}, dualMobility())
	out := motion.Path{Waypoints: []hip.Posture{{}, {Flexion: 100 * unit.Degree}}}
	back := motion.Path{Waypoints: []hip.Posture{{}, {Flexion: 100 * unit.Degree}, {Flexion: 95 * unit.Degree}}}
	a, b := j.LinerRide(out, j.CupAxis()), j.LinerRide(back, j.CupAxis())
	if off := angleBetween(a.End, b.End); off > 1e-9 {
		t.Errorf("the liner moved by %.6f° while the neck went back 5°", off.Degrees())
	}
	if again := j.LinerRide(out, a.End); again.Meets && again.Dragged > 1e-3*unit.Degree {
		t.Errorf("a liner left by a motion is dragged %.6f° by the same motion again", again.Dragged.Degrees())
	}
}

func TestALinersRideIsTheSameInFinerSteps(t *testing.T) {
	j := NewJoint(Hip{}, dualMobility())
	m := motion.Path{Waypoints: []hip.Posture{{}, {Flexion: 90 * unit.Degree}, {Flexion: 90 * unit.Degree, InternalRotation: 20 * unit.Degree}}}
	ride := j.LinerRide(m, j.CupAxis())
	fine := LinerRide{Inner: ride.Inner, End: j.CupAxis()}
	const steps = 200000
	for leg := range 2 {
		for i := 1; i <= steps; i++ {
			fine.drag(j.neckAxis(m, motion.Place{Leg: leg, Fraction: float64(i) / steps}))
		}
	}
	if off := angleBetween(ride.End, fine.End); off > 0.001*unit.Degree {
		t.Errorf("the liner ends %.6f° from where 0.0005° steps leave it, want 0.001° at most", off.Degrees())
	}
}
