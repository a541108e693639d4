package aperture

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// outline is the rim as a closed sequence of samples on the sphere, dense
// enough that a minimum between neighbours is found by refining between them.
// Corners and steps of the rim are samples themselves.
type outline struct {
	sample []sample
	radial bool // every point of the face stands at its inner edge's gamma
	beta   implant.Band
}

// sample is one station of the outline: an azimuth and the polar angle of the
// face there, seen from the liner's centre. A step of the rim gives two
// samples, or more, at one azimuth.
type sample struct {
	phi   unit.Angle
	polar unit.Angle
	point [maxLevels]station
	count int
}

// station is a point of the face: where it is, its direction, and how wide the
// neck can be there.
type station struct {
	vertex implant.Vertex
	dir    r3.Vec
	widest unit.Angle
}

// maxLevels is the most stations across the face: corners, quarter points and
// the neck's breaks.
const maxLevels = 16

// spacing is the greatest arc between neighbouring samples.
const spacing = 0.5 * unit.Degree

// trace samples the rim's outline.
func trace(rim implant.Rim, neck implant.Neck) outline {
	o := outline{radial: rim.Radial(), beta: neck.Band(rim.Reach())}
	stops := stops(rim)
	for i, from := range stops {
		to := stops[(i+1)%len(stops)]
		if i+1 == len(stops) {
			to += 360 * unit.Degree
		}
		o.span(rim, neck, from, to)
	}
	return o
}

// stops returns the azimuths at which the outline has corners or steps, in
// order within one turn, and at least two.
func stops(rim implant.Rim) []unit.Angle {
	var s []unit.Angle
	for _, b := range rim.Breaks() {
		s = append(s, b.Wrapped())
	}
	for _, b := range []unit.Angle{-120, 0, 120} {
		s = append(s, b*unit.Degree)
	}
	slices.Sort(s)
	return slices.Compact(s)
}

// span adds the samples from one stop to the next: the smooth stretch between
// them, then the riser at the next stop if the rim steps there.
func (o *outline) span(rim implant.Rim, neck implant.Neck, from, to unit.Angle) {
	const nudge = 1e-9 // radians: one side of a step
	a, b := rim.Polar(from+nudge), rim.Polar(to-nudge)
	n := o.pieces(rim, from, to, a, b)
	for i := range n {
		f := unit.Angle(i) / unit.Angle(n)
		phi, p := from+f*(to-from), a
		if i > 0 {
			p = rim.Polar(phi)
		}
		o.add(rim, neck, phi, p)
	}
	o.add(rim, neck, to, b)
	after := rim.Polar(to + nudge)
	if rise := (after - b).Abs(); rise > 1e-6 {
		n := int(math.Ceil(float64(rise / spacing)))
		for i := 1; i < n; i++ {
			o.add(rim, neck, to, b+(after-b)*unit.Angle(i)/unit.Angle(n))
		}
	}
}

// pieces returns in how many parts to cut a stretch so that none is longer
// than the spacing, whether it runs along the rim or up a steep ramp.
func (o *outline) pieces(rim implant.Rim, from, to, a, b unit.Angle) int {
	climb := (a - b).Abs() + 2*(rim.Polar((from+to)/2)-(a+b)/2).Abs()
	n := math.Ceil(1.6 * math.Hypot(float64(to-from), float64(climb)) / float64(spacing))
	return int(max(n, 1))
}

func (o *outline) add(rim implant.Rim, neck implant.Neck, phi, polar unit.Angle) {
	s := sample{phi: phi, polar: polar}
	if o.radial {
		f := rim.FaceAt(polar)
		s.set(f.Corner[0], phi, o.beta.Widest())
	} else {
		s.cross(rim.FaceAt(polar), phi, neck)
	}
	o.sample = append(o.sample, s)
}

func (s *sample) set(v implant.Vertex, phi, widest unit.Angle) {
	if s.count == maxLevels {
		return
	}
	sg, cg := v.Gamma().Sincos()
	sp, cp := phi.Sincos()
	s.point[s.count] = station{vertex: v, dir: r3.Vec{X: sg * cp, Y: sg * sp, Z: cg}, widest: widest}
	s.count++
}

// cross puts stations across a face that is not radial.
func (s *sample) cross(f implant.Face, phi unit.Angle, neck implant.Neck) {
	put := func(v implant.Vertex) {
		band := neck.Band(v.Rho(), v.Rho())
		s.set(v, phi, band.Widest())
	}
	put(f.Corner[0])
	for i := range f.Count - 1 {
		a, b := f.Corner[i], f.Corner[i+1]
		cuts := segmentCuts(a, b, neck)
		for j, t := range cuts[1:] {
			put(lerp(a, b, (t+cuts[j])/2))
			put(lerp(a, b, t))
		}
	}
}
