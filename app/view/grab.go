package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/scene"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// grab is a hand that holds the thigh by one of its points.
type grab struct {
	*centre
	point  r3.Vec // unit direction from the head centre, in the femur's frame
	radius float64
}

// twistPerPixel turns the thigh about its shaft.
const twistPerPixel = 0.5 * unit.Degree

// take takes hold of the thigh where a line of sight meets it.
func (g *grab) take(eye, direction r3.Vec) bool {
	list := g.joint.list
	if g.joint.Glass {
		list = list[g.joint.thigh:g.joint.thighEnd]
	}
	i, at := scene.Pick(list, g.picture.Cut, eye, direction)
	if g.joint.Glass && i >= 0 {
		i += g.joint.thigh
	}
	g.radius = r3.Norm(at)
	if i < g.joint.thigh || i >= g.joint.thighEnd || g.radius < 1 {
		return false
	}
	s := g.Session.Now()
	femur := s.Joint.APPFromFemur(s.Case.Posture, s.Case.Hip.PosturePlane)
	g.point = femur.Inverse().Apply(r3.Scale(1/g.radius, at))
	return true
}

// haul brings the point that is held to a line of sight by flexion and
// adduction, or turns the thigh about its shaft. Contact stops it; along the rim
// it goes on.
func (g *grab) haul(eye, direction r3.Vec, twist float64) {
	s := g.Session.Now()
	from := s.Case.Posture
	if twist != 0 {
		turn := unit.Angle(twist) * twistPerPixel
		if s.Joint.Side() == hip.Left {
			turn = -turn
		}
		goTo(g.Session, g.hold(from, from.With(hip.InternalRotation, from.InternalRotation+turn)))
		return
	}
	femur := s.Joint.APPFromFemur(from, s.Case.Hip.PosturePlane)
	to := g.reach(from, g.goal(eye, direction, femur.Apply(g.point)))
	at := g.hold(from, to)
	for _, k := range []hip.JointAngle{hip.Flexion, hip.Adduction} {
		at = g.hold(at, at.With(k, to.Angle(k)))
	}
	goTo(g.Session, at)
}

// undecided is how far apart, as a cosine, the two places on a line of sight must
// be for the nearer to be meant; else the one in front is, as hips flex further
// than they extend.
const undecided = 0.2

// goal returns the direction from the head centre to where a line of sight
// meets the sphere on which the point that is held moves, on the side it is on.
func (g *grab) goal(eye, direction, now r3.Vec) r3.Vec {
	along := -r3.Dot(eye, direction)
	near := r3.Add(eye, r3.Scale(along, direction))
	half := math.Sqrt(max(g.radius*g.radius-r3.Dot(near, near), 0))
	a, b := r3.Add(near, r3.Scale(-half, direction)), r3.Add(near, r3.Scale(half, direction))
	switch ahead := r3.Dot(r3.Sub(b, a), now) / g.radius; {
	case math.Abs(ahead) > undecided:
		if ahead > 0 {
			a = b
		}
	case b.X > a.X:
		a = b
	}
	return r3.Unit(a)
}

// reach returns the posture, by flexion and adduction alone, that brings the
// point that is held nearest to a direction: Gauss and Newton's steps, damped.
func (g *grab) reach(p hip.Posture, goal r3.Vec) hip.Posture {
	const steps, small, damp, most = 12, 1e-5, 1e-4, 0.2
	s := g.Session.Now()
	at := func(p hip.Posture) r3.Vec {
		return s.Joint.APPFromFemur(p, s.Case.Hip.PosturePlane).Apply(g.point)
	}
	for range steps {
		v := at(p)
		off := r3.Sub(goal, v)
		df := r3.Scale(1/small, r3.Sub(at(p.With(hip.Flexion, p.Flexion+small)), v))
		da := r3.Scale(1/small, r3.Sub(at(p.With(hip.Adduction, p.Adduction+small)), v))
		ff, fa, aa := r3.Dot(df, df)+damp, r3.Dot(df, da), r3.Dot(da, da)+damp
		f, a := r3.Dot(df, off), r3.Dot(da, off)
		det := ff*aa - fa*fa
		step := func(x float64) unit.Angle { return unit.Angle(min(max(x/det, -most), most)) }
		p.Flexion += step(f*aa - a*fa)
		p.Adduction += step(a*ff - f*fa)
	}
	const least, greatest = -60 * unit.Degree, 60 * unit.Degree
	p.Adduction = min(max(p.Adduction, least), greatest)
	return p
}
