package aperture

import (
	"math"

	"rimclear/kinematics/implant"
)

// bearing is the bearing surface below the face: a sphere of a radius about a
// place so far out along the cup axis from the head centre, in mm. An extension
// is a cylinder there; the sphere is nearer to the neck and stands for both.
//
// Where it is not concentric with the ball there is room between them, into
// which a skirt may reach under the face. The surface recedes from the neck
// faster than necks widen inwards, so that it is only looked at where the neck's
// width has a corner or jump.
type bearing struct{ centre, radius float64 }

// bearingOf returns the bearing, and whether there is room between it and the
// ball. Below a rim stated as a circle there is none.
func bearingOf(rim implant.Rim) (b bearing, room bool) {
	b = bearing{centre: rim.Offset(), radius: rim.HeadDiameter / 2}
	return b, b.centre != 0 && !rim.Edge.Present()
}

// breaks returns the distances outside the ball at which the neck's width has a
// corner or jump.
func (b bearing) breaks(neck implant.Neck) []float64 {
	var list []float64
	all, n := neck.Breaks(0)
	for _, rho := range all[:n] {
		if rho > b.radius {
			list = append(list, rho)
		}
	}
	return list
}

// farthest returns how far the bearing below an edge is from the head centre at
// most.
func (b bearing) farthest(edge implant.Vertex) float64 {
	if b.centre < 0 {
		return b.radius - b.centre
	}
	return edge.Rho()
}

// at returns the place of the bearing at a distance from the head centre, or
// the edge where there is none below it.
func (b bearing) at(rho float64, edge implant.Vertex) implant.Vertex {
	rho *= 1 - 1e-13 // the wider side of a jump
	along := (rho*rho - b.centre*b.centre - b.radius*b.radius) / (2 * b.centre)
	if !(along < edge.Axial-b.centre) || along < -b.radius {
		return edge
	}
	return implant.Vertex{Axial: b.centre + along, Radial: math.Sqrt(b.radius*b.radius - along*along)}
}
