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
	table             [widthSteps + 1]unit.Angle
	widest, narrowest unit.Angle
	steepest          float64 // greatest change of half-width per arc round the neck
	turns             float64 // greatest change of that from one entry of the table to the next
}

// widthSteps is the length of the table: linear interpolation at half a degree
// errs below 0.001° for smooth sections.
const widthSteps = 720

// newWidth returns the neck between the least and greatest distance of a face
// from the head centre.
func newWidth(neck implant.Neck, from, to float64) width {
	w := width{band: neck.Band(from, to), round: neck.Round()}
	if w.round {
		w.widest, _ = w.band.Beta(0)
		w.narrowest = w.widest
		return w
	}
	w.narrowest = 180 * unit.Degree
	const step = 360 * unit.Degree / widthSteps
	last := 0.0
	for i := range w.table {
		b, _ := w.band.Beta(unit.Angle(i) * step)
		w.table[i] = b
		w.widest, w.narrowest = max(w.widest, b), min(w.narrowest, b)
		if i > 0 {
			before := w.table[i-1]
			slope := float64((b-before)/step) / min(b, before).Sin()
			w.steepest = math.Max(w.steepest, math.Abs(slope))
			if i > 1 {
				w.turns = math.Max(w.turns, math.Abs(slope-last))
			}
			last = slope
		}
	}
	return w
}

// bend is by how much a side of the neck may bulge between two samples of the
// rim, which lie on so many entries of the table.
func (w *width) bend() unit.Angle {
	if w.round {
		return 0
	}
	entries := 1/w.narrowest.Sin() + 1
	return spacing / 4 * unit.Angle(math.Min(2*w.steepest, entries*w.turns))
}

// about returns the half-width at azimuth psi from the table.
func (w *width) about(psi unit.Angle) unit.Angle {
	if w.round {
		return w.widest
	}
	x := float64(psi) * (widthSteps / (2 * math.Pi))
	if x < 0 {
		x += widthSteps
	}
	i := min(int(x), widthSteps-1)
	f := unit.Angle(x - float64(i))
	return w.table[i] + f*(w.table[i+1]-w.table[i])
}

// rate bounds how fast the gap can fall per radian of rotation. The gap of a
// round neck falls by one; where the width changes by m per unit of arc round
// the neck it falls by sqrt(1+m²), and inside the outline the same holds
// within the ratio of its widths.
func (w *width) rate() float64 {
	if w.round {
		return 1
	}
	return 1.02 * math.Hypot(1, w.steepest) * float64(w.widest/w.narrowest)
}
