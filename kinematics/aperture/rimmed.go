package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// rimmed is a rim of any outline under a round neck: the neck axis must stay
// out of a disc of the neck's half-width about every point of the face.
type rimmed struct {
	outline
	rings []ring // one for each level across the face
	// The least and greatest radius of a disc, with room for what lies between
	// levels.
	thinnest, thickest unit.Angle
}

func newRimmed(rim implant.Rim, neck implant.Neck) *rimmed {
	m := &rimmed{outline: trace(rim)}
	m.findLevels(neck)
	m.width = m.widths(neck)
	for k := range m.levels {
		l := &m.levels[k]
		m.rings = append(m.rings, newRing(m.directions(l), m.discs(l)))
	}
	m.loss = m.short()
	widen(m.rings, m.loss)
	m.measure()
	return m
}

func (m *rimmed) measure() {
	m.thinnest, m.thickest = m.width.narrowest, m.width.widest
	if m.radial {
		return
	}
	m.thinnest, m.thickest = 180*unit.Degree, 0
	for i := range m.rings {
		for _, r := range m.rings[i].radius {
			m.thinnest, m.thickest = min(m.thinnest, 0.9*r), max(m.thickest, 1.1*r)
		}
	}
}

// discs returns the neck's half-width at the points of a level.
func (m *rimmed) discs(l *level) []unit.Angle {
	if m.radial {
		return []unit.Angle{m.width.widest}
	}
	list := make([]unit.Angle, len(m.sample))
	for i := range m.sample {
		list[i] = m.width.band.At(0, l.middle(&m.faces[i]).Rho())
	}
	return list
}

func (m *rimmed) margin(p Pose) unit.Angle {
	least := unit.Angle(math.Inf(1))
	for i := range m.rings {
		least = min(least, m.rings[i].least(p.Axis).gap)
	}
	return m.signed(p, Touch{Margin: least}).Margin
}

func (m *rimmed) bound(p Pose) (least, loss unit.Angle) { return m.margin(p) - m.loss, m.loss }

func (m *rimmed) least(axis r3.Vec, radius unit.Angle) unit.Angle {
	if !m.radial && m.nearBody(axis, radius) {
		return unknown
	}
	least := m.margin(Pose{Axis: axis})
	if least-radius < m.steady() {
		least -= spacing // on the outline itself, between two samples, the sign turns
	}
	return least
}

func (m *rimmed) rise(margin unit.Angle) float64 { return discRise(m.thinnest, m.thickest, margin) }

func (m *rimmed) sampled(p Pose) Touch {
	best, at := near{gap: unit.Angle(math.Inf(1))}, 0
	for i := range m.rings {
		if n := m.rings[i].least(p.Axis); n.gap < best.gap {
			best, at = n, i
		}
	}
	return m.signed(p, m.station(p, best, at))
}

func (m *rimmed) nearest(p Pose) Touch {
	best := Touch{Margin: unit.Angle(math.Inf(1))}
	for k := range m.rings {
		var list shortlist
		m.rings[k].nearest(p.Axis, &list)
		for _, n := range list.at[:list.count] {
			if n.gap > min(list.best(), best.Margin)+m.rings[k].slack {
				break
			}
			if t, _ := m.refine(p, n.index, &m.levels[k]); t.Margin < best.Margin {
				best = t
			}
		}
	}
	return m.signed(p, best)
}

// table offsets the rim by the neck's half-width.
func (m *rimmed) table() *table {
	t := newTable()
	for i := range m.rings {
		t.curve(&m.rings[i])
	}
	t.body(&m.rings[0])
	t.close(m.short())
	return t
}

func (m *rimmed) rate() float64 { return 1 }

// seen returns the direction that the table and the rings ask about.
func (m *rimmed) seen(p Pose) r3.Vec { return p.Axis }
