package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Girth is the shape of a neck: its radius in mm at a distance along the neck
// axis from the head centre and an azimuth (radians) about it, from the part's
// +X towards its +Z.
type Girth func(distance, azimuth float64) float64

// Taper returns the round neck whose radius runs from r0 at distance d0 to r1
// at d1, and on at the same rate.
func Taper(d0, r0, d1, r1 float64) Girth {
	return func(d, _ float64) float64 { return r0 + (r1-r0)*(d-d0)/(d1-d0) }
}

// Neck returns the closed tube of the girth from one distance to another along
// +Y (head centre at the origin), with steps rings and sharp flat ends. breaks
// are distances where the girth has a corner (the end of a skirt): rings are
// put there and the surface is sharp.
func Neck(girth Girth, from, to float64, breaks ...float64) *Mesh {
	const around, step = 40, 3.0
	var d draft
	point := func(y float64, k int, scale float64) r3.Vec {
		cos, sin := turnAt((k+around)%around, around)
		r := scale * girth(y, 2*math.Pi*float64((k+around)%around)/around)
		return r3.Vec{X: r * cos, Y: y, Z: r * sin}
	}
	cap := func(y float64, up bool) {
		d.sheet(2, around, true, func(i, j int) r3.Vec {
			if up {
				return point(y, -j, float64(1-i))
			}
			return point(y, -j, float64(i))
		}, nil)
	}
	cap(from, false)
	for _, s := range stretches(from, to, breaks) {
		n := max(2, int(math.Ceil((s[1]-s[0])/step)))
		d.sheet(n+1, around, true, func(i, j int) r3.Vec {
			t := float64(i) / float64(n)
			return point(s[0]*(1-t)+s[1]*t, -j, 1)
		}, nil)
	}
	cap(to, true)
	return d.mesh()
}

// stretches cuts [from, to] at the breaks inside it, which are in rising order.
func stretches(from, to float64, breaks []float64) (s [][2]float64) {
	for _, b := range breaks {
		if b > from && b < to {
			s = append(s, [2]float64{from, b})
			from = b
		}
	}
	return append(s, [2]float64{from, to})
}
