package aperture

import (
	"math"
	"slices"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// cone returns theta = min over the face of (gamma - beta), the half angle of
// the free cone of a round rim and a round neck, and where it is reached.
//
// For a cylinder under a face cut along rays this is the closed form
// theta = 180° - A/2 - asin(d/D). Where the face is not radial the least may
// lie between its corners; it is then refined to rounding.
func cone(rim implant.Rim, neck implant.Neck) (unit.Angle, implant.Vertex) {
	best, at := unit.Angle(math.Inf(1)), implant.Vertex{}
	try := func(v implant.Vertex) {
		if m := v.Gamma() - neck.Beta(0, v.Rho()); m < best {
			best, at = m, v
		}
	}
	f := rim.Face(0)
	for i := range f.Count - 1 {
		along(f.Corner[i], f.Corner[i+1], neck, try)
	}
	if b, room := bearingOf(rim); room {
		for _, rho := range b.breaks(neck) {
			try(b.at(rho, f.Corner[0]))
		}
	}
	return best, at
}

// along tries the points of a face segment: its ends, the distances at which the
// neck's width has a corner or jump, and the smooth minima between.
func along(a, b implant.Vertex, neck implant.Neck, try func(implant.Vertex)) {
	cuts := segmentCuts(a, b, neck)
	for i, c := range cuts {
		try(lerp(a, b, c))
		if i > 0 {
			gap := func(t float64) float64 {
				v := lerp(a, b, t)
				return float64(v.Gamma() - neck.Beta(0, v.Rho()))
			}
			t, _ := solve.Minimum(gap, cuts[i-1], c)
			try(lerp(a, b, t))
		}
	}
}

// segmentCuts returns, as shares of the way from a to b and in order, both ends
// and where the neck's width has a corner or jump between them.
func segmentCuts(a, b implant.Vertex, neck implant.Neck) []float64 {
	cuts := []float64{0, 1}
	breaks, n := neck.Breaks(0)
	for _, rho := range breaks[:n] {
		at, ok := crossings(a, b, rho)
		for _, t := range at {
			if ok && t > 0 && t < 1 {
				cuts = append(cuts, t)
			}
		}
	}
	slices.Sort(cuts)
	return cuts
}

// crossings returns where the line a→b meets the circle of radius rho, in
// order, or else where it comes nearest to it.
func crossings(a, b implant.Vertex, rho float64) (at [2]float64, ok bool) {
	dx, dy := b.Axial-a.Axial, b.Radial-a.Radial
	qa := dx*dx + dy*dy
	if qa == 0 {
		return at, false
	}
	qb := (a.Axial*dx + a.Radial*dy) / qa
	qc := (a.Axial*a.Axial + a.Radial*a.Radial - rho*rho) / qa
	d := qb*qb - qc
	if d < 0 {
		return [2]float64{-qb, -qb}, false
	}
	s := math.Sqrt(d)
	return [2]float64{-qb - s, -qb + s}, true
}

func lerp(a, b implant.Vertex, t float64) implant.Vertex {
	return implant.Vertex{Axial: a.Axial + t*(b.Axial-a.Axial), Radial: a.Radial + t*(b.Radial-a.Radial)}
}
