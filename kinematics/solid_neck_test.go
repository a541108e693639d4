package kinematics

import (
	"math"

	"rimclear/kinematics/implant"
)

// The solid_*_test.go files are a second, independent way to the limits of a
// motion, from the definitions of implant and assets/golden/contact.md alone.
// Cup and neck are solids in space: a point of the cup's surface is in the neck
// or is not. The surface is divided ever more finely where it comes near the
// neck, so that no part of it is overlooked, however narrow. None of the
// formulas of aperture, sphere, solve and hip is used. Degrees and mm.

// vec3 is a place or direction in space.
type vec3 [3]float64

func (a vec3) plus(k float64, b vec3) vec3 { return vec3{a[0] + k*b[0], a[1] + k*b[1], a[2] + k*b[2]} }
func (a vec3) dot(b vec3) float64          { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func (a vec3) length() float64             { return math.Sqrt(a.dot(a)) }
func (a vec3) cross(b vec3) vec3 {
	return vec3{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// hypot is math.Hypot without its care for overflow.
func hypot(a, b float64) float64 { return math.Sqrt(a*a + b*b) }

const inDegrees = 180 / math.Pi

func sincosd(degrees float64) (s, c float64) { return math.Sincos(degrees / inDegrees) }

// solidNeck is the neck as a set of points: along its axis from the head
// centre, and across it towards superior and anterior.
type solidNeck struct {
	n implant.Neck
	// Of an oval: half widths, roll, centre along the rolled axes.
	a, b, sinRoll, cosRoll, cx, cy float64
	corners                        []vec2  // of a trapezoid less its rounding
	d0, s0, d1, s1                 float64 // of a taper, d0 > 0
	steep                          float64 // greatest change of the taper's factor per mm
	wide                           float64 // greatest reach of the section without bump
	steepness                      float64 // of Gap along the neck, bump left out
	ramps                          bool    // a bump with ramps
	spread                         float64 // by how many mm a bump with ramps is broadened, to bound it
}

type vec2 [2]float64

func newSolidNeck(n implant.Neck) *solidNeck {
	s := &solidNeck{n: n, wide: n.Diameter / 2}
	t := n.Taper
	if t.StartDiameter > 0 {
		s.d0, s.s0, s.d1, s.s1 = t.StartDiameter, t.Start, t.EndDiameter, t.End
		s.wide = s.d0 / 2
		s.steep = math.Abs(s.d1/s.d0-1) / (s.s1 - s.s0)
	}
	along := s.wide * s.steep
	switch {
	case n.Oval.Width > 0:
		along = s.oval() * s.steep
	case n.Trapezoid.Width > 0:
		s.trapezoid()
		along = s.wide * s.steep
	}
	s.steepness = hypot(1, along)
	s.ramps = n.Bump.Height > 0 && n.Bump.Ramp > 0
	return s
}

// oval returns by how much the measure of its outside changes with the scale.
func (s *solidNeck) oval() float64 {
	o := s.n.Oval
	s.a, s.b = o.Width/2, o.Depth/2
	s.sinRoll, s.cosRoll = math.Sincos(float64(o.Roll))
	s.cx = o.SuperiorShift*s.cosRoll + o.AnteriorShift*s.sinRoll
	s.cy = o.AnteriorShift*s.cosRoll - o.SuperiorShift*s.sinRoll
	return (hypot(s.cx/s.a, s.cy/s.b) + 1) * min(s.a, s.b)
}

// trapezoid finds the corners of its four sides moved inwards by the rounding.
func (s *solidNeck) trapezoid() {
	t := s.n.Trapezoid
	s.sinRoll, s.cosRoll = math.Sincos(float64(t.Roll))
	outer := [4]vec2{{t.Width / 2, -t.Superior / 2}, {t.Width / 2, t.Superior / 2}, {-t.Width / 2, t.Inferior / 2}, {-t.Width / 2, -t.Inferior / 2}}
	type line struct{ nx, ny, c float64 } // inside where nx·x + ny·y ≤ c
	var side [4]line
	s.wide = 0
	for i, p := range outer {
		q := outer[(i+1)%4]
		l := hypot(q[0]-p[0], q[1]-p[1])
		nx, ny := (q[1]-p[1])/l, -(q[0]-p[0])/l
		if nx*p[0]+ny*p[1] < 0 {
			nx, ny = -nx, -ny
		}
		side[i] = line{nx, ny, nx*p[0] + ny*p[1] - t.Corner}
		s.wide = max(s.wide, hypot(p[0], p[1]))
	}
	for i := range 4 {
		a, b := side[(i+3)%4], side[i]
		det := a.nx*b.ny - a.ny*b.nx
		s.corners = append(s.corners, vec2{(a.c*b.ny - a.ny*b.c) / det, (a.nx*b.c - a.c*b.nx) / det})
	}
}

// ridged reports whether the neck has edges across its axis.
func (s *solidNeck) ridged() bool { return s.d0 > 0 || s.n.Skirt.Diameter > 0 }

// scale is the taper's factor at so far along the neck.
func (s *solidNeck) scale(x float64) float64 {
	if s.d0 == 0 {
		return 1
	}
	t := max(0, min(1, (x-s.s0)/(s.s1-s.s0)))
	return 1 + t*(s.d1/s.d0-1)
}

// core measures how far a point lies outside the section without bump and
// skirt, scaled: negative inside, and changing by no more than the way across.
func (s *solidNeck) core(up, fore, scale float64) float64 {
	switch {
	case s.a > 0:
		x, y := up*s.cosRoll+fore*s.sinRoll, fore*s.cosRoll-up*s.sinRoll
		return (hypot((x-s.cx*scale)/s.a, (y-s.cy*scale)/s.b) - scale) * min(s.a, s.b)
	case s.corners != nil:
		x, y := up*s.cosRoll+fore*s.sinRoll, fore*s.cosRoll-up*s.sinRoll
		return scale * (s.outsideCorners(x/scale, y/scale) - s.n.Trapezoid.Corner)
	case s.d0 > 0:
		return hypot(up, fore) - s.d0/2*scale
	}
	return hypot(up, fore) - s.n.Diameter/2
}

// outsideCorners is the signed distance from the polygon of the corners.
func (s *solidNeck) outsideCorners(x, y float64) float64 {
	best, inside := math.Inf(1), true
	for i, p := range s.corners {
		q := s.corners[(i+1)%len(s.corners)]
		dx, dy := q[0]-p[0], q[1]-p[1]
		t := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			t = max(0, min(1, ((x-p[0])*dx+(y-p[1])*dy)/l))
		}
		best = min(best, hypot(x-p[0]-t*dx, y-p[1]-t*dy))
		inside = inside && dx*(y-p[1])-dy*(x-p[0]) >= 0
	}
	if inside {
		return -best
	}
	return best
}

// outside measures how far a point lies outside the neck, negative inside.
func (s *solidNeck) outside(x, up, fore float64) float64 {
	scale := s.scale(x)
	g := s.core(up, fore, scale)
	if b := s.n.Bump; b.Height > 0 {
		g = min(g, s.bumped(up, fore, scale))
	}
	g = max(g, -x)
	if k := s.n.Skirt; k.Diameter > 0 {
		g = min(g, max(max(hypot(up, fore)-k.Diameter/2, x-k.Length), -x))
	}
	return g
}

// bumped measures the same of the widened section: a point is in it if it is
// in the core when moved towards the axis by the rise at its azimuth.
func (s *solidNeck) bumped(up, fore, scale float64) float64 {
	b := s.n.Bump
	r := hypot(up, fore)
	if r == 0 {
		return s.core(0, 0, scale)
	}
	psi := math.Atan2(fore, up)
	off := math.Abs(math.Remainder(psi-float64(b.Centre), 2*math.Pi))
	half, ramp := float64(b.Plateau)/2, float64(b.Ramp)
	moved := func(rise float64) float64 {
		k := max(0, 1-scale*rise/r)
		return s.core(up*k, fore*k, scale)
	}
	if ramp == 0 { // a ridge with upright flanks: within the wedge, and in the core when moved
		wedge := r * math.Sin(min(math.Pi/2, math.Abs(off-half)))
		if off <= half {
			wedge = -wedge
		}
		return max(wedge, moved(b.Height))
	}
	switch off -= s.spread / r; {
	case off <= half:
		return moved(b.Height)
	case off >= half+ramp:
		return moved(0)
	}
	return moved(b.Height * (1 + math.Cos(math.Pi*(off-half)/ramp)) / 2)
}
