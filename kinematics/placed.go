package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// placed is one placement: what the deviations make of cup, neck and pelvis.
type placed struct {
	axis  r3.Vec // of the cup, APP
	neck  r3.Vec // in the shaft
	stem  hip.Stem
	tilts hip.Tilts
	off   unit.Angle // by how much, at most, cup and neck turn against each other from the target
}

// place returns the placement of a deviation.
func (d *draw) place(v deviation) placed {
	c := d.d.Cup
	return d.placeAt(c.Inclination, c.Anteversion, v)
}

// placeAt returns the placement of a deviation about another cup position, in
// the design's definition and plane.
func (d *draw) placeAt(inclination, anteversion unit.Angle, v deviation) placed {
	c := d.d.Cup
	was := hip.AxisBy(c.Definition, c.Inclination, c.Anteversion)
	axis := hip.AxisBy(c.Definition, inclination+v[CupInclination], anteversion+v[CupAnteversion])
	p := placed{stem: d.d.Stem, tilts: tilted(d.h.Tilts, v[PelvicTilt])}
	p.stem.Anteversion += v[StemAnteversion]
	p.neck = p.stem.Axis()
	p.axis = p.tilts.APPFromPlane(d.h.CupPlane).Apply(axis)
	p.off = sphere.Between(was, axis) + v[StemAnteversion].Abs() + v[PelvicTilt].Abs()
	return p
}

// tilted returns the tilts with the pelvis tilted further in every posture.
func tilted(t hip.Tilts, by unit.Angle) hip.Tilts {
	return hip.Tilts{Supine: t.Supine + by, Standing: t.Standing + by,
		RelaxedSitting: t.RelaxedSitting + by, FlexedSitting: t.FlexedSitting + by}
}

// sag is by how much, at most, the cosine dips between the ends of a piece on
// which several joint angles move: 1 - cos(chord/2), with room to spare.
const sag = 5e-4

// judge finds the motions that are not free at a placement and how far they
// fall short: motion and worst. A piece can only fail if it was near enough at
// the target for the deviation to make up.
func (d *draw) judge(p *placed) {
	for _, m := range d.motion {
		d.worst[m] = 0
	}
	d.motion = d.motion[:0]
	if !d.round {
		d.judgeOther(p)
		return
	}
	d.tilts = p.tilts
	s := d.see(p.axis)
	for k, i := range d.order {
		if d.far[k]+p.off < d.theta-1e-5 {
			return
		}
		q := &d.piece[i]
		n := s[q.zero]
		if !q.alone && min(r3.Dot(n, q.ends[0].Apply(p.neck)), r3.Dot(n, q.ends[2].Apply(p.neck))) > d.cos+sag {
			continue
		}
		a := q.trace(p.neck)
		if c := a.Least(n); c <= d.cos {
			d.fails(q.motion, d.theta-unit.Angle(acos(c)))
		}
	}
}

// serves reports whether all motions are free at a placement. It is judge
// without what is short, and so ends with the first that is.
func (d *draw) serves(p *placed) bool {
	if !d.round {
		return d.servesOther(p)
	}
	d.tilts = p.tilts
	s := d.see(p.axis)
	for k, i := range d.order {
		if d.far[k]+p.off < d.theta-1e-5 {
			return true
		}
		q := &d.piece[i]
		n := s[q.zero]
		a, b := r3.Dot(n, q.ends[0].Apply(p.neck)), r3.Dot(n, q.ends[2].Apply(p.neck))
		if a <= d.cos || b <= d.cos {
			return false
		}
		if !q.alone && min(a, b) > d.cos+sag {
			continue
		}
		if arc := q.trace(p.neck); arc.Least(n) <= d.cos {
			return false
		}
	}
	return true
}

// servesOther is serves for bearings that are not round. Where the last
// placement failed is looked at first.
func (d *draw) servesOther(p *placed) bool {
	if d.Empty() || d.ap.Inscribed()-d.far[0]-p.off > Touch {
		return true
	}
	k := d.combAt(p)
	k.margin = Touch
	if k.look(d.last.track, d.last.sample); k.at >= 0 {
		return false
	}
	for o, i := range d.order {
		if d.ap.Inscribed()-d.far[o]-p.off > Touch {
			return true
		}
		if k.along(int(i)); k.at >= 0 {
			d.last = hint{k.at, k.sample}
			return false
		}
	}
	return true
}

// fails notes that a motion is not free.
func (d *draw) fails(motion int, margin unit.Angle) {
	if d.worst[motion] == 0 {
		d.motion = append(d.motion, motion)
	}
	d.worst[motion] = min(d.worst[motion], margin, -1e-15)
}

// judgeOther is judge for bearings that are not round. Of a motion that is not
// free, how far it falls short is found only where it is the worst of all, or
// as bad; that of others is some contact on their way.
func (d *draw) judgeOther(p *placed) {
	if d.Empty() || d.ap.Inscribed()-d.far[0]-p.off > Touch {
		return
	}
	k := d.combAt(p)
	d.deepest = Touch
	for m, l := range d.lasts {
		if d.first[m] < d.first[m+1] {
			k.margin = d.sought(m)
			k.look(l.track, l.sample)
			d.note(&k, m)
		}
	}
	for o, i := range d.order {
		if d.ap.Inscribed()-d.far[o]-p.off > Touch {
			return
		}
		m := d.tracks.list[i].motion
		if d.worst[m] == 0 {
			k.margin = d.sought(m)
			k.until(int(i))
			d.note(&k, m)
		}
		if d.worst[m] < 0 {
			k.margin = d.sought(m)
			k.along(int(i))
			d.note(&k, m)
		}
	}
}

// sought returns the margin below which a motion is looked at: any contact, or
// if that is known, what is no less deep than the deepest. Motions as deep are
// told apart by their index.
func (d *draw) sought(motion int) unit.Angle {
	switch {
	case d.worst[motion] == 0:
		return Touch
	case d.worst[motion] > d.deepest:
		return unit.Angle(math.Nextafter(float64(d.deepest), 1))
	}
	return d.deepest
}

// note keeps what a search has found of a motion, if anything, and makes it
// ready for the next.
func (d *draw) note(k *combing, motion int) {
	if k.at < 0 {
		return
	}
	d.fails(motion, k.margin)
	d.deepest = min(d.deepest, k.margin)
	d.lasts[motion] = hint{k.at, k.sample}
	k.at = -1
}

// combAt returns a search at a placement.
func (d *draw) combAt(p *placed) combing {
	d.tilts = p.tilts
	d.trial.neck = p.stem.FemurFromNeck()
	d.cupPlane = p.tilts.APPFromPlane(d.h.CupPlane)
	return d.comb(p.axis)
}

// least returns the worst margin at a deviation.
func (d *draw) least(v deviation) unit.Angle {
	p := d.place(v)
	d.tilts = p.tilts
	d.reneck(p.neck)
	if d.round {
		return d.theta - d.Farthest(p.axis).Angle
	}
	t := *d.trial
	t.neck, t.cupPlane = p.stem.FemurFromNeck(), p.tilts.APPFromPlane(d.h.CupPlane)
	t.d.Stem, t.h.Tilts = p.stem, p.tilts
	return t.worst(p.axis).Margin
}
