package scene

import (
	"image"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"
)

// Renderer draws instances into an image. It keeps its buffers between
// pictures, so that drawing allocates nothing once it has seen the scene's
// size. One Renderer draws one picture at a time.
//
// A picture goes through three stages, each shared by the workers in fixed
// pieces of work: light and project the vertices, sort the triangles into
// tiles, fill the tiles. The pieces do not depend on the number of workers, so
// neither does the picture.
type Renderer struct {
	// Workers is the number of goroutines; 0 means one per processor, at
	// most two.
	Workers int
	// Quality is the number of samples per pixel.
	Quality Quality
	// Cut is the plane at which parts are cut open, from whichever side the
	// eye is on; the zero Plane for none.
	Cut Plane
	// Probe is a point to look for; Hidden tells of it.
	Probe Probe

	target    *image.RGBA
	lens      Lens
	plane     Plane // Cut, facing the eye
	probing   probing
	tone      Tone
	lamps     lamps
	sky       sky
	order     []Instance
	places    []place
	batches   []batch
	vertices  []vertex
	triangles []triangle
	tiles     tiling
	buffers   []*buffer

	stage func(*Renderer, *buffer, int)
	count int64
	next  atomic.Int64
	idle  sync.WaitGroup
	runs  []func()
}

// place is where an instance's vertices lie in the picture's vertex list.
type place struct {
	first     int32
	clear     bool // translucent
	bothSides bool
	flipped   bool
	cut       bool // insides show in the section colour
	knife     knife
	section   int64
	alpha     uint32
}

// batch is a piece of work: some vertices and some triangles of one instance.
type batch struct {
	instance       int32
	vFrom, vTo     int32
	tFrom, tTo     int32
	kept, keptFrom int32
}

// batchSize bounds the triangles of a batch: small enough to balance two
// workers, large enough to keep the counting tables short.
const batchSize = 768

// Draw draws the instances as seen by cam into dst, over the tone's background.
func (r *Renderer) Draw(dst *image.RGBA, cam Camera, tone Tone, instances []Instance) {
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	if w <= 0 || h <= 0 {
		return
	}
	r.target, r.tone = dst, tone
	r.lens = cam.Lens(w, h)
	r.plane = r.Cut.facing(r.lens.eye())
	r.lamps = tone.lamps(r.lens)
	r.sky.set(tone, h)
	r.arrange(instances)
	r.tiles.reset(w, h, len(r.batches))
	r.aim()
	r.workers()
	r.run((*Renderer).project, len(r.batches))
	r.run((*Renderer).sort, len(r.batches))
	r.tiles.prefix()
	r.run((*Renderer).file, len(r.batches))
	r.run((*Renderer).fill, r.tiles.nx*r.tiles.ny)
	r.target = nil
}

// arrange orders the instances (opaque first, near to far; then translucent,
// far to near) and shares them out in batches.
func (r *Renderer) arrange(instances []Instance) {
	r.order = r.order[:0]
	for _, in := range instances {
		if in.Mesh != nil && len(in.Mesh.corners) > 0 && in.Material.Colour.A > 0 && r.plane.meets(&in) != losesAll && r.inView(in) {
			r.order = append(r.order, in)
		}
	}
	slices.SortStableFunc(r.order, r.before)
	r.places, r.batches = r.places[:0], r.batches[:0]
	nv, nt := 0, 0
	for i, in := range r.order {
		at := place{
			first: int32(nv), clear: in.Material.Colour.A < 255, bothSides: in.Material.BothSides,
			flipped: in.Pose.Mirrors() != r.lens.mirror, alpha: uint32(in.Material.Colour.A),
		}
		points, corners, pieces := len(in.Mesh.points), len(in.Mesh.corners), 1
		if r.plane.meets(&in) == splits {
			at.cut, at.knife, at.section = true, r.plane.within(in.Pose), r.tone.section(in.Material.Section)
			pieces = 2 // a triangle is left in two at most, with two new vertices
			nv += 2 * corners
		}
		r.places = append(r.places, at)
		r.share(int32(i), points, corners, nt, pieces)
		nv += points
		nt += pieces * corners
	}
	r.vertices = sized(r.vertices, nv)
	r.triangles = sized(r.triangles, nt)
}

// share appends the batches of one instance with nv vertices and nt triangles,
// whose kept triangles, so many pieces of each at most, are stored from from on.
func (r *Renderer) share(instance int32, nv, nt, from, pieces int) {
	n := (nt + batchSize - 1) / batchSize
	for k := range n {
		r.batches = append(r.batches, batch{
			instance: instance,
			vFrom:    int32(nv * k / n), vTo: int32(nv * (k + 1) / n),
			tFrom: int32(nt * k / n), tTo: int32(nt * (k + 1) / n),
			keptFrom: int32(from + pieces*(nt*k/n)),
		})
	}
}

// before orders instances for drawing.
func (r *Renderer) before(a, b Instance) int {
	ca, cb := a.Material.Colour.A < 255, b.Material.Colour.A < 255
	if ca != cb {
		if cb {
			return -1
		}
		return 1
	}
	da, db := r.depth(a), r.depth(b)
	if ca {
		da, db = db, da
	}
	switch {
	case da < db:
		return -1
	case da > db:
		return 1
	}
	return 0
}

func (r *Renderer) depth(in Instance) float64 {
	c := r3.Sub(in.Pose.Moved(in.Mesh.centre), r.lens.target)
	return r.lens.distance - r3.Dot(c, r.lens.back)
}

// inView reports whether the ball about the instance can touch the picture.
func (r *Renderer) inView(in Instance) bool {
	x, y, depth, ok := r.lens.Project(in.Pose.Moved(in.Mesh.centre))
	near := depth - in.Mesh.radius
	if !ok || near < nearest {
		return depth+in.Mesh.radius > nearest
	}
	reach := in.Mesh.radius * r.lens.focal / near * 1.1
	return x+reach >= 0 && y+reach >= 0 && x-reach <= 2*r.lens.cx && y-reach <= 2*r.lens.cy
}

// workers makes as many buffers and run functions as there are workers.
func (r *Renderer) workers() {
	n := r.Workers
	if n <= 0 {
		n = min(2, runtime.GOMAXPROCS(0))
	}
	for len(r.buffers) < n {
		b := new(buffer)
		r.buffers = append(r.buffers, b)
		r.runs = append(r.runs, func() {
			r.work(b)
			r.idle.Done()
		})
	}
	r.buffers, r.runs = r.buffers[:n], r.runs[:n]
}

// run does the pieces 0 to n-1 of a stage on all workers and waits.
func (r *Renderer) run(stage func(*Renderer, *buffer, int), n int) {
	r.stage, r.count = stage, int64(n)
	r.next.Store(0)
	if n > 1 {
		for _, f := range r.runs[1:] {
			r.idle.Add(1)
			go f()
		}
	}
	r.work(r.buffers[0])
	r.idle.Wait()
}

func (r *Renderer) work(b *buffer) {
	for {
		i := r.next.Add(1) - 1
		if i >= r.count {
			return
		}
		r.stage(r, b, int(i))
	}
}

// sized returns s with length n, growing with room to spare.
func sized[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n, n+n/4)
	}
	return s[:n]
}
