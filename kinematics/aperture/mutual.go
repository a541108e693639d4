package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// mutual is a rim and a neck of which neither is round: the gap depends on the
// neck's roll at every point of the rim. It is sought over the outline; the
// neck's widest and narrowest half-widths bound it.
type mutual struct {
	outline
	rings []ring // discs of the widest half-width at each level
}

func newMutual(rim implant.Rim, neck implant.Neck) *mutual {
	m := &mutual{outline: trace(rim, neck)}
	m.width = newWidth(rim, neck)
	for _, l := range m.levels {
		widest := l.widest
		if m.radial {
			widest = m.width.widest
		}
		m.rings = append(m.rings, newRing(m.directions(l), []unit.Angle{widest}))
	}
	return m
}

// about returns the gap at a sample, the neck's width by the table.
func (m *mutual) about(p Pose, s, k int) unit.Angle {
	if !m.radial {
		sm := &m.sample[s]
		return m.touch(p, m.levels[k].vertex(m.rim.FaceAt(sm.polar)), sm.phi).Margin
	}
	d := m.rings[k].point[s]
	return unit.Angle(math.Acos(clamp(r3.Dot(d, p.Axis)))) - m.width.about(rollOf(p, d))
}

// scan offers the local minima of the gap at a level to the list.
func (m *mutual) scan(p Pose, k int, list *shortlist) {
	g := &m.rings[k]
	first, most := 0, -2.0
	for i := range g.block {
		if d := r3.Dot(g.block[i].centre, p.Axis); d > most {
			first, most = i, d
		}
	}
	m.scanBlock(p, k, &g.block[first], list)
	for i := range g.block {
		b := &g.block[i]
		reach := list.best() + slack + g.span + g.widest
		if i != first && (reach > math.Pi || r3.Dot(b.centre, p.Axis) >= reach.Cos()) {
			m.scanBlock(p, k, b, list)
		}
	}
}

func (m *mutual) scanBlock(p Pose, k int, b *block, list *shortlist) {
	before, here := unit.Angle(math.Inf(1)), m.about(p, b.from, k)
	for s := b.from; s < b.to; s++ {
		after := unit.Angle(math.Inf(1))
		if s+1 < b.to {
			after = m.about(p, s+1, k)
		}
		if here <= before && here < after && here < list.best()+slack {
			list.offer(near{s, here})
		}
		before, here = here, after
	}
}

func (m *mutual) margin(p Pose) unit.Angle {
	least := unit.Angle(math.Inf(1))
	for k := range m.rings {
		var list shortlist
		m.scan(p, k, &list)
		least = min(least, list.best())
	}
	return m.signed(p, Touch{Margin: least}).Margin
}

func (m *mutual) nearest(p Pose) Touch {
	best := Touch{Margin: unit.Angle(math.Inf(1))}
	for k := range m.rings {
		var list shortlist
		m.scan(p, k, &list)
		for _, n := range list.at[:list.count] {
			if n.gap > min(list.best(), best.Margin)+slack {
				break
			}
			if t := m.refine(p, n.index, m.levels[k]); t.Margin < best.Margin {
				best = t
			}
		}
	}
	return m.signed(p, best)
}

func (m *mutual) below(p Pose) unit.Angle {
	least := unit.Angle(math.Inf(1))
	for i := range m.rings {
		least = min(least, m.rings[i].below(p.Axis))
	}
	if least > exactly && m.beyond(p.Axis) {
		return 0
	}
	return least
}

// table offsets the rim by the neck's widest half-width, which says what is
// free, and tells contact by the narrowest.
func (m *mutual) table() *table {
	t := newTable()
	for i := range m.rings {
		t.curve(&m.rings[i])
	}
	t.body(&m.rings[0])
	t.close()
	for i := range t.cell {
		t.cell[i].cosDisc = m.width.narrowest.Cos()
	}
	if !m.radial {
		t.usable = false
	}
	return t
}

func (m *mutual) seen(p Pose) r3.Vec { return p.Axis }

func (m *mutual) rate() float64 { return m.width.rate() }
