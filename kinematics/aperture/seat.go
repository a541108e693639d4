package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// seat is a place across the face of a round rim, and the neck there. It may be
// the same all round the neck. Where an edge of the neck's profile can meet the
// face between its corners it moves along a segment, or along the bearing below,
// with that edge: its distance from the head centre differs about the neck.
type seat struct {
	from, to implant.Vertex // of the segment
	share    float64        // of the way along it, of a place at rest
	edge     int            // the neck's break that is followed, or none
	side     int            // which of both places of the segment at the edge's distance
	below    bearing        // of no radius on the face itself
	radial   bool           // one place for all distances of the band
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
// Both are ruled by straight lines, so that they first touch nowhere else, unless
// the face is convex too, as it is where it falls outwards.
func seats(rim implant.Rim, neck implant.Neck) []seat {
	f := rim.Face(0)
	if rim.Radial() {
		return []seat{{from: f.Corner[0], to: f.Corner[0], edge: none, radial: true, band: neck.Band(rim.Reach())}}
	}
	var list []seat
	for i := range f.Count - 1 {
		for _, share := range [3]float64{0, 0.5, 1} {
			if i == 0 || share > 0 {
				list = append(list, seat{from: f.Corner[i], to: f.Corner[i+1], share: share, edge: none, band: neck.Band(0, 0)})
			}
		}
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

// convex reports whether first contact may be between the seats at rest of a
// segment: where it falls outwards.
func (s *seat) convex() bool { return s.edge == none && s.to.Axial < s.from.Axial }

// dip bounds by how much the gap may be less between the seats of a segment than
// at them: the face and the neck bend, as seen from the head centre, by no more
// than the square of the segment's length over its distance.
func (s *seat) dip() unit.Angle {
	if !s.convex() {
		return 0
	}
	length := math.Hypot(s.to.Axial-s.from.Axial, s.to.Radial-s.from.Radial)
	near := min(s.from.Rho(), s.to.Rho())
	return unit.Angle(length * length / (near * near) / 16)
}

// place returns where the seat is at azimuth psi about the neck, at a share of
// the segment if it is at rest.
func (s *seat) place(psi unit.Angle, share float64) implant.Vertex {
	if s.edge == none {
		return lerp(s.from, s.to, share)
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
func (s *seat) spot(psi unit.Angle, share float64) spot {
	v := s.place(psi, share)
	beta, rho := unit.Angle(0), v.Rho()
	if s.radial {
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
func (s *seat) gap(psi unit.Angle, share float64, cup r3.Vec) unit.Angle {
	o := s.spot(psi, share)
	return o.gamma - between(o.at, cup)
}

// down returns where about the neck the gap is least, to half a degree on both
// sides of an azimuth.
func (s *seat) down(psi unit.Angle, share float64, cup r3.Vec) unit.Angle {
	turn := bottom(func(d float64) float64 { return float64(s.gap(psi+unit.Angle(d)*outlineStep, share, cup)) })
	return psi + unit.Angle(turn)*outlineStep
}

// around returns the opposites of the neck's outline as seen from the head
// centre, in the neck frame, and the discs about them: one for all where the
// seat is at rest.
func (s *seat) around() (points []r3.Vec, discs []unit.Angle) {
	for i := range outlineSteps {
		o := s.spot(unit.Angle(i)*outlineStep, s.share)
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
		o := s.spot((unit.Angle(i)+0.5)*outlineStep, s.share)
		off := unit.Angle(r3.Norm(r3.Add(o.at, r3.Scale(0.5, r3.Add(a, points[k])))))
		if s.edge != none {
			off += (180*unit.Degree - o.gamma - (discs[i]+discs[k])/2).Abs()
		}
		most = max(most, off)
	}
	return 2 * most
}
