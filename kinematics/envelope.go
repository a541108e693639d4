package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Axis is one axis of a slice: a joint angle from From to To in Count values.
type Axis struct {
	Angle    hip.JointAngle
	From, To unit.Angle
	Count    int
}

// At returns the i-th value.
func (a Axis) At(i int) unit.Angle {
	if a.Count < 2 {
		return a.From
	}
	return a.From + unit.Angle(i)*(a.To-a.From)/unit.Angle(a.Count-1)
}

// Slice is a plane through the space of postures: two joint angles vary, the
// third is held where Held has it.
type Slice struct {
	Across, Up Axis
	Held       hip.Posture
}

// SliceKind names the standard slices of the envelope.
type SliceKind int

const (
	FlexionByRotation SliceKind = iota
	FlexionByAdduction
	AdductionByRotation
	ThighReach // shaft directions on a globe, by flexion and adduction
	SliceKindCount
)

// StandardSlice returns one of the standard slices through a posture, which
// gives the value of the joint angle that is held.
func StandardSlice(k SliceKind, held hip.Posture) Slice {
	flexion := Axis{hip.Flexion, -60 * unit.Degree, 160 * unit.Degree, 111}
	adduction := Axis{hip.Adduction, -80 * unit.Degree, 80 * unit.Degree, 81}
	rotation := Axis{hip.InternalRotation, -120 * unit.Degree, 120 * unit.Degree, 121}
	switch k {
	case FlexionByAdduction:
		return Slice{Across: flexion, Up: adduction, Held: held}
	case AdductionByRotation:
		return Slice{Across: adduction, Up: rotation, Held: held}
	case ThighReach:
		return Slice{
			Across: Axis{hip.Flexion, -90 * unit.Degree, 180 * unit.Degree, 136},
			Up:     Axis{hip.Adduction, -90 * unit.Degree, 90 * unit.Degree, 91},
			Held:   held,
		}
	}
	return Slice{Across: flexion, Up: rotation, Held: held}
}

// Region is the margin over a slice, row by row from the lowest value of the
// upward axis; free where it is above zero.
type Region struct {
	Slice  Slice
	Margin []unit.Angle
}

// Region returns the margin over a slice: the envelope is its zero contour.
// Values are as exact as Margin's.
func (j Joint) Region(s Slice) Region {
	r := Region{Slice: s, Margin: make([]unit.Angle, s.Across.Count*s.Up.Count)}
	j.RegionInto(&r)
	return r
}

// Refined returns the margin over a slice as Contact has it, refined on the
// exact shapes. It takes several times as long as Region.
func (j Joint) Refined(s Slice) Region {
	r := Region{Slice: s, Margin: make([]unit.Angle, s.Across.Count*s.Up.Count)}
	for k := range s.Up.Count {
		for i := range s.Across.Count {
			p := s.Held.With(s.Up.Angle, s.Up.At(k)).With(s.Across.Angle, s.Across.At(i))
			r.Margin[k*s.Across.Count+i] = j.Aperture.Nearest(j.pose(p, j.zero)).Margin
		}
	}
	return r
}

// RegionInto fills a region whose Margin has room for its slice, without
// allocating.
func (j Joint) RegionInto(r *Region) {
	s := r.Slice
	for k := range s.Up.Count {
		p := s.Held.With(s.Up.Angle, s.Up.At(k))
		row := r.Margin[k*s.Across.Count : (k+1)*s.Across.Count]
		for i := range row {
			row[i] = j.Margin(p.With(s.Across.Angle, s.Across.At(i)))
		}
	}
}

// At returns the margin at the i-th value across and the k-th up.
func (r Region) At(i, k int) unit.Angle { return r.Margin[k*r.Slice.Across.Count+i] }

// ShaftDirection returns the unit vector down the shaft at a posture, in the
// plane of its zero, of a right hip: where the thigh points on the globe.
func ShaftDirection(p hip.Posture) r3.Vec {
	return r3.Scale(-1, p.PelvisFromFemur().Column(1))
}

// FreeShare returns the share of a slice's postures that is free of contact,
// measured as the rotation group does (weight cos(adduction)).
func (r Region) FreeShare() float64 {
	free, all := 0.0, 0.0
	for k := range r.Slice.Up.Count {
		for i := range r.Slice.Across.Count {
			p := r.Slice.Held.With(r.Slice.Up.Angle, r.Slice.Up.At(k)).With(r.Slice.Across.Angle, r.Slice.Across.At(i))
			w := math.Abs(p.Adduction.Cos())
			all += w
			if r.At(i, k) > Touch {
				free += w
			}
		}
	}
	return free / all
}
