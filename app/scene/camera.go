package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Camera orbits a target. Azimuth 0, Elevation 0 looks from the front (the
// antero-posterior view); azimuth grows towards the patient's right, so a
// quarter turn looks at a right hip from the side. Angles are in radians.
type Camera struct {
	Azimuth, Elevation float64
	// Extent is the length in mm that the shorter side of the picture spans
	// at the target: the zoom.
	Extent float64
	// Distance is from the eye to the target in mm. It sets how strong the
	// perspective is and is left alone by zooming, so that the eye never
	// enters a bone.
	Distance float64
	Target   r3.Vec
	// Mirror draws a left hip: the same scene, left and right exchanged.
	Mirror bool
}

// Bounds of the orbit and of the zoom, and the usual eye distance. The femur's
// far end lies about 440 mm from the hip centre: 1300 mm keeps it well in front
// of the eye from every side.
const (
	steepest      = 89 * math.Pi / 180
	leastExtent   = 25.0
	mostExtent    = 1200.0
	usualDistance = 1300.0
	nearest       = 100.0
)

// Front returns the antero-posterior view.
func Front() Camera { return Camera{Extent: 260, Distance: usualDistance} }

// Side returns the view from the side of the hip.
func Side() Camera { return Camera{Azimuth: math.Pi / 2, Extent: 260, Distance: usualDistance} }

// Oblique returns a three-quarter view, between front and side.
func Oblique() Camera {
	return Camera{Azimuth: 35 * math.Pi / 180, Elevation: 8 * math.Pi / 180, Extent: 260, Distance: usualDistance}
}

// Facing returns the view that looks against the direction axis: with the
// cup's opening normal, the view into the cup.
func Facing(axis r3.Vec) Camera {
	u := r3.Unit(axis)
	c := Camera{Extent: 110, Distance: usualDistance}
	c.Azimuth = math.Atan2(u.Z, u.X)
	c.Elevation = clamp(math.Asin(clamp(u.Y, -1, 1)), -steepest, steepest)
	return c
}

// Orbit returns the camera after a drag of dx, dy pixels (right, down) on a
// picture whose shorter side has size pixels: half a turn over that side. The
// scene follows the pointer, also when mirrored.
func (c Camera) Orbit(dx, dy, size float64) Camera {
	if c.Mirror {
		dx = -dx
	}
	c.Azimuth = math.Remainder(c.Azimuth+dx/size*math.Pi, 2*math.Pi)
	c.Elevation = clamp(c.Elevation+dy/size*math.Pi, -steepest, steepest)
	return c
}

// Pan returns the camera after its target was dragged by dx, dy pixels.
func (c Camera) Pan(dx, dy, size float64) Camera {
	if c.Mirror {
		dx = -dx
	}
	right, up, _ := c.basis()
	mm := c.Extent / size
	c.Target = r3.Add(c.Target, r3.Add(r3.Scale(-dx*mm, right), r3.Scale(dy*mm, up)))
	return c
}

// Zoom returns the camera with its extent multiplied by factor (below 1 comes
// nearer), within bounds.
func (c Camera) Zoom(factor float64) Camera {
	c.Extent = clamp(c.Extent*factor, leastExtent, mostExtent)
	return c
}

// Between returns the camera a share t (0 to 1) of the way from c to d, turning
// the short way round: for a calm change of view.
func (c Camera) Between(d Camera, t float64) Camera {
	mix := func(a, b float64) float64 { return a + (b-a)*t }
	d.Azimuth = c.Azimuth + t*math.Remainder(d.Azimuth-c.Azimuth, 2*math.Pi)
	d.Elevation = mix(c.Elevation, d.Elevation)
	d.Extent = c.Extent * math.Pow(d.Extent/c.Extent, t)
	d.Distance = mix(c.Distance, d.Distance)
	d.Target = r3.Add(c.Target, r3.Scale(t, r3.Sub(d.Target, c.Target)))
	return d
}

// basis returns the unit vectors to the right and up in the unmirrored
// picture, and towards the eye.
func (c Camera) basis() (right, up, back r3.Vec) {
	se, ce := math.Sincos(c.Elevation)
	sa, ca := math.Sincos(c.Azimuth)
	back = r3.Vec{X: ce * ca, Y: se, Z: ce * sa}
	right = r3.Vec{X: sa, Z: -ca}
	return right, r3.Cross(back, right), back
}

// Lens is a camera with a picture size in pixels: it takes points to pixels
// and pixels to rays.
type Lens struct {
	right, up, back r3.Vec // right already mirrored when the camera mirrors
	target          r3.Vec
	distance, focal float64
	cx, cy          float64
	mirror          bool
}

// Lens returns the projection onto a picture of w by h pixels.
func (c Camera) Lens(w, h int) Lens {
	right, up, back := c.basis()
	if c.Mirror {
		right = r3.Scale(-1, right)
	}
	return Lens{
		right: right, up: up, back: back, target: c.Target,
		distance: c.Distance, focal: c.Distance * float64(min(w, h)) / c.Extent,
		cx: float64(w) / 2, cy: float64(h) / 2, mirror: c.Mirror,
	}
}

// Project returns the pixel of the point p (mm, pelvis frame), x to the right
// and y down from the top left corner, with its depth from the eye in mm. ok is
// false for points behind or too near the eye. Pixel i covers [i, i+1).
func (l Lens) Project(p r3.Vec) (x, y, depth float64, ok bool) {
	d := r3.Sub(p, l.target)
	depth = l.distance - r3.Dot(d, l.back)
	if depth < nearest {
		return 0, 0, depth, false
	}
	s := l.focal / depth
	return l.cx + s*r3.Dot(d, l.right), l.cy - s*r3.Dot(d, l.up), depth, true
}

// Ray returns the eye and the unit direction (pelvis frame) of the line of
// sight through the picture point x, y.
func (l Lens) Ray(x, y float64) (eye, direction r3.Vec) {
	eye = l.eye()
	v := r3.Scale(-l.focal, l.back)
	v = r3.Add(v, r3.Scale(x-l.cx, l.right))
	v = r3.Add(v, r3.Scale(l.cy-y, l.up))
	return eye, r3.Unit(v)
}

// eye returns where the eye is, in the pelvis frame.
func (l Lens) eye() r3.Vec { return r3.Add(l.target, r3.Scale(l.distance, l.back)) }

// Scale returns how many pixels one mm spans at the target.
func (l Lens) Scale() float64 { return l.focal / l.distance }

func clamp(v, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, v)) }
