package implant

import "rimclear/kinematics/unit"

// Band is the neck over a range of distances from the head centre, where a
// radial face stands at one polar angle for all of them: Beta is then the
// greatest half-width over the range, reached at an end or at a break.
type Band struct {
	neck  Neck
	rho   [6]float64
	count int
	// widest and narrowest half-width over all azimuths.
	widest, narrowest unit.Angle
}

// Band returns the neck between two distances.
func (n Neck) Band(from, to float64) Band {
	b := Band{neck: n}
	b.add(from)
	if to > from {
		b.add(to)
	}
	at, count := n.Breaks()
	for _, rho := range at[:count] {
		if rho > from && rho < to {
			b.add(rho)
		}
	}
	b.extremes()
	return b
}

func (b *Band) add(rho float64) {
	b.rho[b.count] = rho
	b.count++
}

// Beta returns the greatest half-width of the neck over the band at azimuth
// psi, and the distance at which it is reached.
func (b *Band) Beta(psi unit.Angle) (beta unit.Angle, rho float64) {
	if b.neck.Round() {
		psi = 0
	}
	for _, r := range b.rho[:b.count] {
		if w := b.neck.Beta(psi, r); w > beta {
			beta, rho = w, r
		}
	}
	return beta, rho
}

// Widest and Narrowest bound Beta over all azimuths.
func (b *Band) Widest() unit.Angle    { return b.widest }
func (b *Band) Narrowest() unit.Angle { return b.narrowest }

func (b *Band) extremes() {
	b.widest, _ = b.Beta(0)
	b.narrowest = b.widest
	if b.neck.Round() {
		return
	}
	const steps = 720
	for i := range steps {
		w, _ := b.Beta(unit.Angle(i) * 360 / steps * unit.Degree)
		b.widest, b.narrowest = max(b.widest, w), min(b.narrowest, w)
	}
}
