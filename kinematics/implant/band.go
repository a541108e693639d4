package implant

import "rimclear/kinematics/unit"

// Band is the neck over a range of distances from the head centre, where a
// radial face stands at one polar angle for all of them: Beta is then the
// greatest half-width over the range, reached at an end or at a break.
type Band struct {
	neck              Neck
	from, to          float64
	widest, narrowest unit.Angle
	rho               float64 // a round neck's distance of greatest width
	round             bool
}

// Band returns the neck between two distances.
func (n Neck) Band(from, to float64) Band {
	b := Band{neck: n, from: from, to: to}
	b.widest, b.rho = b.greatest(0)
	b.narrowest, b.round = b.widest, n.Round()
	if b.round {
		return b
	}
	const steps = 720
	for i := range steps {
		w, _ := b.greatest(unit.Angle(i) * 360 / steps * unit.Degree)
		b.widest, b.narrowest = max(b.widest, w), min(b.narrowest, w)
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

// Widest and Narrowest bound Beta over all azimuths, sampled every half
// degree.
func (b *Band) Widest() unit.Angle    { return b.widest }
func (b *Band) Narrowest() unit.Angle { return b.narrowest }
