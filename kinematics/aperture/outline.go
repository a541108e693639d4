package aperture

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// outline is the rim as a closed sequence of samples on the sphere, dense
// enough that a minimum between neighbours is found by refining between them.
// Corners and steps of the rim are samples themselves.
type outline struct {
	rim    implant.Rim
	sample []sample
	faces  []implant.Face // at the samples, where the face is not radial
	levels []level        // the same for every sample; one where the face is radial; none for a round rim
	radial bool           // the whole face stands at its inner edge's polar angle
	skirt  bool           // one may end on a face that is not radial
	width  width
	// cosInner is the cosine of a polar angle within which no axis points into
	// the body of the cup.
	cosInner float64
	loss     unit.Angle // by how much the margin over samples at the face exceeds the exact one, at most
	sagitta  unit.Angle // by how much the rim may lie off the chords between samples
}

// sample is one station of the rim: an azimuth and the polar angle of the face
// there, seen from the face's centre. A step of the rim gives two samples, or
// more, at one azimuth. Its points are the outline's levels.
type sample struct {
	phi, polar unit.Angle
	first      r3.Vec // direction of the inner edge
	riser      bool   // the way to the next sample is a step at this azimuth
}

// spacing is the greatest arc between neighbouring samples.
const spacing = 0.5 * unit.Degree

// trace samples the rim's outline.
func trace(rim implant.Rim) outline {
	o := outline{rim: rim, radial: rim.Radial()}
	stops := stops(rim)
	for i, from := range stops {
		to := stops[(i+1)%len(stops)]
		if i+1 == len(stops) {
			to += 360 * unit.Degree
		}
		o.span(from, to)
	}
	inner := 180 * unit.Degree
	for i := range o.sample {
		inner = min(inner, polar(o.sample[i].first))
	}
	o.cosInner = max(0, inner-spacing).Cos()
	return o
}

// stops returns the azimuths at which the outline has corners or steps, in
// order within one turn, and at least three.
func stops(rim implant.Rim) []unit.Angle {
	s := []unit.Angle{-120 * unit.Degree, 0, 120 * unit.Degree}
	for _, b := range rim.Breaks() {
		s = append(s, b.Wrapped())
	}
	slices.Sort(s)
	return slices.CompactFunc(s, func(a, b unit.Angle) bool { return (b - a).Abs() < 1e-9 })
}

// span adds the samples from one stop to the next: the smooth stretch between
// them, then the riser at the next stop if the rim steps there.
func (o *outline) span(from, to unit.Angle) {
	a, b := o.beside(from, 1), o.beside(to, -1)
	n := o.pieces(from, to, a, b)
	if a != b || o.rim.Polar((from+to)/2) != a { // else it is level
		o.bow(from, to, n)
	}
	for i := range n {
		phi, p := from+unit.Angle(i)/unit.Angle(n)*(to-from), a
		if i > 0 {
			p = o.rim.Polar(phi)
		}
		o.add(phi, p, false)
	}
	after := o.beside(to, 1)
	if rise := (after - b).Abs(); rise > 1e-7 {
		n := math.Ceil(float64(rise / spacing))
		for i := range int(n) {
			o.add(to, b+(after-b)*unit.Angle(i)/unit.Angle(n), true)
		}
	}
}

// beside returns the limit of the rim's polar angle at an azimuth from the side
// of greater azimuths (1) or less (-1): it may step there.
func (o *outline) beside(phi, side unit.Angle) unit.Angle {
	nudge := side * 1e-10 // radians
	return 2*o.rim.Polar(phi+nudge) - o.rim.Polar(phi+2*nudge)
}

// bow measures a stretch in n pieces against their chords. A kink within a piece
// lies off its chord by up to twice what the middle does.
func (o *outline) bow(from, to unit.Angle, n int) {
	step := (to - from) / unit.Angle(n)
	a := o.rim.Polar(from + 1e-10)
	for i := range n {
		phi := from + unit.Angle(i)*step
		b := o.rim.Polar(min(phi+step, to-1e-10))
		if off := (o.rim.Polar(phi+step/2) - (a+b)/2).Abs(); off > 1e-9 {
			along := float64(step)
			o.sagitta = max(o.sagitta, 2*off*unit.Angle(along/math.Hypot(along, float64(b-a))))
		}
		a = b
	}
}

// short is by how much the margin over samples exceeds the exact one, at most:
// a disc may come down between two samples to the chord, and past it to the
// rim; the neck's width may be from a table; a skirt may end between two samples.
func (o *outline) short() unit.Angle {
	w := &o.width
	hang := unit.Angle(spacing*spacing/8) * unit.Angle(1+1/w.narrowest.Tan())
	s := 1.1*hang + 1.1*o.sagitta + w.bend() + 0.001*unit.Degree
	if o.skirt {
		s += 0.6 * unit.Degree
	}
	return s + o.aslant()
}

// aslant is by how much the gap may be less between the levels of a chamfer than at
// them: on the ramp of a lip it is cut aslant, and the valley of the gap may cross
// it. The share of the square of its length over its distance is measured, with
// room; no proof.
func (o *outline) aslant() (most unit.Angle) {
	if !o.rim.Chamfer.Present() {
		return 0
	}
	for i := range o.faces {
		a, b := o.faces[i].Corner[0], o.faces[i].Corner[1]
		length, near := math.Hypot(b.Axial-a.Axial, b.Radial-a.Radial), min(a.Rho(), b.Rho())
		most = max(most, unit.Angle(length*length/(near*near)/40))
	}
	return most
}

// pieces returns in how many parts to cut a stretch so that none is longer
// than the spacing, whether it runs along the rim or up a steep ramp.
func (o *outline) pieces(from, to, a, b unit.Angle) int {
	climb := (a - b).Abs() + 2*(o.rim.Polar((from+to)/2)-(a+b)/2).Abs()
	length := math.Hypot(float64(to-from), float64(climb))
	if climb > 0 {
		length *= 1.6 // a cosine ramp is steeper in its middle
	}
	return int(max(1, math.Ceil(length/float64(spacing))))
}

func (o *outline) add(phi, polar unit.Angle, riser bool) {
	f := o.rim.FaceAt(polar)
	if !o.radial {
		o.faces = append(o.faces, f)
	}
	o.sample = append(o.sample, sample{phi: phi, polar: polar, riser: riser, first: direction(f.Corner[0], phi)})
}

// direction returns the unit vector towards a face vertex at azimuth phi.
func direction(v implant.Vertex, phi unit.Angle) r3.Vec {
	sp, cp := phi.Sincos()
	rho := v.Rho()
	return r3.Vec{X: v.Radial / rho * cp, Y: v.Radial / rho * sp, Z: v.Axial / rho}
}

// wrap returns the index of a sample counted on round the rim.
func (o *outline) wrap(i int) int {
	n := len(o.sample)
	return ((i % n) + n) % n
}

// directions returns the points of the rim at one level, in order.
func (o *outline) directions(l *level) []r3.Vec {
	list := make([]r3.Vec, len(o.sample))
	for i := range o.sample {
		s := &o.sample[i]
		list[i] = s.first
		if !o.radial {
			list[i] = direction(l.middle(&o.faces[i]), s.phi)
		}
	}
	return list
}

// between returns azimuth and polar angle of the rim at x, from the sample
// before (-1) over sample i (0) to the one after (1).
func (o *outline) between(i int, x float64) (phi, polar unit.Angle) {
	from, to := i, o.wrap(i+1)
	if x < 0 {
		from, to, x = o.wrap(i-1), i, x+1
	}
	a, b := &o.sample[from], &o.sample[to]
	f := unit.Angle(x)
	if a.riser {
		return a.phi, a.polar + f*(b.polar-a.polar)
	}
	phi = a.phi + f*(b.phi-a.phi).Wrapped()
	switch x {
	case 0:
		return phi, a.polar
	case 1:
		return phi, b.polar
	}
	return phi, o.rim.Polar(phi)
}

// widths returns the neck at the face.
func (o *outline) widths(neck implant.Neck) width {
	if o.radial {
		return newWidth(o.rim, neck)
	}
	from, to := o.rim.HeadDiameter/2, 0.0
	for i := range o.faces {
		f := &o.faces[i]
		for _, v := range f.Corner[:f.Count] {
			from, to = min(from, v.Rho()), max(to, v.Rho())
		}
	}
	return newWidths(neck, from, to)
}

// beyond reports whether an axis points into the body of the cup.
func (o *outline) beyond(axis r3.Vec) bool {
	if axis.Z > o.cosInner {
		return false
	}
	f := o.rim.Face(azimuth(axis))
	return polar(axis) > f.Corner[0].Gamma()
}

// station returns a sample, at a level, as a touch.
func (o *outline) station(p Pose, n near, level int) Touch {
	t := o.sampleAt(p, n.index, level)
	t.Margin = n.gap
	return t
}

// nearBody reports whether an axis may point into the body of the cup, or less
// than an angle away from it.
func (o *outline) nearBody(axis r3.Vec, by unit.Angle) bool {
	return polar(axis) > unit.Angle(math.Acos(clamp(o.cosInner)))-by
}

// steady is the margin on the outline itself, where the narrowest neck is in
// contact by its half-width, less a spacing, or half of it for a thin one.
func (o *outline) steady() unit.Angle {
	return -max(o.width.narrowest-spacing, o.width.narrowest/2)
}

func (o *outline) stations() *outline { return o }

// signed makes the gap negative where the neck axis itself points into the
// body of the cup: to the narrowest half-width at most, which is below steady.
func (o *outline) signed(p Pose, t Touch) Touch {
	if n := o.width.narrowest; o.beyond(p.Axis) {
		t.Margin = -(max(t.Margin, -n) + 2*n)
	}
	return t
}

// after returns the first sample whose azimuth is not before one.
func (o *outline) after(phi unit.Angle) int {
	from := o.sample[0].phi
	turn := func(a unit.Angle) unit.Angle { // from the first sample on
		if a -= from; a < 0 {
			a += 360 * unit.Degree
		}
		return a
	}
	at := turn(phi.Wrapped())
	return o.wrap(sort.Search(len(o.sample), func(i int) bool { return o.sample[i].phi-from >= at }))
}
