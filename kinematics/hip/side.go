package hip

import "gonum.org/v1/gonum/spatial/r3"

// Side of the body. All computation is done as a right hip; clinical angles
// keep their sign on both sides, and clock hours their names.
type Side int

const (
	Right Side = iota
	Left
)

// Mirror takes a vector of the right-hip frame to the patient's frame and
// back: a left hip is the mirror image in Z. This is the only mirror.
func (s Side) Mirror(v r3.Vec) r3.Vec {
	if s == Left {
		v.Z = -v.Z
	}
	return v
}
