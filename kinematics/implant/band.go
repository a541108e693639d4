package implant

import "rimclear/kinematics/unit"

// Band is the neck over a range of distances from the head centre, where a
// radial face stands at one polar angle for all of them: Beta is then the
// greatest half-width over the range, reached at an end or at a break.
type Band struct {
	neck     Neck
	from, to float64
	round    bool
	widest   unit.Angle // of a round neck
	rho      float64    // a round neck's distance of greatest width
}

// Band returns the neck between two distances.
func (n Neck) Band(from, to float64) Band {
	b := Band{neck: n, from: from, to: to}
	if n.Round() {
		b.widest, b.rho = b.greatest(0)
		b.round = true
	}
	return b
}

// Beta returns the greatest half-width of the neck over the band at azimuth
// psi, and the distance at which it is reached.
func (b *Band) Beta(psi unit.Angle) (beta unit.Angle, rho float64) {
	if b.round {
		return b.widest, b.rho
	}
	return b.greatest(psi)
}

func (b *Band) greatest(psi unit.Angle) (beta unit.Angle, rho float64) {
	try := func(r float64) {
		if w := b.neck.Beta(psi, r); w > beta {
			beta, rho = w, r
		}
	}
	try(b.from)
	if !b.neck.Taper.Present() && !b.neck.Skirt.Present() {
		return beta, rho // the nearer, the wider it looks
	}
	try(b.to)
	at, n := b.neck.Breaks(psi)
	for _, r := range at[:n] {
		if r > b.from && r < b.to {
			try(r)
		}
	}
	return beta, rho
}

// At returns the neck's half-width at azimuth psi and one distance.
func (b *Band) At(psi unit.Angle, rho float64) unit.Angle { return b.neck.Beta(psi, rho) }

// Across returns the neck's half-width at one distance, where its section reaches
// so far from the axis, in mm.
func (b *Band) Across(section, rho float64) unit.Angle { return b.neck.BetaAcross(section, rho) }

// Breaks returns the neck's Breaks at azimuth psi.
func (b *Band) Breaks(psi unit.Angle) (at [3]float64, count int) { return b.neck.Breaks(psi) }

// BreaksAcross returns them where the section reaches so far from the axis, in mm.
func (b *Band) BreaksAcross(section float64) (at [3]float64, count int) {
	return b.neck.BreaksAcross(section)
}

// Widest returns the greatest half-width over all azimuths, sampled every half
// degree.
func (b *Band) Widest() unit.Angle {
	if b.round {
		return b.widest
	}
	widest := unit.Angle(0)
	for i := range 720 {
		w, _ := b.greatest(unit.Angle(i) * unit.Degree / 2)
		widest = max(widest, w)
	}
	return widest
}
