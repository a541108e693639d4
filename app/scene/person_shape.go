package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// ring is a cross-section of a limb: an oval in the X and Z of its pose, whose Y
// leads on to the next ring.
type ring struct {
	at   Pose
	x, z float64 // half widths, mm
}

// loft returns the closed surface over rings, with round ends of the given
// bulges in mm.
func loft(rings []ring, below, above float64) *Mesh {
	const steps = 5
	var all []ring
	end := func(r ring, bulge float64) {
		for k := range steps {
			turn := math.Pi / 2 * float64(k) / steps // from the pole
			if bulge > 0 {
				turn = math.Pi / 2 * float64(steps-1-k) / steps
			}
			w, up := math.Sincos(turn)
			all = append(all, ring{r.at.to(r3.Add(r.at.At, r3.Scale(bulge*up, r.at.Y))), r.x * w, r.z * w})
		}
	}
	end(rings[0], -below)
	all = append(all, rings...)
	end(rings[len(rings)-1], above)
	var d draft
	d.sheet(len(all), ringPoints, true, func(i, j int) r3.Vec {
		r, c := all[i], plump[(ringPoints-j)%ringPoints]
		return r3.Add(r.at.At, r3.Add(r3.Scale(r.x*c[0], r.at.X), r3.Scale(r.z*c[1], r.at.Z)))
	}, nil)
	return d.mesh()
}

// ringPoints is the number of points of a ring.
const ringPoints = 24

// plump is the outline of a ring of half widths 1: the circle pushed a little
// towards a rounded square.
var plump = func() (list [ringPoints][2]float64) {
	const n = 2.25
	for i := range list {
		c, s := turnAt(i, ringPoints)
		k := math.Pow(math.Pow(math.Abs(c), n)+math.Pow(math.Abs(s), n), -1/n)
		list[i] = [2]float64{k * c, k * s}
	}
	return list
}()

// girths is a table of half widths along a limb: place, x, z.
type girths [][3]float64

// of returns the half widths at a place, smooth between the rows.
func (g girths) of(at float64) (x, z float64) {
	i := 0
	for i < len(g)-2 && at > g[i+1][0] {
		i++
	}
	a, b := g[i], g[i+1]
	t := clamp((at-a[0])/(b[0]-a[0]), 0, 1)
	slope := func(k, c int) float64 {
		lo, hi := max(k-1, 0), min(k+1, len(g)-1)
		return (g[hi][c] - g[lo][c]) / (g[hi][0] - g[lo][0])
	}
	hermite := func(c int) float64 {
		h, t2 := b[0]-a[0], t*t
		t3 := t2 * t
		return (2*t3-3*t2+1)*a[c] + (t3-2*t2+t)*h*slope(i, c) + (3*t2-2*t3)*b[c] + (t3-t2)*h*slope(i+1, c)
	}
	return hermite(1), hermite(2)
}

// bent returns the rings of a limb of two straight parts, from its lower end up
// to its upper one: girths run from 0 at the upper joint through 1 at the
// middle one to 2 at the lower; from and to say which stretch.
func bent(upper, lower Pose, first, second float64, g girths, from, to, wider float64) []ring {
	const n, soft = 22, 52.0
	middle := upper.Moved(r3.Vec{Y: -first})
	rings := make([]ring, 0, n+1)
	for k := range n + 1 {
		share := to + (from-to)*float64(k)/n
		var at, up, front r3.Vec
		d := (share - 1) * first // mm past the middle joint
		if share > 1 {
			d = (share - 1) * second
		}
		if math.Abs(d) >= soft {
			p := upper
			at = r3.Add(middle, r3.Scale(-d, p.Y))
			if d > 0 {
				p = lower
				at = r3.Add(middle, r3.Scale(-d, p.Y))
			}
			up, front = p.Y, p.X
		} else {
			t := (d + soft) / (2 * soft)
			a := r3.Add(middle, r3.Scale(soft, upper.Y))
			b := r3.Add(middle, r3.Scale(-soft, lower.Y))
			at = r3.Add(r3.Scale((1-t)*(1-t), a), r3.Add(r3.Scale(2*t*(1-t), middle), r3.Scale(t*t, b)))
			up = r3.Add(r3.Scale(1-t, upper.Y), r3.Scale(t, lower.Y))
			front = r3.Add(r3.Scale(1-t, upper.X), r3.Scale(t, lower.X))
			if r3.Norm(up) < 0.05 {
				up = upper.X
			}
		}
		x, z := g.of(share)
		rings = append(rings, ring{Along(up, front).to(at), x + wider, z + wider})
	}
	return rings
}

var (
	legGirths = girths{{0, 90, 88}, {0.2, 88, 86}, {0.45, 80, 76}, {0.75, 66, 64}, {0.95, 60, 58}, {1.1, 57, 56}, {1.3, 58, 56}, {1.55, 53, 52}, {1.8, 47, 47}, {2, 49, 48}}
	armGirths = girths{{0, 46, 42}, {0.2, 47, 43}, {0.5, 42, 39}, {0.9, 36, 36}, {1.1, 38, 40}, {1.3, 38, 38}, {1.7, 29, 29}, {2, 24, 27}}
	// Half widths of the trunk by the height above the hips in mm: depth, width.
	trunkGirths = girths{{-90, 60, 70}, {-55, 98, 128}, {-10, 112, 162}, {40, 114, 166}, {110, 104, 156}, {190, 97, 140}, {290, 106, 152}, {380, 112, 172}, {435, 104, 187}, {468, 91, 190}, {492, 77, 166}, {511, 65, 120}, {528, 57, 82}, {538, 54, 64}, {555, 50, 54}}
)

func (s *stance) leg(i int) *Mesh {
	return loft(bent(s.thigh[i], s.shank[i], thighLong, shankLong, legGirths, 0, 1.94, 0), 4, 70)
}

func (s *stance) arm(i int) (arm, sleeve *Mesh) {
	arm = loft(bent(s.upper[i], s.fore[i], upperLong, foreLong, armGirths, 0.1, 2, 0), 14, 20)
	sleeve = loft(bent(s.upper[i], s.fore[i], upperLong, foreLong, armGirths, 0, 0.62, 6), 3, 40)
	return arm, sleeve
}

// Heights of the trunk over the hips, mm.
const (
	crotch   = -60.0
	waist    = 75.0
	neckBase = 548.0
	bendFrom = 40.0 // the spine bends from here
	bendTo   = 400.0
)

// along returns the pose of the spine at a height over the hips.
func (s *stance) along(height float64) Pose {
	const step = 20.0
	at, p := s.pelvis.At, s.pelvis
	if height < 0 {
		return p.to(r3.Add(at, r3.Scale(height, p.Y)))
	}
	for h := 0.0; h < height; h += step {
		d := math.Min(step, height-h)
		p = s.turnedAt(h + d/2)
		at = r3.Add(at, r3.Scale(d, p.Y))
	}
	return s.turnedAt(height).to(at)
}

// turnedAt returns how the spine is turned at a height: as the pelvis below, as
// the chest above.
func (s *stance) turnedAt(height float64) Pose {
	t := clamp((height-bendFrom)/(bendTo-bendFrom), 0, 1)
	up := r3.Add(r3.Scale(1-t, s.pelvis.Y), r3.Scale(t, s.chest.Y))
	front := r3.Add(r3.Scale(1-t, s.pelvis.X), r3.Scale(t, s.chest.X))
	return Along(up, front)
}

func (s *stance) trunk() (hips, body *Mesh) {
	rings := func(from, to float64, n int, wider float64) []ring {
		list := make([]ring, n+1)
		for k := range list {
			h := from + (to-from)*float64(k)/float64(n)
			x, z := trunkGirths.of(h)
			p := s.along(h)
			// Seat behind, chest before the line of the spine.
			p.At = r3.Add(p.At, r3.Scale(14*math.Exp(-sq((h-350)/110))-22*math.Exp(-sq((h+15)/80)), p.X))
			list[k] = ring{p, x + wider, z + wider}
		}
		return list
	}
	return loft(rings(crotch, waist+20, 10, 0), 40, 5), loft(rings(waist-25, neckBase-6, 26, 5), 3, 4)
}

func sq(x float64) float64 { return x * x }

func (s *stance) neck() *Mesh {
	from := s.along(neckBase - 30)
	to := s.head.Moved(r3.Vec{X: -8, Y: -30})
	up := r3.Sub(to, from.At)
	var list []ring
	for k := range 6 {
		t := float64(k) / 5
		list = append(list, ring{Along(up, from.X).to(r3.Add(from.At, r3.Scale(t, up))), 56 - 4*t, 54 - 4*t})
	}
	return loft(list, 5, 5)
}
