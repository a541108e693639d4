package scene

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Act is an everyday activity as a whole person does it. The right hip follows
// the joint angles it is given; what the rest of the body does is a simple rule
// by eye, no measured movement.
type Act struct {
	Key    string // of the activity it shows
	camera Camera
	pose   func(m moment) *stance
	set    func(r *room, end *stance)
}

// moment is how far an act has gone: t is 0 at the start and 1 at its end, now
// and end are the postures of the hip there.
type moment struct {
	t        float64
	now, end hip.Posture
}

// Stage is an act with the things it needs, ready to be drawn at any moment.
type Stage struct {
	act *Act
	end hip.Posture
	set []Instance
}

// Stage sets an act up for a movement that ends at a posture of the hip; dark is
// for a picture on a dark background.
func (a *Act) Stage(end hip.Posture, dark bool) *Stage {
	r := room{dark: dark}
	a.set(&r, a.pose(moment{1, end, end}))
	return &Stage{a, end, r.list}
}

// Camera returns the view an act is best seen in.
func (s *Stage) Camera() Camera { return s.act.camera }

// Instances returns the person and the things about it where the movement has
// gone a share (0 to 1) of its way and the hip is at a posture. lit says that the
// parts of the joint touch. The slice is appended to list.
func (s *Stage) Instances(list []Instance, share float64, now hip.Posture, lit bool) []Instance {
	list = append(list, s.set...)
	return s.act.pose(moment{share, now, s.end}).instances(list, lit)
}

// ActByKey returns the act that shows an activity, nil if none does.
func ActByKey(key string) *Act {
	for i := range Acts {
		if Acts[i].Key == key {
			return &Acts[i]
		}
	}
	return nil
}

// from returns a camera that looks at a point of the room from an azimuth and a
// height in degrees.
func from(azimuth, height, extent float64, x, y float64) Camera {
	return Camera{Azimuth: azimuth * degree, Elevation: height * degree, Extent: extent, Distance: 5200, Target: r3.Vec{X: x, Y: y}}
}

func flexed(p hip.Posture) float64 { return p.Flexion.Degrees() }

// ease runs from 0 to 1 as t does, slow at both ends; it is done at t = by.
func ease(t, by float64) float64 {
	t = clamp(t/by, 0, 1)
	return t * t * (3 - 2*t)
}

// pulse rises to 1 at the middle and falls again.
func pulse(t float64) float64 { return math.Sin(math.Pi * clamp(t, 0, 1)) }

// like returns a posture with the flexion of another and its own small angles.
func like(p hip.Posture, adduction, internal float64) hip.Posture {
	return hip.Posture{Flexion: p.Flexion, Adduction: unit.Angle(adduction * degree), InternalRotation: unit.Angle(internal * degree)}
}

// legs says how the legs stand on their feet during an act: how high the thighs
// are raised from the plumb line and how far the shanks lean forward, in degrees
// at a share of the movement; and the other hip's posture where the right one
// has p.
type legs struct {
	raise, shin func(t float64) float64
	other       func(p hip.Posture) hip.Posture
}

// planted returns the stance whose feet stand where they do at the end.
func planted(m moment, l legs) *stance {
	lay := func(t float64, p hip.Posture) *stance {
		raise := l.raise(t)
		s := upright(flexed(p)-raise, 0, 0)
		s.swing(0, p, raise+l.shin(t))
		s.swing(1, l.other(p), raise+l.shin(t))
		return s
	}
	s, end := lay(m.t, m.now), lay(1, m.end)
	end.shift(r3.Vec{X: -end.foot[0].At.X, Y: ankleHigh - math.Min(end.foot[0].At.Y, end.foot[1].At.Y)})
	s.shift(r3.Vec{X: -s.foot[0].At.X, Y: ankleHigh - s.foot[0].At.Y})
	var feet, knees [2]r3.Vec
	for i := range 2 {
		feet[i] = r3.Vec{Y: ankleHigh, Z: end.foot[i].At.Z}
		half := r3.Scale(0.5, r3.Add(s.thigh[i].At, s.foot[i].At))
		knees[i] = r3.Add(r3.Sub(s.shank[i].At, half), r3.Vec{X: 4})
		// No leg is longer than it is.
		h := s.hipJoint(i)
		d := r3.Sub(h, feet[i])
		if reach := math.Sqrt(math.Max(sq(thighLong+shankLong-3)-sq(d.X)-sq(d.Z), 0)); d.Y > reach {
			s.shift(r3.Vec{Y: reach - d.Y})
		}
	}
	for i := range 2 {
		s.stretch(i, feet[i], knees[i])
		out := 8 + 0.45*math.Max(math.Abs(end.foot[i].At.Z)-hipAt, 0)/8
		s.foot[i] = Turn(-sideOf(i)*math.Min(out, 35)*degree, Still.Y).to(s.foot[i].At)
	}
	return s
}

// same is the other hip as the right one.
func same(p hip.Posture) hip.Posture { return p }

// steady is the other hip with the same flexion only.
func steady(p hip.Posture) hip.Posture { return like(p, -5, 0) }

// down returns a ramp from 0 to an angle, reached at a share of the movement.
func down(to, by float64) func(float64) float64 {
	return func(t float64) float64 { return to * ease(t, by) }
}

// bow returns an angle that comes and goes, with what is left of it at the end.
func bow(most, left float64) func(float64) float64 {
	return func(t float64) float64 { return most*pulse(t) + left*ease(t, 1) }
}

// seat returns the height of a seat under a stance.
func (s *stance) seat() float64 { return s.pelvis.At.Y - 96 }

// Aside returns the camera with all it sees moved to the left in the picture by
// so many mm.
func (c Camera) Aside(by float64) Camera {
	right, _, _ := c.basis()
	c.Target = r3.Add(c.Target, r3.Scale(by, right))
	return c
}

// JointCamera returns the view of the joint beside the person: along the rim
// where neck and rim meet or come closest, so that the gap between them is seen
// from its side, and a little into the cup; neither from below nor from the
// middle of the body.
func JointCamera(axis, rim r3.Vec) Camera {
	along := r3.Unit(r3.Cross(axis, rim))
	best, most := Camera{}, math.Inf(-1)
	for _, sign := range []float64{1, -1} {
		c := Facing(r3.Unit(r3.Add(r3.Scale(sign, along), r3.Scale(0.55, axis))))
		c.Azimuth = clamp(c.Azimuth, -10*degree, 190*degree)
		c.Elevation = clamp(c.Elevation, -4*degree, 24*degree)
		_, _, back := c.basis()
		if seen := r3.Dot(back, along)*sign + 0.5*back.X + 0.3*back.Z; seen > most {
			best, most = c, seen
		}
	}
	best.Extent = 185
	return best
}

// ContactBall returns a ball that marks the place where parts touch so that it
// is seen from afar.
func ContactBall(at r3.Vec) Instance {
	return Instance{contactBall(), At(at), ContactMark}
}

var contactBall = sync.OnceValue(func() *Mesh { return Head(5) })
