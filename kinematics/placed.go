package kinematics

import (
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

func (d *draw) servesOther(p *placed) bool {
	k := d.comb(p)
	for o, i := range d.order {
		if d.ap.Inscribed()-d.far[o]-p.off > Touch {
			return true
		}
		k.worst.Margin, k.at = Touch, -1
		if k.along(int(i)); k.at >= 0 {
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

// judgeOther is judge for bearings that are not round.
func (d *draw) judgeOther(p *placed) {
	k := d.comb(p)
	for o, i := range d.order {
		if d.ap.Inscribed()-d.far[o]-p.off > Touch {
			return
		}
		m := d.piece[i].motion
		k.worst.Margin, k.at = Touch, -1
		if d.worst[m] < 0 {
			k.worst.Margin = d.worst[m]
		}
		if k.along(int(i)); k.at >= 0 {
			d.fails(m, k.worst.Margin)
		}
	}
}

// comb returns a search at a placement.
func (d *draw) comb(p *placed) combing {
	d.tilts = p.tilts
	d.trial.neck = p.stem.FemurFromNeck()
	d.cupPlane = p.tilts.APPFromPlane(d.h.CupPlane)
	return combing{trial: d.trial, cup: d.cupFromAPP(p.axis), worst: Worst{Margin: 10}, at: -1, rate: unit.Angle(d.ap.Rate())}
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
