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
	rings     []ring      // discs of the widest half-width at each level
	distances [][]float64 // of each level's places from the head centre, none where they move
	section   ellipse
	unders    []*under
}

func newMutual(rim implant.Rim, neck implant.Neck) *mutual {
	m := &mutual{outline: trace(rim)}
	m.findLevels(neck)
	m.width = m.widths(neck)
	for k := range m.levels {
		l := &m.levels[k]
		widest := l.widest
		if m.radial {
			widest = m.width.widest
		}
		m.rings = append(m.rings, newRing(m.directions(l), []unit.Angle{widest}))
		m.distances = append(m.distances, m.measure(l))
	}
	m.unders, m.loss = m.outline.unders(neck), m.outline.short()
	widen(m.rings, m.loss)
	m.knowCliffs()
	if m.radial {
		inner, _ := rim.Reach()
		m.section = newEllipse(neck, inner, m.width.widest)
	}
	return m
}

// knowCliffs keeps the neck's cliffs at the distances of places that are at rest.
func (m *mutual) knowCliffs() {
	if m.radial || m.width.cliffs == nil {
		return
	}
	for _, list := range m.distances {
		for _, rho := range list {
			m.width.cliffs.know(rho, func(psi unit.Angle) unit.Angle { return m.width.band.At(psi, rho) })
		}
	}
}

// about returns the gap at a sample, the neck's width by a table, but exactly where
// it may jump or a place moves with an edge of the neck.
func (m *mutual) about(p Pose, s, k int) unit.Angle {
	if m.width.cliffs != nil || m.levels[k].edge != none {
		return m.sampleAt(p, s, k).Margin
	}
	d := m.rings[k].point[s]
	gap, roll := unit.Angle(math.Acos(clamp(r3.Dot(d, p.Axis)))), rollOf(p, d)
	if m.radial {
		return gap - m.width.about(roll)
	}
	return gap - m.width.band.Across(m.width.section.at(roll), m.distances[k][s])
}

// measure returns the distances of a level's places from the head centre, if it
// is at rest.
func (m *mutual) measure(l *level) []float64 {
	if m.radial || l.edge != none {
		return nil
	}
	list := make([]float64, len(m.faces))
	for i := range m.faces {
		list[i] = l.middle(&m.faces[i]).Rho()
	}
	return list
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
	best := list.best()
	limit := cosineOf(best + g.slack + g.span + g.widest)
	for i := range g.block {
		b := &g.block[i]
		if i == first || r3.Dot(b.centre, p.Axis) < limit {
			continue
		}
		m.scanBlock(p, k, b, list)
		if list.best() < best {
			best = list.best()
			limit = cosineOf(best + g.slack + g.span + g.widest)
		}
	}
}

func (m *mutual) scanBlock(p Pose, k int, b *block, list *shortlist) {
	g := &m.rings[k]
	far := unit.Angle(math.Inf(1))
	limit := cosineOf(list.best() + g.slack + g.widest)
	gap := func(s int) unit.Angle {
		if r3.Dot(g.point[s], p.Axis) < limit {
			return far // too far off to be offered, however wide the neck is there
		}
		return m.about(p, s, k)
	}
	before, here := far, gap(b.from)
	for s := b.from; s < b.to; s++ {
		after := far
		if s+1 < b.to {
			after = gap(s + 1)
		}
		if here <= before && here < after && here < list.best()+g.slack {
			list.offer(near{s, here})
		}
		before, here = here, after
	}
}

func (m *mutual) margin(p Pose) unit.Angle {
	n, _ := m.closest(p)
	return m.signed(p, m.closestUnder(p, Touch{Margin: n.gap})).Margin
}

func (m *mutual) sampled(p Pose) Touch {
	n, level := m.closest(p)
	return m.signed(p, m.closestUnder(p, m.station(p, n, level)))
}

// closestUnder returns the place under the face of least gap over samples, if
// that is less than what is known of the face.
func (m *mutual) closestUnder(p Pose, best Touch) Touch {
	for _, u := range m.unders {
		if t, found := u.closest(p, best.Margin); found {
			best = t
		}
	}
	return best
}

// short has room for an edge under the face that may pass its corner between two
// samples.
func (m *mutual) short() unit.Angle {
	s := m.loss
	for _, u := range m.unders {
		s = max(s, u.short())
	}
	return s
}

func (m *mutual) bound(p Pose) (least, loss unit.Angle) {
	n, _ := m.closest(p)
	least, loss = m.signed(p, Touch{Margin: n.gap}).Margin-m.loss, m.loss
	for _, u := range m.unders {
		if t, found := u.closest(p, least+u.short()); found {
			least, loss = t.Margin-u.short(), u.short()
		}
	}
	return least, loss
}

func (m *mutual) gap(p Pose, t Touch) unit.Angle {
	if t.under != nil {
		return t.under.at(p, t.Roll).Margin
	}
	return m.outline.gap(p, t)
}

// closest returns the sample of least gap, and its level.
func (m *mutual) closest(p Pose) (best near, level int) {
	best.gap = unit.Angle(math.Inf(1))
	for k := range m.rings {
		if n := m.closestOf(p, k, best); n.gap < best.gap {
			best, level = n, k
		}
	}
	return best, level
}

// closestOf returns the sample of least gap at a level, or the best if none has
// less. Only where the widest neck would come so close is the roll looked at.
func (m *mutual) closestOf(p Pose, k int, best near) near {
	g := &m.rings[k]
	first, most := 0, -2.0
	for i := range g.block {
		if d := r3.Dot(g.block[i].centre, p.Axis); d > most {
			first, most = i, d
		}
	}
	best = m.closestIn(p, k, first, best)
	limit := cosineOf(best.gap + g.span + g.widest)
	for i := range g.block {
		if i == first || r3.Dot(g.block[i].centre, p.Axis) < limit {
			continue
		}
		if n := m.closestIn(p, k, i, best); n.gap < best.gap {
			best, limit = n, cosineOf(n.gap+g.span+g.widest)
		}
	}
	return best
}

func (m *mutual) closestIn(p Pose, k, i int, best near) near {
	g := &m.rings[k]
	b := &g.block[i]
	limit := cosineOf(best.gap + g.widest)
	for s := b.from; s < b.to; s++ {
		if r3.Dot(g.point[s], p.Axis) < limit {
			continue
		}
		if gap := m.about(p, s, k); gap < best.gap {
			best, limit = near{s, gap}, cosineOf(gap+g.widest)
		}
	}
	return best
}

// cosineOf returns the cosine of an angle, of all there are if it is more than a
// half turn.
func cosineOf(a unit.Angle) float64 {
	if !(a < math.Pi) {
		return -2
	}
	return a.Cos()
}

// least is the gap to the widest neck.
func (m *mutual) least(axis r3.Vec, radius unit.Angle) unit.Angle {
	if m.nearBody(axis, radius) {
		return unknown
	}
	least := unit.Angle(math.Inf(1))
	for i := range m.rings {
		least = min(least, m.rings[i].least(axis).gap)
	}
	for _, u := range m.unders {
		least = min(least, u.least(axis))
	}
	return least
}

func (m *mutual) nearest(p Pose) Touch {
	best := Touch{Margin: unit.Angle(math.Inf(1))}
	for k := range m.rings {
		var list shortlist
		m.scan(p, k, &list)
		for _, n := range list.at[:list.count] {
			if n.gap > min(list.best(), best.Margin)+m.rings[k].slack {
				break
			}
			if t := m.down(p, n.index, k); t.Margin < best.Margin {
				best = t
			}
		}
	}
	for _, u := range m.unders {
		if t, found := u.nearest(p, best.Margin); found {
			best = t
		}
	}
	return m.signed(p, best)
}

// down refines a sample, and goes on to the next where the gap still falls and
// the samples do not say so: they see the neck's width by a table.
func (m *mutual) down(p Pose, i, k int) Touch {
	best, further := m.refine(p, i, &m.levels[k])
	for range 4 {
		next := m.wrap(i + further)
		if further == 0 || m.about(p, next, k) < m.about(p, i, k) {
			break
		}
		var t Touch
		if t, further = m.refine(p, next, &m.levels[k]); t.Margin >= best.Margin {
			break
		}
		best, i = t, next
	}
	return best
}

func (m *mutual) rise(margin unit.Angle) float64 { return m.section.rise(margin) }

// table offsets the rim by the neck's widest half-width, which says what is
// free, and tells contact by the narrowest.
func (m *mutual) table() *table {
	if !m.radial {
		return new(table)
	}
	t := newTable()
	for i := range m.rings {
		t.curve(&m.rings[i])
	}
	t.body(&m.rings[0])
	t.close(m.short())
	for i := range t.cell {
		t.cell[i].cosDisc = (0.998 * m.width.narrowest).Cos() // which is sampled
	}
	return t
}

func (m *mutual) seen(p Pose) r3.Vec { return p.Axis }

func (m *mutual) rate() float64 { return m.width.rate() }

// steady is shallower than the outline: the roll of a rim point near the neck's
// axis changes faster than the rate says.
func (m *mutual) steady() unit.Angle {
	return max(m.outline.steady(), -m.width.narrowest*(1-1/within))
}
