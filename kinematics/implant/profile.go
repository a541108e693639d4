package implant

import (
	"math"

	"rimclear/kinematics/unit"
)

// Profile is the neck's outline in the half plane at one azimuth, from where
// it leaves the ball to beyond the cup: axial and radial distances from the
// head centre, mm.
type Profile struct {
	Corner [6]Vertex
	Count  int
}

// beyond is how far, in head radii, a profile is drawn: past any cup.
const beyond = 4

// Profile returns the outline at azimuth psi outside a ball of radius ball.
func (n Neck) Profile(psi unit.Angle, ball float64) Profile {
	var p Profile
	put := func(x float64) {
		p.Corner[p.Count] = Vertex{Axial: x, Radial: n.Radius(psi, x)}
		p.Count++
	}
	start := ball * n.Beta(psi, ball).Cos()
	put(start)
	if s := n.Skirt; s.Present() && s.Length > start {
		put(s.Length)
		x := math.Nextafter(s.Length, math.Inf(1))
		put(x)
		start = x
	}
	if n.Taper.Present() {
		for _, x := range [2]float64{n.Taper.Start, n.Taper.End} {
			if x > start {
				put(x)
			}
		}
	}
	put(beyond * ball)
	return p
}

// Distance returns the distance from a point of the half plane to the outline.
func (p Profile) Distance(axial, radial float64) float64 {
	best := math.Inf(1)
	for i := 1; i < p.Count; i++ {
		best = math.Min(best, toSegment(p.Corner[i-1], p.Corner[i], axial, radial))
	}
	return best
}

func toSegment(a, b Vertex, x, y float64) float64 {
	dx, dy := b.Axial-a.Axial, b.Radial-a.Radial
	t := ((x-a.Axial)*dx + (y-a.Radial)*dy) / (dx*dx + dy*dy)
	t = math.Max(0, math.Min(1, t))
	return math.Hypot(x-a.Axial-t*dx, y-a.Radial-t*dy)
}
