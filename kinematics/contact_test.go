package kinematics

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// contactAt is the touch at which a movement of the usual hip ends.
func contactAt(t *testing.T, m Movement, start hip.Posture) Contact {
	t.Helper()
	_, l := reach(usual(), m, start)
	if l.Status != Stopped {
		t.Fatalf("the movement has no limit: %+v", l)
	}
	return l.Contact
}

func TestFlexionMeetsTheRimInFrontAndAboveAndLeversTheHeadBackAndDown(t *testing.T) {
	c := contactAt(t, FlexionMovement, hip.Neutral)
	if h := c.Clock(); h < 0.2 || h > 3 {
		t.Errorf("flexion meets the rim at %.2f o'clock, want between 12 and 3", h)
	}
	if h := Clock(c.Azimuth + deg(180)); h < 6 || h > 9 {
		t.Errorf("flexion levers the head towards %.2f o'clock, want between 6 and 9", h)
	}
	if c.RimPoint.X <= 0 || c.Escape.X >= 0 {
		t.Errorf("rim point %v is not in front, or escape %v not backward", c.RimPoint, c.Escape)
	}
}

func TestEachMovementMeetsTheRimOnItsOwnSide(t *testing.T) {
	for _, c := range []struct {
		name     string
		movement Movement
		start    hip.Posture
		toward   r3.Vec // where on the rim, from the cup's centre
	}{
		{"flexion", FlexionMovement, hip.Neutral, r3.Vec{X: 1}},
		{"extension", Extension, hip.Neutral, r3.Vec{X: -1}},
		{"abduction", Abduction, hip.Neutral, r3.Vec{Y: 1, Z: 1}},
		{"adduction", AdductionMovement, hip.Neutral, r3.Vec{Y: -1, Z: -1}},
		{"internal rotation in flexion", Internal, posture(90, 0, 0), r3.Vec{X: 1}},
		{"external rotation in extension", External, posture(-10, 0, 0), r3.Vec{X: -1}},
	} {
		at := contactAt(t, c.movement, c.start)
		if r3.Dot(at.RimPoint, c.toward) <= 0 || r3.Dot(at.Escape, c.toward) >= 0 {
			t.Errorf("%s touches at %v and levers to %v, want a touch towards %v and the opposite way out", c.name, at.RimPoint, at.Escape, c.toward)
		}
	}
}

func TestTheClockReadsTwelveUpThreeForwardSixDownNineBack(t *testing.T) {
	for azimuth, want := range map[float64]float64{0: 12, 90: 3, 180: 6, 270: 9, -90: 9, 360: 12, 30: 1, -30: 11, 15: 0.5, -180: 6} {
		if got := Clock(deg(azimuth)); math.Abs(got-want) > 1e-12 {
			t.Errorf("Clock(%g°) = %v, want %v", azimuth, got, want)
		}
	}
	for k := range 1000 {
		if h := Clock(deg(float64(k)*1.7 - 800)); !(h > 0 && h <= 12) {
			t.Errorf("Clock(%g°) = %v, want above 0 and up to 12", float64(k)*1.7-800, h)
		}
	}
	if a, b := Clock(-1e-18), Clock(1e-18); math.Abs(math.Remainder(a-b, 12)) > 1e-9 || a > 12 || b <= 0 {
		t.Errorf("on both sides of 12 the clock reads %v and %v", a, b)
	}
}

// What a contact says of itself is checked against the geometry in space.
func TestTheTouchedPointsLieOnRimAndNeck(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	for range 3000 {
		h, d := randomHip(r), randomPlain(r)
		j, p := NewJoint(h, d), randomPosture(r)
		c := j.Contact(p)
		n, u := j.CupAxis(), direction(h, d, p, h.PosturePlane)
		radius, arc := d.Rim.HeadDiameter/2, d.Rim.Arc
		if got, want := r3.Dot(c.RimPoint, n)/r3.Norm(c.RimPoint), (180*unit.Degree - arc/2).Cos(); math.Abs(got-want) > 1e-12 {
			t.Fatalf("rim point %v is not on the face: cosine to the axis %v, want %v", c.RimPoint, got, want)
		}
		if rho := r3.Norm(c.RimPoint); rho < radius-1e-9 || rho > radius+d.Rim.Wall+1e-9 {
			t.Fatalf("rim point is %.6f mm from the centre of a cup of radius %.6f mm", rho, radius)
		}
		across := r3.Norm(r3.Cross(c.NeckPoint, u))
		if math.Abs(across-d.Neck.Diameter/2) > 1e-9 || r3.Dot(c.NeckPoint, u) < 0 {
			t.Fatalf("neck point is %.9f mm from the neck's axis, want its radius %.9f mm", across, d.Neck.Diameter/2)
		}
		if got := r3.Norm(c.NeckPoint) - r3.Norm(c.RimPoint); math.Abs(got) > 1e-9 {
			t.Fatalf("the points lie at unequal distance from the centre: by %g mm", got)
		}
		if math.Abs(r3.Dot(c.Escape, n)) > 1e-12 || math.Abs(r3.Norm(c.Escape)-1) > 1e-12 || r3.Dot(c.Escape, c.RimPoint) >= 0 {
			t.Fatalf("escape %v is no unit direction in the opening's plane away from the rim point", c.Escape)
		}
		// The hour from the picture: up and forward as seen into the opening.
		up := r3.Unit(r3.Sub(planeUp(h), r3.Scale(r3.Dot(planeUp(h), n), n)))
		forward := r3.Cross(up, n)
		azimuth := unit.Angle(math.Atan2(r3.Dot(c.RimPoint, forward), r3.Dot(c.RimPoint, up)))
		if (azimuth - c.Azimuth).Wrapped().Abs() > 1e-9 {
			t.Fatalf("azimuth %.6f°, but the rim point lies at %.6f°", c.Azimuth.Degrees(), azimuth.Degrees())
		}
	}
}

// planeUp is the superior direction of the plane in which cup angles are
// measured, in the APP.
func planeUp(h Hip) r3.Vec { return turned(h.Tilts.Of(h.CupPlane), r3.Vec{Y: 1}) }

func TestAtALimitRimAndNeckAreInOnePlace(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 15))
	seen := 0
	for range 2000 {
		j := NewJoint(randomHip(r), randomPlain(r))
		l := j.Limit(FlexionMovement.Path(hip.Neutral, 180*unit.Degree, hip.APP))
		if l.Status != Stopped {
			continue
		}
		seen++
		if !l.Contact.InContact() && l.Contact.Margin.Degrees() > 1.1e-9 {
			t.Errorf("at its limit the margin is %.3g°", l.Contact.Margin.Degrees())
		}
		if gap := r3.Norm(r3.Sub(l.Contact.RimPoint, l.Contact.NeckPoint)); gap > 1e-7 {
			t.Errorf("at its limit rim and neck points are %.3g mm apart", gap)
		}
		if l.Contact.Clearance > 1e-7 {
			t.Errorf("at its limit the clearance is %.3g mm", l.Contact.Clearance)
		}
	}
	if seen < 500 {
		t.Errorf("only %d limits seen", seen)
	}
}

func TestALeftHipHasTheSameClinicalAnswers(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 2))
	for range 100 {
		h, d := randomHip(r), randomPlain(r)
		h.GivenAdduction = deg(10)
		left, right := h, h
		left.Side, right.Side = hip.Left, hip.Right
		if a, b := NewJoint(left, d).Answers(left), NewJoint(right, d).Answers(right); !reflect.DeepEqual(a, b) {
			t.Fatalf("%+v: the answers of the left hip differ from the right one's", d)
		}
	}
}

// A left hip worked out in its own axes, where Z points medially: cup, neck and
// turns mirrored one by one.
func TestALeftHipInItsOwnAxesIsTheMirroredRightOne(t *testing.T) {
	r := rand.New(rand.NewPCG(20, 3))
	turn := func(a unit.Angle, axis, v r3.Vec) r3.Vec { return r3.NewRotation(a.Radians(), axis).Rotate(v) }
	for range 500 {
		d, p := randomPlain(r), randomPosture(r)
		d.Stem.Varus, d.Stem.SagittalTilt = 0, 0
		j := NewJoint(Hip{Side: hip.Left}, d)
		sa, ca := (180*unit.Degree - d.Stem.NeckShaft).Sincos()
		sv, cv := d.Stem.Anteversion.Sincos()
		v := r3.Vec{X: -sv * sa, Y: -ca, Z: -cv * sa} // the left shaft's lateral side is -Z
		u := turn(p.Flexion, r3.Vec{Z: 1}, turn(-p.Adduction, r3.Vec{X: 1}, turn(-p.InternalRotation, r3.Vec{Y: 1}, v)))
		n := hip.Left.Mirror(j.CupAxis())
		c := j.Contact(p)
		theta, _ := j.Aperture.Theta()
		if got := theta - unit.Angle(math.Atan2(r3.Norm(r3.Cross(n, u)), r3.Dot(n, u))); (got - c.Margin).Abs() > 1e-12 {
			t.Fatalf("margin of the left hip in its own axes %.9f°, said %.9f°", got.Degrees(), c.Margin.Degrees())
		}
		at := hip.Left.Mirror(c.NeckPoint)
		if across := r3.Norm(r3.Cross(at, u)); math.Abs(across-d.Neck.Diameter/2) > 1e-9 {
			t.Fatalf("the mirrored neck point is %.6f mm from the left neck's axis, want %.6f mm", across, d.Neck.Diameter/2)
		}
	}
}
