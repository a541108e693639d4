package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// nearest searches the outline for the least gap between rim and neck: all
// samples by a bound, the promising ones exactly, then between the samples
// around each local minimum.
func (a *Aperture) nearest(p Pose) Touch {
	o := &a.outline
	best := o.gap(a, p, o.closest(p))
	for i := range o.sample {
		s := &o.sample[i]
		for k := range s.count {
			st := &s.point[k]
			reach := best.Margin + spacing + st.widest
			if reach < math.Pi && r3.Dot(st.dir, p.Axis) < reach.Cos() {
				continue
			}
			best = o.refine(a, p, i, k, best)
		}
	}
	if a.beyond(p.Axis) {
		best.Margin = -(best.Margin + 2*o.beta.Narrowest()).Abs()
	}
	return best
}

// closest returns the sample whose first station is nearest to the neck axis.
func (o *outline) closest(p Pose) int {
	best, at := -2.0, 0
	for i := range o.sample {
		if d := r3.Dot(o.sample[i].point[0].dir, p.Axis); d > best {
			best, at = d, i
		}
	}
	return at
}

// gap returns the least gap over the stations of one sample.
func (o *outline) gap(a *Aperture, p Pose, i int) Touch {
	best := Touch{Margin: unit.Angle(math.Inf(1))}
	s := &o.sample[i]
	for k := range s.count {
		if t := a.touch(p, s.point[k].vertex, s.phi); t.Margin < best.Margin {
			best = t
		}
	}
	return best
}

// touch returns the gap between the neck and one point of the face.
func (a *Aperture) touch(p Pose, v implant.Vertex, phi unit.Angle) Touch {
	t := Touch{Azimuth: phi, Vertex: v}
	sp, cp := phi.Sincos()
	at := r3.Vec{X: v.Radial * cp, Y: v.Radial * sp, Z: v.Axial}
	t.Roll = rollOf(p, at)
	rho := v.Rho()
	var beta unit.Angle
	if a.outline.radial {
		beta, rho = a.outline.beta.Beta(t.Roll)
		f := rho / v.Rho()
		t.Vertex = implant.Vertex{Axial: v.Axial * f, Radial: v.Radial * f}
	} else {
		beta = a.neck.Beta(t.Roll, rho)
	}
	t.Margin = between(at, p.Axis) - beta
	return t
}

// refine improves the best touch around sample i, station k, where the gap
// there is no greater than at both neighbours.
func (o *outline) refine(a *Aperture, p Pose, i, k int, best Touch) Touch {
	n := len(o.sample)
	here := a.touch(p, o.sample[i].point[k].vertex, o.sample[i].phi)
	if here.Margin < best.Margin {
		best = here
	}
	if here.Margin > best.Margin+spacing {
		return best
	}
	for _, j := range [2]int{(i + n - 1) % n, (i + 1) % n} {
		best = o.between(a, p, i, j, k, best)
	}
	return best
}

// between minimises the gap between two neighbouring samples, along the rim
// or up a step of it.
func (o *outline) between(a *Aperture, p Pose, i, j, k int, best Touch) Touch {
	from, to := o.sample[i], o.sample[j]
	span := (to.phi - from.phi).Wrapped()
	at := func(f float64) Touch {
		phi := from.phi + unit.Angle(f)*span
		polar := from.polar + unit.Angle(f)*(to.polar-from.polar)
		if span.Abs() > 1e-9 {
			polar = a.rim.Polar(phi)
		}
		v := from.point[k].vertex
		if k == 0 {
			v = a.rim.FaceAt(polar).Corner[0]
		} else if polar != from.polar {
			v = a.slide(from.point[k].vertex, from.polar, polar)
		}
		return a.touch(p, v, phi)
	}
	if at(1e-3).Margin > at(0).Margin {
		return best
	}
	f, _ := solve.Minimum(func(f float64) float64 { return float64(at(f).Margin) }, 0, 1)
	if t := at(f); t.Margin < best.Margin {
		return t
	}
	return best
}

// slide moves a face point from one polar angle of the face to another,
// keeping its distance from the liner's centre.
func (a *Aperture) slide(v implant.Vertex, from, to unit.Angle) implant.Vertex {
	offset := a.rim.Offset()
	s, c := (to - from).Sincos()
	x, y := v.Axial-offset, v.Radial
	return implant.Vertex{Axial: offset + x*c - y*s, Radial: x*s + y*c}
}

// beyond reports whether the axis itself points into the body of the cup.
func (a *Aperture) beyond(u r3.Vec) bool {
	f := a.rim.Face(azimuth(u))
	return polar(u) > f.Corner[0].Gamma()
}

// rate bounds how fast the gap of a neck can fall per radian of rotation. The
// gap of a round neck falls by one; where the width changes by m per unit of
// arc round the neck it falls by sqrt(1+m²), and inside the outline the same
// holds within the ratio of its widths.
func rate(n implant.Neck, o outline) float64 {
	if n.Round() {
		return 1
	}
	const steps = 1440
	steep := 0.0
	before, _ := o.beta.Beta(-360.0 / steps * unit.Degree)
	for i := range steps {
		w, _ := o.beta.Beta(unit.Angle(i) * 360 / steps * unit.Degree)
		slope := float64((w-before).Abs()/(360.0/steps*unit.Degree)) / min(w, before).Sin()
		steep, before = max(steep, slope), w
	}
	return 1.02 * math.Hypot(1, steep) * float64(o.beta.Widest()/o.beta.Narrowest())
}
