package scene

import (
	"image/color"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// vertex is a projected, lit vertex: position in 1/256 pixel, inverse depth,
// and colour levels 0 to 255.
type vertex struct {
	x, y    int32
	w       float32
	r, g, b float32
}

// subpixel is the number of steps a vertex is snapped to per pixel; farthest
// bounds positions so that edge products stay exact in a float64.
const (
	subpixel = 256
	farthest = 1 << 14 * subpixel
	unseen   = math.MinInt32
)

// lamps are directions in the pelvis frame, fixed to the viewer: a soft key
// from over the left shoulder, a fill from low on the right.
type lamps struct {
	key, fill, half, up, eye   r3.Vec
	strong, weak, ambient, sky float64
}

func (t Tone) lamps(l Lens) lamps {
	aim := func(x, y, z float64) r3.Vec {
		return r3.Unit(r3.Add(r3.Scale(x, l.right), r3.Add(r3.Scale(y, l.up), r3.Scale(z, l.back))))
	}
	s := lamps{key: aim(-0.45, 0.62, 0.75), fill: aim(0.8, -0.1, 0.45), up: l.up, eye: l.back}
	s.half = r3.Unit(r3.Add(s.key, l.back))
	s.strong, s.weak, s.ambient, s.sky = t.Key, t.Fill, t.Ambient, 0.3
	return s
}

// within returns the lamps in the frame of a part at pose p.
func (s lamps) within(p Pose) lamps {
	in := func(v r3.Vec) r3.Vec {
		return r3.Vec{X: r3.Dot(p.X, v), Y: r3.Dot(p.Y, v), Z: r3.Dot(p.Z, v)}
	}
	s.key, s.fill, s.half, s.up, s.eye = in(s.key), in(s.fill), in(s.half), in(s.up), in(s.eye)
	return s
}

// Light is added in linear intensity and shown in sRGB (IEC 61966-2-1). The
// table runs over 0 to 1.5, so that highlights clip softly.
const (
	levelSteps = 3072
	levelSpan  = 1.5
)

var level = func() (t [levelSteps + 1]float32) {
	for i := range t {
		t[i] = float32(clamp(255*encode(shoulder(levelSpan*float64(i)/levelSteps)), 0.25, 254.75))
	}
	return t
}()

// shoulder leaves intensities to 0.8 alone and bends the rest gently to 1.
func shoulder(v float64) float64 {
	if v <= 0.8 {
		return v
	}
	return 0.8 + 0.2*(1-math.Exp(-(v-0.8)/0.2))
}

func encode(v float64) float64 {
	if v <= 0.0031308 {
		return 12.92 * v
	}
	return 1.055*math.Pow(v, 1/2.4) - 0.055
}

func decode(c uint8) float64 {
	v := float64(c) / 255
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}

func linear(c color.NRGBA) (r, g, b float64) { return decode(c.R), decode(c.G), decode(c.B) }

func shown(v float64) float32 {
	i := int(v * (levelSteps / levelSpan))
	if uint(i) > levelSteps {
		i = levelSteps
	}
	return level[i]
}

// project lights and projects the vertices of batch i.
func (r *Renderer) project(_ *buffer, i int) {
	b := &r.batches[i]
	in := &r.order[b.instance]
	first := r.places[b.instance].first
	out := r.vertices[first+b.vFrom : first+b.vTo]
	points, normals := in.Mesh.points[b.vFrom:b.vTo], in.Mesh.normals[b.vFrom:b.vTo]
	var shade []float32
	if in.Mesh.shade != nil {
		shade = in.Mesh.shade[b.vFrom:b.vTo]
	}
	view := newView(r.lens, in.Pose)
	paint := newPaint(in.Material, r.lamps.within(in.Pose))
	for k := range out {
		v := &out[k]
		if !view.place(v, points[k]) {
			continue
		}
		ao := 1.0
		if shade != nil {
			ao = float64(shade[k])
		}
		paint.light(v, wide(normals[k]), ao)
	}
}

// view takes points of one part to pixels.
type view struct {
	right, up, back r3.Vec
	x, y, z         float64
	focal, cx, cy   float64
}

func newView(l Lens, p Pose) view {
	in := func(v r3.Vec) r3.Vec {
		return r3.Vec{X: r3.Dot(p.X, v), Y: r3.Dot(p.Y, v), Z: r3.Dot(p.Z, v)}
	}
	at := r3.Sub(p.At, l.target)
	return view{
		right: in(l.right), up: in(l.up), back: in(l.back),
		x: r3.Dot(at, l.right), y: r3.Dot(at, l.up), z: l.distance - r3.Dot(at, l.back),
		focal: l.focal, cx: l.cx, cy: l.cy,
	}
}

// place sets position and inverse depth of v; false if p cannot be drawn.
func (s *view) place(v *vertex, p [3]float32) bool {
	q := wide(p)
	depth := s.z - r3.Dot(q, s.back)
	if depth < nearest {
		v.x = unseen
		return false
	}
	w := 1 / depth
	k := s.focal * w
	x := (s.cx + k*(s.x+r3.Dot(q, s.right))) * subpixel
	y := (s.cy - k*(s.y+r3.Dot(q, s.up))) * subpixel
	if x < -farthest || x > farthest || y < -farthest || y > farthest {
		v.x = unseen
		return false
	}
	v.x, v.y, v.w = int32(x+farthest+0.5)-farthest, int32(y+farthest+0.5)-farthest, float32(w)
	return true
}

// paint is a material under the lamps, in a part's frame.
type paint struct {
	lamps
	r, g, b     float64
	gloss, glow float64
	bothSides   bool
}

func newPaint(m Material, s lamps) paint {
	p := paint{lamps: s, gloss: m.Gloss, glow: m.Glow, bothSides: m.BothSides}
	p.r, p.g, p.b = linear(m.Colour)
	return p
}

// light sets the colour of v for the unit normal n and the share ao of ambient
// light: half-wrapped diffuse key, diffuse fill, sky-weighted ambient, a
// narrow highlight, and a slight darkening towards the outline.
func (p *paint) light(v *vertex, n r3.Vec, ao float64) {
	face := r3.Dot(n, p.eye)
	if face < 0 {
		if p.bothSides {
			n, face = r3.Scale(-1, n), -face
		} else {
			face = 0
		}
	}
	key := (r3.Dot(n, p.key) + 0.2) / 1.2
	if key < 0 {
		key = 0
	}
	fill := r3.Dot(n, p.fill)
	if fill < 0 {
		fill = 0
	}
	sky := 1 + p.sky*r3.Dot(n, p.up)
	edge := 1.0
	if face < 0.5 {
		edge = 0.82 + 0.36*face
	}
	d := (p.strong*key*(0.45+0.55*ao) + (p.weak*fill+p.ambient*sky)*ao) * edge
	d = d*(1-p.glow) + p.glow
	s := 0.0
	if h := r3.Dot(n, p.half); h > 0 {
		h *= h
		h *= h
		h *= h
		h *= h
		s = p.gloss * h * h
	}
	v.r, v.g, v.b = shown(p.r*d+s), shown(p.g*d+s), shown(p.b*d+s)
}
