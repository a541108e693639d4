package scene

import "gonum.org/v1/gonum/spatial/r3"

// Plane cuts the parts of a picture open. What lies beyond it, on the side that
// Normal points to, is taken away from every part whose material has a Section
// colour; the other parts stay whole. It is in the pelvis frame, in mm; Normal
// is a unit vector. The zero Plane cuts nothing.
//
// The inside of a part that shows through the cut is drawn in the Section
// colour. As parts are closed and do not lie in each other, that is what a
// filled cut face looks like from where the part was taken away.
type Plane struct{ At, Normal r3.Vec }

// Cuts reports whether there is a plane at all.
func (p Plane) Cuts() bool { return p.Normal != r3.Vec{} }

// facing returns the plane that takes away the side the eye is on.
func (p Plane) facing(eye r3.Vec) Plane {
	if p.beyond(eye) < 0 {
		p.Normal = r3.Scale(-1, p.Normal)
	}
	return p
}

// beyond is how far a point lies on the side that is taken away, in mm.
func (p Plane) beyond(v r3.Vec) float64 { return r3.Dot(r3.Sub(v, p.At), p.Normal) }

// knife is a plane in a part's own frame: points v with normal·v > off are taken
// away.
type knife struct {
	normal r3.Vec
	off    float64
}

func (p Plane) within(at Pose) knife {
	n := p.Normal
	return knife{
		normal: r3.Vec{X: r3.Dot(at.X, n), Y: r3.Dot(at.Y, n), Z: r3.Dot(at.Z, n)},
		off:    r3.Dot(r3.Sub(p.At, at.At), n),
	}
}

func (k *knife) beyond(p [3]float32) float64 {
	return float64(p[0])*k.normal.X + float64(p[1])*k.normal.Y + float64(p[2])*k.normal.Z - k.off
}

// encounter is how a plane meets an instance.
type encounter int

const (
	keepsAll encounter = iota
	splits
	losesAll
)

// meets tells how the plane meets an instance, by the ball that holds it.
func (p Plane) meets(in *Instance) encounter {
	if !p.Cuts() || in.Material.Section.A == 0 {
		return keepsAll
	}
	switch d := p.beyond(in.Pose.Moved(in.Mesh.centre)); {
	case d > in.Mesh.radius:
		return losesAll
	case d < -in.Mesh.radius:
		return keepsAll
	}
	return splits
}

// carve is one batch of a part that is cut: where its new vertices go and what
// lights them.
type carve struct {
	knife
	view  view
	paint paint
	mesh  *Mesh
	from  []vertex // of the instance: those of the mesh, then two for each triangle
}

func (r *Renderer) carving(b *batch, vertices []vertex) carve {
	in, at := &r.order[b.instance], &r.places[b.instance]
	return carve{
		knife: at.knife, mesh: in.Mesh, from: vertices,
		view: newView(r.lens, in.Pose), paint: newPaint(in.Material, r.lamps.within(in.Pose)),
	}
}

// left returns what is left of triangle i, in at most two triangles: their
// corners among the instance's vertices.
func (c *carve) left(i int32) (rest [2][3]int32, n int) {
	t := c.mesh.corners[i]
	var d [3]float64
	kept := 0
	for k, v := range t {
		if d[k] = c.beyond(c.mesh.points[v]); d[k] <= 0 {
			kept++
		}
	}
	switch kept {
	case 0:
		return rest, 0
	case 3:
		rest[0] = t
		return rest, 1
	}
	// Turn the corners until the one that is alone on its side comes first.
	for (d[0] <= 0) == (d[1] <= 0) || (d[0] <= 0) == (d[2] <= 0) {
		t, d = [3]int32{t[1], t[2], t[0]}, [3]float64{d[1], d[2], d[0]}
	}
	free := int32(len(c.mesh.points)) + 2*i
	p, q := c.cross(free, t[0], t[1], d[0], d[1]), c.cross(free+1, t[0], t[2], d[0], d[2])
	if kept == 1 {
		rest[0] = [3]int32{t[0], p, q}
		return rest, 1
	}
	rest[0], rest[1] = [3]int32{p, t[1], t[2]}, [3]int32{p, t[2], q}
	return rest, 2
}

// cross makes the vertex where the side a-b meets the plane, and returns its
// place. It is the same for both triangles of the side.
func (c *carve) cross(at, a, b int32, da, db float64) int32 {
	if a > b {
		a, b, da, db = b, a, db, da
	}
	t := da / (da - db)
	mix := func(p, q [3]float32) r3.Vec {
		return r3.Add(r3.Scale(1-t, wide(p)), r3.Scale(t, wide(q)))
	}
	ao := 1.0
	if s := c.mesh.shade; s != nil {
		ao = (1-t)*float64(s[a]) + t*float64(s[b])
	}
	v := &c.from[at]
	if c.view.place(v, narrow(mix(c.mesh.points[a], c.mesh.points[b]))) {
		c.paint.light(v, r3.Unit(mix(c.mesh.normals[a], c.mesh.normals[b])), ao)
	}
	return at
}
