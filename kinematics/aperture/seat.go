package aperture

import (
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// seat is a place across the face of a round rim, and the neck there. It may be
// the same all round the neck. Where an edge of the neck's profile can meet the
// face between its corners it moves along a segment, or along the bearing below,
// with that edge: its distance from the head centre differs about the neck.
type seat struct {
	from, to implant.Vertex // of the segment; the same for a place at rest
	edge     int            // the neck's break that is followed, or none
	side     int            // which of both places of the segment at the edge's distance
	below    bearing        // of no radius on the face itself
	band     implant.Band
}

// spot is a seat at one azimuth about the neck.
type spot struct {
	vertex implant.Vertex
	gamma  unit.Angle
	at     r3.Vec // direction of the neck's outline, in the neck frame
}

// seats returns the places to watch across the face of a round rim: its corners
// and the middles of its segments, and where an edge of the neck may meet it.
// Both are ruled by straight lines, so that they first touch nowhere else.
func seats(rim implant.Rim, neck implant.Neck) []seat {
	f := rim.Face(0)
	if rim.Radial() {
		return []seat{{from: f.Corner[0], to: f.Corner[0], edge: none, band: neck.Band(rim.Reach())}}
	}
	var list []seat
	put := func(v implant.Vertex) {
		list = append(list, seat{from: v, to: v, edge: none, band: neck.Band(v.Rho(), v.Rho())})
	}
	put(f.Corner[0])
	for i := range f.Count - 1 {
		put(lerp(f.Corner[i], f.Corner[i+1], 0.5))
		put(f.Corner[i+1])
	}
	_, n := neck.Breaks(0)
	for edge := range n {
		list = append(list, edgeSeats(rim, neck, edge)...)
	}
	return list
}

// edgeSeats returns where an edge of the neck's profile may meet the face
// between its corners, and the bearing below it.
func edgeSeats(rim implant.Rim, neck implant.Neck, edge int) (list []seat) {
	f := rim.Face(0)
	lo, hi := edgeReach(neck, edge)
	band := neck.Band(lo, hi)
	for i := range f.Count - 1 {
		a, b := f.Corner[i], f.Corner[i+1]
		for side := range 2 {
			if passes(a, b, lo, hi, side) {
				list = append(list, seat{from: a, to: b, edge: edge, side: side, band: band})
			}
		}
	}
	if b, room := bearingOf(rim); room && hi > b.radius {
		list = append(list, seat{from: f.Corner[0], to: f.Corner[0], edge: edge, below: b, band: band})
	}
	return list
}

// place returns where the seat is at azimuth psi about the neck.
func (s *seat) place(psi unit.Angle) implant.Vertex {
	if s.edge == none {
		return s.from
	}
	breaks, _ := s.band.Breaks(psi)
	rho := breaks[s.edge]
	if s.below.radius > 0 {
		return s.below.at(max(rho, s.below.radius), s.from)
	}
	return passing(s.from, s.to, rho, s.side)
}

// spot returns the neck's outline at azimuth psi, seen from the head centre, and
// what it may meet there.
func (s *seat) spot(psi unit.Angle) spot {
	v := s.place(psi)
	beta, rho := unit.Angle(0), v.Rho()
	if s.edge == none {
		beta, rho = s.band.Beta(psi)
	} else {
		beta = s.band.At(psi, rho)
	}
	f := rho / v.Rho()
	sp, cp := psi.Sincos()
	sb, cb := beta.Sincos()
	return spot{
		vertex: implant.Vertex{Axial: v.Axial * f, Radial: v.Radial * f},
		gamma:  v.Gamma(),
		at:     r3.Vec{X: sb * cp, Y: sb * sp, Z: cb},
	}
}

// gap returns how far the neck's outline at azimuth psi is from the rim about a
// cup axis, in the neck frame.
func (s *seat) gap(psi unit.Angle, cup r3.Vec) unit.Angle {
	o := s.spot(psi)
	return o.gamma - between(o.at, cup)
}

// around returns the opposites of the neck's outline as seen from the head
// centre, in the neck frame, and the discs about them: one for all where the
// seat is at rest.
func (s *seat) around() (points []r3.Vec, discs []unit.Angle) {
	for i := range outlineSteps {
		o := s.spot(unit.Angle(i) * outlineStep)
		points = append(points, r3.Scale(-1, o.at))
		if s.edge != none || i == 0 {
			discs = append(discs, 180*unit.Degree-o.gamma)
		}
	}
	return points, discs
}

// bulge returns by how much the edges of the discs may lie off the chords
// between the points of the neck's outline: twice what they do in the middles,
// for a corner.
func (s *seat) bulge(points []r3.Vec, discs []unit.Angle) (most unit.Angle) {
	for i, a := range points {
		k := (i + 1) % len(points)
		o := s.spot((unit.Angle(i) + 0.5) * outlineStep)
		off := unit.Angle(r3.Norm(r3.Add(o.at, r3.Scale(0.5, r3.Add(a, points[k])))))
		if s.edge != none {
			off += (180*unit.Degree - o.gamma - (discs[i]+discs[k])/2).Abs()
		}
		most = max(most, off)
	}
	return 2 * most
}
