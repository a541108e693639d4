package view

import (
	"math"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// pastBy is the overlap beyond which a posture has gone past contact and is no
// longer held there.
const pastBy = 0.05 * unit.Degree

// holdStep is how finely a way is looked through for contact.
const holdStep = 1 * unit.Degree

// hold returns how far a hand may take the joint on the straight way from one
// posture to another: to the first contact, unless contact is to be gone past
// or the joint is past it already.
func (c *Context) hold(from, to hip.Posture) hip.Posture {
	j := c.Session.Now().Joint
	if c.Past || j.Margin(from) < -pastBy {
		return to
	}
	far := 0.0
	for k := hip.Flexion; k <= hip.InternalRotation; k++ {
		far = max(far, math.Abs(float64(to.Angle(k)-from.Angle(k))))
	}
	free, steps := 0.0, max(1, int(math.Ceil(far/float64(holdStep))))
	for i := 1; i <= steps; i++ {
		at := float64(i) / float64(steps)
		if j.Margin(from.Toward(to, at)) >= 0 {
			free = at
			continue
		}
		for range 24 {
			if middle := (free + at) / 2; j.Margin(from.Toward(to, middle)) >= 0 {
				free = middle
			} else {
				at = middle
			}
		}
		return from.Toward(to, at) // where they touch
	}
	return to
}
