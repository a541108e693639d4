package sphere

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// Arc is a stretch of a circle on the unit sphere, great or small: what a
// direction traces that turns about a fixed axis, by at most 180°.
type Arc struct {
	From, To r3.Vec
	Sweep    unit.Angle // turn about the circle's axis, 0 to 180°

	centre   r3.Vec // of the circle, in space
	leaving  r3.Vec // velocity per radian of turn at From
	arriving r3.Vec // and at To
}

// NewArc returns the arc that a direction traces as it turns about a unit axis
// by the right hand. The turn lies within ±180°.
func NewArc(from, axis r3.Vec, turn unit.Angle) Arc {
	if turn < 0 {
		axis, turn = r3.Scale(-1, axis), -turn
	}
	return arc(from, Turn(from, axis, turn), axis, turn)
}

// ArcBetween returns the arc about a unit axis whose ends are known.
func ArcBetween(from, to, axis r3.Vec, turn unit.Angle) Arc {
	if turn < 0 {
		axis, turn = r3.Scale(-1, axis), -turn
	}
	return arc(from, to, axis, turn)
}

func arc(from, to, axis r3.Vec, turn unit.Angle) Arc {
	return Arc{
		From: from, To: to, Sweep: turn,
		centre:   r3.Scale(r3.Dot(axis, from), axis),
		leaving:  r3.Cross(axis, from),
		arriving: r3.Cross(axis, to),
	}
}

// ArcThrough returns the arc from a to c through b, directions that lie close
// together. Where they coincide it is a point.
func ArcThrough(a, b, c r3.Vec) Arc {
	axis := r3.Cross(r3.Sub(b, a), r3.Sub(c, b))
	n := r3.Norm(axis)
	if n < 1e-18 {
		return straight(a, c)
	}
	axis = r3.Scale(1/n, axis)
	h := r3.Dot(axis, a)
	p, q := r3.Sub(a, r3.Scale(h, axis)), r3.Sub(c, r3.Scale(h, axis))
	turn := math.Atan2(r3.Dot(axis, r3.Cross(p, q)), r3.Dot(p, q))
	if turn <= 0 {
		return straight(a, c)
	}
	return arc(a, c, axis, unit.Angle(turn))
}

// straight returns the great-circle arc between two directions.
func straight(a, c r3.Vec) Arc {
	axis := r3.Cross(a, c)
	if n := r3.Norm(axis); n > 1e-18 {
		return arc(a, c, r3.Scale(1/n, axis), Between(a, c))
	}
	return arc(a, c, r3.Unit(square(a)), 0)
}

// At returns the direction so far along the arc.
func (a *Arc) At(turn unit.Angle) r3.Vec {
	s, c := turn.Sincos()
	return r3.Add(a.centre, r3.Add(r3.Scale(c, r3.Sub(a.From, a.centre)), r3.Scale(s, a.leaving)))
}

// Least returns the cosine of the greatest angle between n and the arc. On an
// arc of at most 180° a least value lies inside exactly when the cosine falls
// at its start and rises at its end.
func (a *Arc) Least(n r3.Vec) float64 {
	from, to := dot(n, a.From), dot(n, a.To)
	if c := dot(n, a.leaving); c < 0 && dot(n, a.arriving) > 0 {
		mid := dot(n, a.centre)
		b := from - mid
		return mid - math.Sqrt(b*b+c*c)
	}
	if to < from {
		return to
	}
	return from
}

// Farthest returns the point of the arc at the greatest angle from n, and how
// far along it lies.
func (a *Arc) Farthest(n r3.Vec) (u r3.Vec, turn unit.Angle) {
	if c := dot(n, a.leaving); c < 0 && dot(n, a.arriving) > 0 {
		b := dot(n, a.From) - dot(n, a.centre)
		turn = min(unit.Angle(math.Atan2(-c, -b)), a.Sweep)
		return a.At(turn), turn
	}
	if dot(n, a.To) < dot(n, a.From) {
		return a.To, a.Sweep
	}
	return a.From, 0
}

// Leaves returns how far along the arc the cosine of its angle from n first
// falls to c, and whether it does: where the arc leaves the cap about n whose
// radius has that cosine. 0 if it starts outside.
func (a *Arc) Leaves(n r3.Vec, c float64) (turn unit.Angle, leaves bool) {
	from := dot(n, a.From)
	if from <= c {
		return 0, true
	}
	rise, inside := dot(n, a.leaving), dot(n, a.To) > c
	if inside && (rise >= 0 || dot(n, a.arriving) <= 0) {
		return 0, false
	}
	mid := dot(n, a.centre)
	b, k := from-mid, c-mid
	d := b*b + rise*rise - k*k
	if inside && d < 0 {
		return 0, false
	}
	// b·cos x + rise·sin x = k by the half angle t = tan(x/2), in the form that
	// does not cancel.
	root := math.Sqrt(max(d, 0))
	var t float64
	if rise > 0 {
		t = (rise + root) / (b + k)
	} else {
		t = (b - k) / (root - rise)
	}
	x := 2 * math.Atan(t)
	if x < 0 {
		x += 2 * math.Pi
	}
	return min(unit.Angle(x), a.Sweep), true
}

func dot(a, b r3.Vec) float64 { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
