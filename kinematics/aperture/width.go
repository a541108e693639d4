package aperture

import (
	"math"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// width is how wide the neck is at the face: exact where asked exactly, and
// from a table where a look will do.
type width struct {
	band              implant.Band
	round             bool
	table             widthTable
	widest, narrowest unit.Angle
	steepest          float64 // greatest change of half-width per arc round the neck
	turns             float64 // greatest change of that from one entry of the table to the next
	cliffs            *cliffs // where the width jumps, and no table will do; nil where it does not
}

// widthSteps is the length of the table: linear interpolation at half a degree
// errs below 0.001° for smooth sections.
const widthSteps = 720

// widthTable is the half-width by azimuth about the neck, over one turn.
type widthTable [widthSteps + 1]unit.Angle

// at returns the half-width at azimuth psi, within a turn.
func (t *widthTable) at(psi unit.Angle) unit.Angle {
	x := float64(psi) * (widthSteps / (2 * math.Pi))
	if x < 0 {
		x += widthSteps
	}
	i := min(int(x), widthSteps-1)
	f := unit.Angle(x - float64(i))
	return t[i] + f*(t[i+1]-t[i])
}

// newWidth returns the neck at a radial face.
func newWidth(rim implant.Rim, neck implant.Neck) width {
	from, to := rim.Reach()
	w := width{band: neck.Band(from, to), round: neck.Round(), narrowest: 180 * unit.Degree}
	w.cliffs = newCliffs(neck, from, from)
	beta := func(psi unit.Angle) unit.Angle {
		b, _ := w.band.Beta(psi)
		return b
	}
	w.measure(from, beta, w.table[:])
	w.cliffs.know(from, beta)
	return w
}

// newWidths returns the neck at a face that is not radial, between its least and
// greatest distance from the head centre: of no table, since the width differs
// with the distance.
func newWidths(neck implant.Neck, from, to float64) width {
	w := width{band: neck.Band(from, to), round: neck.Round(), narrowest: 180 * unit.Degree}
	w.cliffs = newCliffs(neck, from, to)
	necks := []implant.Neck{neck}
	if neck.Skirt.Present() { // it may end on the face
		neck.Skirt = implant.Skirt{}
		necks = append(necks, neck)
	}
	for _, n := range necks {
		for _, rho := range distances(n, from, to) {
			w.measure(rho, func(psi unit.Angle) unit.Angle { return n.Beta(psi, rho) }, nil)
		}
	}
	return w
}

// distances returns the ends of a range and where the neck's width has a corner
// or jump between them, at azimuth 0.
func distances(neck implant.Neck, from, to float64) []float64 {
	list := []float64{from, to}
	at, n := neck.Breaks(0)
	for _, rho := range at[:n] {
		if rho > from && rho < to {
			list = append(list, rho)
		}
	}
	return list
}

// measure takes in the half-width by azimuth at a distance, which may jump at
// cliffs, and keeps it in a table if there is one.
func (w *width) measure(rho float64, beta func(psi unit.Angle) unit.Angle, table []unit.Angle) {
	const step = 360 * unit.Degree / widthSteps
	var before unit.Angle
	last, known := 0.0, false
	for i := range widthSteps + 1 {
		b := before
		if i == 0 || !w.round {
			b = beta(unit.Angle(i) * step)
		}
		w.widest, w.narrowest = max(w.widest, b), min(w.narrowest, b)
		if table != nil {
			table[i] = b
		}
		if i == 0 || w.cliffs.between(i-1, rho) {
			before, known = b, false
			continue
		}
		slope := float64((b-before)/step) / min(b, before).Sin()
		w.steepest = math.Max(w.steepest, math.Abs(slope))
		if known {
			w.turns = math.Max(w.turns, math.Abs(slope-last))
		}
		before, last, known = b, slope, true
	}
}

// bend is by how much a side of the neck may bulge between two samples of the
// rim, which lie on so many entries of the table.
func (w *width) bend() unit.Angle {
	if w.round {
		return 0
	}
	if w.cliffs != nil { // the sample beside one may lie on either side
		return spacing / 2 * unit.Angle(w.rate())
	}
	entries := 1/w.narrowest.Sin() + 1
	return spacing / 4 * unit.Angle(math.Min(2*w.steepest, entries*w.turns))
}

// about returns the half-width at azimuth psi from the table.
func (w *width) about(psi unit.Angle) unit.Angle {
	if w.round {
		return w.widest
	}
	return w.table.at(psi)
}

// rate bounds how fast the gap can fall per radian of rotation. The gap of a
// round neck falls by one; where the width changes by m per unit of arc round
// the neck it falls by sqrt(1+m²) on its outline. Within it m is greater by the
// ratio of the sines of the angles from the axis: by within at most.
func (w *width) rate() float64 {
	if w.round {
		return 1
	}
	return 1.02 * math.Hypot(1, within*w.steepest)
}

// within is that ratio down to which the rate holds: see steady.
const within = 2
