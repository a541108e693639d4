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
	table             byRoll[unit.Angle]
	section           *byRoll[float64] // how far the neck reaches from its axis, in mm; nil at a radial face
	widest, narrowest unit.Angle
	steepest          float64 // greatest change of half-width per arc round the neck
	turns             float64 // greatest change of that from one entry of the table to the next
	cliffs            *cliffs // where the width jumps, and no table will do; nil where it does not
}

// widthSteps is the length of the table: linear interpolation at half a degree
// errs below 0.001° for smooth sections.
const widthSteps = outlineSteps

const widthStep = 360 * unit.Degree / widthSteps

// byRoll is a table by azimuth about the neck, over one turn.
type byRoll[T ~float64] [widthSteps + 1]T

// at returns the value at azimuth psi, within a turn.
func (t *byRoll[T]) at(psi unit.Angle) T {
	x := float64(psi) * (widthSteps / (2 * math.Pi))
	if x < 0 {
		x += widthSteps
	}
	i := min(int(x), widthSteps-1)
	f := T(x - float64(i))
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
	w.measure(from, func(i int) unit.Angle { return beta(unit.Angle(i) * widthStep) }, w.table[:])
	w.cliffs.know(from, beta)
	return w
}

// newWidths returns the neck at a face that is not radial, between its least and
// greatest distance from the head centre: of no table, since the width differs
// with the distance.
func newWidths(neck implant.Neck, from, to float64) width {
	w := width{band: neck.Band(from, to), round: neck.Round(), narrowest: 180 * unit.Degree}
	w.cliffs = newCliffs(neck, from, to)
	w.section = new(byRoll[float64])
	for i := range w.section {
		w.section[i] = neck.Section(unit.Angle(i) * widthStep)
	}
	necks := []implant.Neck{neck}
	if neck.Skirt.Present() { // it may end on the face
		neck.Skirt = implant.Skirt{}
		necks = append(necks, neck)
	}
	for _, n := range necks {
		for _, rho := range distances(n, from, to) {
			w.measure(rho, func(i int) unit.Angle { return n.BetaAcross(w.section[i], rho) }, nil)
		}
	}
	return w
}

// distances returns where to measure a neck between two distances: there, where
// its width has a corner or jump at some azimuth, and in so many steps over both.
func distances(neck implant.Neck, from, to float64) []float64 {
	list := []float64{from, to}
	stretch := func(lo, hi float64, steps int) {
		for k := range steps + 1 {
			if rho := lo + (hi-lo)*float64(k)/float64(steps); rho > from && rho < to {
				list = append(list, rho)
			}
		}
	}
	_, edges := neck.Breaks(0)
	for edge := range edges {
		lo, hi := edgeReach(neck, edge)
		stretch(lo, hi, 4)
	}
	if edges > 0 && !neck.Round() { // else it is steepest at an end
		stretch(from, to, 8)
	}
	return list
}

// measure takes in the half-width by entry of a table at a distance, which may jump at
// cliffs, and keeps it in a table if there is one.
func (w *width) measure(rho float64, beta func(i int) unit.Angle, table []unit.Angle) {
	var before unit.Angle
	last, known := 0.0, false
	for i := range widthSteps + 1 {
		b := before
		if i == 0 || !w.round {
			b = beta(i)
		}
		w.widest, w.narrowest = max(w.widest, b), min(w.narrowest, b)
		if table != nil {
			table[i] = b
		}
		if i == 0 || w.cliffs.between(i-1, rho) {
			before, known = b, false
			continue
		}
		slope := float64((b-before)/widthStep) / min(b, before).Sin()
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

// edge returns how far an edge of the neck's profile is from the head centre at
// azimuth psi, from the table if that is near enough.
func (w *width) edge(i int, psi unit.Angle, within float64) float64 {
	if within < roughly {
		at, _ := w.band.Breaks(psi)
		return at[i]
	}
	at, _ := w.band.BreaksAcross(w.section.at(psi))
	return at[i]
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
