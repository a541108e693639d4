package kinematics

import (
	"math"
	"slices"

	"rimclear/kinematics/implant"
)

// solidCup is the surface of the cup that a neck can meet: its face, the risers
// of its steps, and the bearing surface below.
type solidCup struct {
	r      implant.Rim
	radius float64 // of the bearing about the liner's centre
	centre float64 // of the liner, along the cup axis from the head centre
	base   float64 // polar angle of the rim without lips and notch
	reach  float64 // greatest distance of a point of the face from the head centre
	cells  []*solidCell
}

func newSolidCup(r implant.Rim) *solidCup {
	c := &solidCup{r: r, radius: r.HeadDiameter / 2, centre: r.Inset + r.Extension, base: 180 - float64(r.Arc)*inDegrees/2}
	if r.Edge.Radius > 0 {
		c.radius, c.centre, c.base = r.Edge.Radius, r.Edge.Height, 90
	}
	c.reach = c.radius + r.Wall + math.Abs(c.centre)
	c.divide()
	return c
}

// hump is the share of a lip's height at an azimuth.
func hump(l implant.Lip, az float64) float64 {
	if l.Height == 0 {
		return 0
	}
	half, ramp := float64(l.Plateau)*inDegrees/2, float64(l.Ramp)*inDegrees
	off := math.Abs(math.Remainder(az-float64(l.Centre)*inDegrees, 360)) - half
	switch {
	case off <= 0:
		return 1
	case off >= ramp:
		return 0
	}
	return (1 + math.Cos(math.Pi*off/ramp)) / 2
}

// polar is the polar angle of the face, seen from the liner's centre.
func (c *solidCup) polar(az float64) float64 {
	rise := 0.0
	for _, l := range c.r.Lips {
		rise = max(rise, float64(l.Height)*inDegrees*hump(l, az))
	}
	return c.base - rise + float64(c.r.Notch.Height)*inDegrees*hump(c.r.Notch, az)
}

// profile is the face at a polar angle as a line of corners, each so far along
// and across the cup axis from the head centre.
func (c *solidCup) profile(polar float64) (line [5]vec2, count int) {
	s, k := sincosd(polar)
	put := func(along, across float64) { line[count] = vec2{along, across}; count++ }
	inner := vec2{c.centre + c.radius*k, c.radius * s}
	outer := vec2{c.centre + (c.radius+c.r.Wall)*k, (c.radius + c.r.Wall) * s}
	if d := c.r.Recess; d.Depth > 0 || d.Width > 0 {
		w := min(1, d.Width/c.r.Wall)
		step := vec2{inner[0] + w*(outer[0]-inner[0]), inner[1] + w*(outer[1]-inner[1])}
		low := max(c.radius*k-d.Depth, -c.radius)
		put(c.centre+low, math.Sqrt(c.radius*c.radius-low*low))
		put(step[0]-d.Depth, step[1])
		put(step[0], step[1])
	} else {
		put(inner[0], inner[1])
	}
	put(outer[0], outer[1])
	if f := c.r.Chamfer; f.Depth > 0 || f.Width > 0 {
		a, b := line[0], line[1]
		edge := math.Atan2(a[1], a[0]-c.centre)*inDegrees + f.Depth/c.radius*inDegrees
		w := min(1, f.Width/math.Hypot(b[0]-a[0], b[1]-a[1]))
		rest, n := line, count
		count = 0
		s, k := sincosd(edge)
		put(c.centre+c.radius*k, c.radius*s)
		put(a[0]+w*(b[0]-a[0]), a[1]+w*(b[1]-a[1]))
		for _, p := range rest[1:n] {
			put(p[0], p[1])
		}
	}
	return line, count
}

// patch is a part of the surface with two coordinates: v runs across the face
// along one segment of its profile, or down the bearing; u is the azimuth, or
// the polar angle on the riser of a step at azimuth fixed.
type solidPatch struct {
	cup      *solidCup
	segment  int // -1 is the bearing
	riser    bool
	fixed    float64
	from, to float64 // of u
	climb    float64 // change of the polar angle per unit of u, at most
	length   float64 // of the segment, at most
}

func (p *solidPatch) at(u, v float64) vec3 {
	az, polar := u, 0.0
	if p.riser {
		az, polar = p.fixed, u
	} else { // a step's own azimuth belongs to both sides
		polar = p.cup.polar(max(p.from+1e-9, min(p.to-1e-9, u)))
	}
	line, count := p.cup.profile(polar)
	var q vec2
	if p.segment < 0 {
		q = p.bearing(line[:count], v)
	} else {
		a, b := line[p.segment], line[p.segment+1]
		q = vec2{a[0] + v*(b[0]-a[0]), a[1] + v*(b[1]-a[1])}
	}
	s, c := sincosd(az)
	return vec3{q[1] * c, q[1] * s, q[0]}
}

// bearing is the sphere below the face; of a rim stated as a circle, the one
// about the head centre through it. Where it would reach into the ball, in which
// the neck has no surface, the ball's own surface stands for it, from where the
// face leaves the ball if that is in it too.
func (p *solidPatch) bearing(face []vec2, v float64) vec2 {
	edge, centre, ball := face[0], p.cup.centre, p.cup.r.HeadDiameter/2
	stated := p.cup.r.Edge.Radius > 0
	if v > 0 && hypot(edge[0], edge[1]) < ball {
		edge, centre = emerging(face, ball), 0
	} else if stated {
		centre = 0
	}
	a := math.Atan2(edge[1], edge[0]-centre)
	r := math.Hypot(edge[1], edge[0]-centre)
	s, c := math.Sincos(a + v*(math.Pi-a))
	q := vec2{centre + r*c, r * s}
	rho := math.Hypot(q[0], q[1])
	if v == 0 {
		return q
	}
	below := ball
	if !stated {
		below = max(ball, p.cup.below(q[0]/rho))
	}
	if rho < below {
		q[0], q[1] = q[0]*below/rho, q[1]*below/rho
	}
	return q
}

// below returns how far the bearing is from the head centre in a direction, by
// the cosine of its angle from the cup axis.
func (c *solidCup) below(cos float64) float64 {
	along := c.centre * cos
	return along + math.Sqrt(max(0, along*along+c.radius*c.radius-c.centre*c.centre))
}

// emerging returns where a line of corners leaves the ball, or its end.
func emerging(face []vec2, ball float64) vec2 {
	for i, b := range face[1:] {
		a := face[i]
		if hypot(b[0], b[1]) < ball {
			continue
		}
		in, out := 0.0, 1.0
		for range 50 {
			m := (in + out) / 2
			if hypot(a[0]+m*(b[0]-a[0]), a[1]+m*(b[1]-a[1])) < ball {
				in = m
			} else {
				out = m
			}
		}
		return vec2{a[0] + out*(b[0]-a[0]), a[1] + out*(b[1]-a[1])}
	}
	return face[len(face)-1]
}

// divide lays the patches: between the azimuths at which the rim has corners,
// and up its steps.
func (c *solidCup) divide() {
	stops := []float64{0}
	for _, l := range []implant.Lip{c.r.Lips[0], c.r.Lips[1], c.r.Notch} {
		if l.Height != 0 {
			half, ramp, mid := float64(l.Plateau)*inDegrees/2, float64(l.Ramp)*inDegrees, float64(l.Centre)*inDegrees
			for _, x := range []float64{mid - half - ramp, mid - half, mid + half, mid + half + ramp} {
				stops = append(stops, math.Mod(math.Mod(x, 360)+360, 360))
			}
		}
	}
	stops = append(stops, c.crossings()...)
	slices.Sort(stops)
	stops = append(stops, 360)
	_, corners := c.profile(c.base)
	for i := range len(stops) - 1 {
		from, to := stops[i], stops[i+1]
		before, after := c.polar(from-1e-9), c.polar(from+1e-9)
		for k := -1; k < corners-1; k++ {
			if to-from > 1e-8 {
				c.lay(&solidPatch{cup: c, segment: k, from: from, to: to, climb: c.climb((from + to) / 2)})
			}
			if k >= 0 && math.Abs(after-before) > 1e-7 {
				c.lay(&solidPatch{cup: c, segment: k, riser: true, fixed: from, from: min(before, after), to: max(before, after), climb: 1})
			}
		}
	}
}

// crossings are the azimuths at which the higher of two lips becomes the lower: the
// face has a kink there.
func (c *solidCup) crossings() (list []float64) {
	a, b := c.r.Lips[0], c.r.Lips[1]
	over := func(az float64) float64 { return float64(a.Height)*hump(a, az) - float64(b.Height)*hump(b, az) }
	const step = 0.25
	for at := 0.0; at < 360; at += step {
		if over(at)*over(at+step) >= 0 {
			continue
		}
		from, to := at, at+step
		for range 50 {
			if m := (from + to) / 2; over(from)*over(m) > 0 {
				from = m
			} else {
				to = m
			}
		}
		list = append(list, to)
	}
	return list
}

// climb bounds the change of the polar angle per degree of azimuth about the
// middle of a patch: of the ramps it lies on.
func (c *solidCup) climb(mid float64) (most float64) {
	for _, l := range []implant.Lip{c.r.Lips[0], c.r.Lips[1], c.r.Notch} {
		if h := hump(l, mid); l.Height != 0 && h > 0 && h < 1 {
			most += math.Pi / 2 * float64(l.Height/l.Ramp)
		}
	}
	return most
}

func (c *solidCup) lay(p *solidPatch) {
	for _, f := range []float64{0, 0.25, 0.5, 0.75, 1} {
		u := p.from + f*(p.to-p.from)
		p.length = max(p.length, p.at(u, 1).plus(-1, p.at(u, 0)).length())
	}
	p.length *= 1.2
	if p.segment < 0 {
		p.length = math.Pi * (c.radius + math.Abs(c.centre))
	}
	c.cells = append(c.cells, newSolidCell(p, p.from, p.to, 0, 1))
}

// solidCell is a piece of a patch about its middle; halves are made when they
// are asked for.
type solidCell struct {
	patch          *solidPatch
	u0, u1, v0, v1 float64
	middle         vec3
	size           float64 // greatest distance of its points from the middle
	wayU, wayV     float64
	half           []*solidCell
}

func newSolidCell(p *solidPatch, u0, u1, v0, v1 float64) *solidCell {
	c := &solidCell{patch: p, u0: u0, u1: u1, v0: v0, v1: v1, middle: p.at((u0+u1)/2, (v0+v1)/2)}
	turn := 1.5 * p.climb
	if !p.riser {
		turn += 1
	}
	c.wayU = (u1 - u0) / 2 / inDegrees * p.cup.reach * turn
	c.wayV = (v1 - v0) / 2 * p.length
	c.size = c.wayU + c.wayV
	if p.climb == 0 { // the ways are square to each other
		c.size = math.Hypot(c.wayU, c.wayV)
	}
	return c
}

func (c *solidCell) halves() []*solidCell {
	if c.half == nil {
		if u, v := (c.u0+c.u1)/2, (c.v0+c.v1)/2; c.wayU > c.wayV {
			c.half = []*solidCell{newSolidCell(c.patch, c.u0, u, c.v0, c.v1), newSolidCell(c.patch, u, c.u1, c.v0, c.v1)}
		} else {
			c.half = []*solidCell{newSolidCell(c.patch, c.u0, c.u1, c.v0, v), newSolidCell(c.patch, c.u0, c.u1, v, c.v1)}
		}
	}
	return c.half
}
