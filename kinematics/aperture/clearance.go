package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// Clearance returns the shortest distance in space, in mm, from the face of
// the cup to the surface of the neck outside the ball; 0 in contact.
//
// In a round design it lies in the plane of both axes; otherwise it is sought
// over the samples of the outline and refined on the exact rim, to 1e-4 mm.
func (a *Aperture) Clearance(p Pose) float64 {
	if a.Margin(p) <= 0 {
		return 0
	}
	if a.round {
		return a.faceToNeck(a.rim.Face(0), azimuth(p.Axis), p)
	}
	o := a.pair.stations()
	rough := func(i int) float64 { return a.roughly(o.sample[o.wrap(i)], p) }
	fine := func(i int) float64 {
		s := &o.sample[o.wrap(i)]
		return a.clearanceAt(s.polar, s.phi, p)
	}
	at, _ := least(rough, 0, len(o.sample), coarse)
	at, _ = least(rough, at-coarse, 2*coarse+1, coarse/4)
	at, best := valley(fine, at)
	for _, i := range [2]int{at - 1, at} {
		best = math.Min(best, a.clearanceBetween(o, o.wrap(i), p))
	}
	return best
}

// coarse is the stride of the first look for the clearance.
const coarse = 16

// least returns where f is least among count places from a first one on, at a
// stride, and its value there.
func least(f func(int) float64, from, count, stride int) (at int, value float64) {
	at, value = from, math.Inf(1)
	for i := from; i < from+count; i += stride {
		if v := f(i); v < value {
			at, value = i, v
		}
	}
	return at, value
}

// valley walks from a place to the next one where f is less, until there is
// none.
func valley(f func(int) float64, from int) (at int, value float64) {
	at, value = from, f(from)
	for _, step := range [2]int{-1, 1} {
		for v := f(at + step); v < value; v = f(at + step) {
			at, value = at+step, v
		}
	}
	return at, value
}

// roughly returns the clearance at one sample of the rim, from the corners of
// the face alone and no nearer than the first look about the neck.
func (a *Aperture) roughly(s sample, p Pose) float64 {
	f := a.rim.FaceAt(s.polar)
	best := math.Inf(1)
	for i := range f.Count {
		at := r3.Scale(f.Corner[i].Rho(), direction(f.Corner[i], s.phi))
		about := a.about(at, p)
		_, d := about.look()
		best = math.Min(best, d)
	}
	return best
}

func (a *Aperture) clearanceAt(polar, phi unit.Angle, p Pose) float64 {
	return a.faceToNeck(a.rim.FaceAt(polar), phi, p)
}

func (a *Aperture) clearanceBetween(o *outline, from int, p Pose) float64 {
	f := func(t float64) float64 {
		phi, polar := o.between(from, t)
		return a.clearanceAt(polar, phi, p)
	}
	_, d := solve.Minimum(f, 0, 1)
	return math.Min(d, math.Min(f(0), f(1)))
}

// faceToNeck returns the distance from the face outline at one azimuth to the
// neck: at its corners, and between them.
func (a *Aperture) faceToNeck(f implant.Face, phi unit.Angle, p Pose) float64 {
	best := math.Inf(1)
	sp, cp := phi.Sincos()
	space := func(v implant.Vertex) r3.Vec {
		return r3.Vec{X: v.Radial * cp, Y: v.Radial * sp, Z: v.Axial}
	}
	for i := range f.Count {
		best = math.Min(best, a.pointToNeck(space(f.Corner[i]), p))
		if i > 0 && a.round {
			g := func(t float64) float64 { return a.pointToNeck(space(lerp(f.Corner[i-1], f.Corner[i], t)), p) }
			_, d := solve.Minimum(g, 0, 1)
			best = math.Min(best, d)
		}
	}
	return best
}

// pointToNeck returns the distance from a point to the neck's surface outside
// the ball.
func (a *Aperture) pointToNeck(at r3.Vec, p Pose) float64 {
	about := a.about(at, p)
	turn, d := about.look()
	if a.neck.Round() {
		return d
	}
	step := float64(sidelong) / lookTurns
	_, refined := solve.Minimum(about.distance, turn-step, turn+step)
	return math.Min(d, refined)
}

// about is the neck as seen from a point beside it.
type about struct {
	neck      implant.Neck
	ball      float64    // radius, mm
	roll      unit.Angle // azimuth of the point about the neck
	x, across float64    // of the point, along the neck's axis and from it, mm
}

func (a *Aperture) about(at r3.Vec, p Pose) about {
	x := r3.Dot(at, p.Axis)
	return about{
		neck: a.neck, ball: a.rim.HeadDiameter / 2, roll: rollOf(p, at),
		x: x, across: r3.Norm(r3.Sub(at, r3.Scale(x, p.Axis))),
	}
}

// distance returns the distance, in mm, from the point to the outline of the
// neck at a turn, in radians, from the point's own azimuth.
func (b *about) distance(turn float64) float64 {
	s, c := math.Sincos(turn)
	return math.Hypot(b.neck.Profile(b.roll+unit.Angle(turn), b.ball).Distance(b.x, b.across*c), b.across*s)
}

// The nearest point of a neck that is not round may lie to the side of the
// point's own azimuth, and there may be two such places: a first look about
// the neck decides which one is refined.
const (
	sidelong  = 80 * unit.Degree
	lookTurns = 4
)

// look returns the nearest of a few turns, bettered once by a parabola, and
// the distance there.
func (b *about) look() (turn, d float64) {
	if b.neck.Round() {
		return 0, b.distance(0)
	}
	const step = float64(sidelong) / lookTurns
	var seen [2*lookTurns + 1]float64
	at, d := least(func(i int) float64 {
		seen[i] = b.distance(step * float64(i-lookTurns))
		return seen[i]
	}, 0, len(seen), 1)
	turn = step * float64(at-lookTurns)
	if at == 0 || at == len(seen)-1 {
		return turn, d
	}
	before, after := seen[at-1]-d, seen[at+1]-d
	bottom := turn + step*(before-after)/(2*(before+after))
	if lower := b.distance(bottom); lower < d {
		return bottom, lower
	}
	return turn, d
}
