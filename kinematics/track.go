package kinematics

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// track is a leg of a required motion as a row of samples, at which a bearing
// that is not round is looked at.
type track struct {
	motion, path, leg int
	zero              hip.Plane
	from, to          int        // samples from ≤ i < to
	step              unit.Angle // from one to the next, by the sum of the joint angles' changes
	alone             bool       // one joint angle moves
	axis              r3.Vec     // about which, in the zero plane
}

// tracks are all legs of the required motions, and where the femur is at their
// samples: the zero plane from the shaft. They know neither cup nor stem nor
// tilt.
type tracks struct {
	list  []track
	femur []hip.Rotation
	uses  [hip.PlaneCount]bool // which zero planes
}

// stride is the greatest step between samples: between samples so close the
// margin dips by some 0.01° more.
const stride = 1 * unit.Degree

func newTracks(list []motion.Requirement) *tracks {
	t := new(tracks)
	for i, r := range list {
		if r.Open {
			continue
		}
		for k, p := range r.Paths {
			if p.Legs() == 0 && len(p.Waypoints) > 0 {
				t.add(track{motion: i, path: k, zero: p.Zero}, p, 0)
			}
			for leg := range p.Legs() {
				t.add(track{motion: i, path: k, leg: leg, zero: p.Zero}, p, unit.Angle(turnOf(p, leg)))
			}
		}
	}
	return t
}

func (t *tracks) add(at track, p motion.Path, length unit.Angle) {
	n := int(math.Ceil(float64(length/stride) - 1e-9))
	at.from, at.to = len(t.femur), len(t.femur)+n+1
	if n > 0 {
		at.step = length / unit.Angle(n)
		moving, alone := p.Moving(at.leg)
		at.alone, at.axis = alone, turnAxis(p.Waypoints[at.leg], moving)
	}
	t.uses[at.zero] = true
	for i := at.from; i < at.to; i++ {
		t.femur = append(t.femur, shaft(p, p.At(motion.Place{Leg: at.leg, Fraction: at.share(i)})))
	}
	t.list = append(t.list, at)
}

// share returns the fraction of the leg at a sample, and moment the moment.
func (t *track) share(i int) float64 {
	if t.to-t.from < 2 {
		return 0
	}
	return float64(i-t.from) / float64(t.to-1-t.from)
}

func (t *track) moment(i int) Moment {
	return Moment{t.motion, t.path, motion.Place{Leg: t.leg, Fraction: t.share(i)}}
}

// farthest returns the farthest of every track, given that of the pieces of
// which its leg is made.
func (t *tracks) farthest(d *Demand, far []unit.Angle) []unit.Angle {
	list, piece := make([]unit.Angle, len(t.list)), 0
	for i := range t.list {
		l := &t.list[i]
		for ; piece < len(d.piece); piece++ {
			if p := &d.piece[piece]; p.motion != l.motion || p.path != l.path || p.leg != l.leg {
				break
			}
			list[i] = max(list[i], far[piece])
		}
	}
	return list
}

// begin returns the first sample of every motion.
func (t *tracks) begin(motions int) []hint {
	list := make([]hint, motions)
	for i := len(t.list) - 1; i >= 0; i-- {
		list[t.list[i].motion] = hint{i, t.list[i].from}
	}
	return list
}

// combing looks along tracks for the least margin of a placed bearing that is
// not round.
type combing struct {
	*tracks
	ap     *aperture.Aperture
	neck   hip.Rotation                 // shaft from neck
	cup    [hip.PlaneCount]hip.Rotation // from every zero plane
	rolls  bool                         // the neck's roll matters
	one    bool                         // a search ends with the first it finds
	rate   unit.Angle
	steady unit.Angle // the margin down to which it holds
	margin unit.Angle // the least found, or what it must be below
	at     int        // its track, -1 where none is below
	sample int
}

// comb returns a search at a cup axis given in the anterior pelvic plane.
func (t *trial) comb(n r3.Vec) combing {
	k := combing{tracks: t.tracks, ap: t.ap, neck: t.neck, margin: 10, at: -1,
		rolls: !t.ap.Neck().Round(), rate: unit.Angle(t.ap.Rate()), steady: t.ap.Steady()}
	cup := t.cupFromAPP(n)
	for p := range k.cup {
		k.cup[p] = cup
		if tilt := t.tilts.Of(hip.Plane(p)); tilt != 0 && k.uses[p] {
			k.cup[p] = cup.Mul(hip.RotationZ(tilt))
		}
	}
	return k
}

// pose returns the neck in the cup at a femur: its axis, and what its roll needs
// where that matters.
func (k *combing) pose(zero hip.Plane, femur *hip.Rotation) (p aperture.Pose) {
	cup := &k.cup[zero]
	p.Axis = cup.Apply(femur.Apply(k.neck.Column(2)))
	if k.rolls {
		p.Superior = cup.Apply(femur.Apply(k.neck.Column(0)))
		p.Anterior = cup.Apply(femur.Apply(k.neck.Column(1)))
	}
	return p
}

// look looks at a sample. It returns the margin, or a lower bound of it that is
// not below the least found.
func (k *combing) look(t int, i int) unit.Angle {
	p := k.pose(k.list[t].zero, &k.femur[i])
	m := k.ap.Below(p)
	if m >= k.margin {
		return m
	}
	if m = k.ap.Margin(p); m < k.margin {
		k.margin, k.at, k.sample = m, t, i
	}
	return m
}

// along looks along a track for samples of less margin than the least found.
func (k *combing) along(t int) {
	tr := &k.list[t]
	k.between(t, tr.from, tr.to, k.fall(tr))
}

// until is along that ends with the first it finds.
func (k *combing) until(t int) {
	k.one = true
	k.along(t)
	k.one = false
}

// fall bounds how fast the margin falls from one sample to the next. Where one
// joint angle moves about a bearing of which one part is round, that is how far
// the neck's axis moves in the cup, or the cup's in the neck.
func (k *combing) fall(t *track) float64 {
	if !t.alone || k.rate != 1 {
		return float64(k.rate * t.step)
	}
	u := k.cup[t.zero][2] // the cup axis in the zero plane
	moving := r3.Vec{X: u[0], Y: u[1], Z: u[2]}
	if !k.rolls {
		moving = k.femur[t.from].Apply(k.neck.Column(2))
	}
	c := r3.Dot(moving, t.axis)
	return float64(t.step)*math.Sqrt(max(0, 1-c*c)) + 1e-12
}

// between looks at samples from ≤ i < to, the middle first. From a margin m
// none below the least found can come within their difference over the fall, on
// either side, so the samples there are passed over: which samples are lowest
// does not depend on where one begins.
func (k *combing) between(t, from, to int, fall float64) {
	for from < to && !(k.one && k.at >= 0) {
		i := from + (to-from)/2
		over := 1
		if left := float64(k.look(t, i) - max(k.margin, k.steady)); left > 0 {
			over += int(math.Min(left/fall, 1e6))
		}
		if i+over < to {
			k.between(t, i+over, to, fall)
		}
		to = i - over + 1
	}
}

// settle lowers a sampled least margin to the bottom of a parabola through it
// and its neighbours, if that is lower.
func (k *combing) settle(list []motion.Requirement) Worst {
	t := &k.list[k.at]
	w := Worst{k.margin, t.moment(k.sample)}
	if t.to-t.from < 3 {
		return w
	}
	path := list[t.motion].Paths[t.path]
	at := func(x float64) unit.Angle {
		femur := shaft(path, path.At(motion.Place{Leg: t.leg, Fraction: x}))
		return k.ap.Margin(k.pose(t.zero, &femur))
	}
	mid := max(t.from+1, min(t.to-2, k.sample))
	a, b, c := k.exact(t, mid-1), k.exact(t, mid), k.exact(t, mid+1)
	if d := a - 2*b + c; d > 0 {
		h := t.share(t.from + 1)
		x := max(0, min(1, t.share(mid)+h*float64((a-c)/2/d)))
		if m := at(x); m < w.Margin {
			w.Margin, w.Moment.Place.Fraction = m, x
		}
	}
	return w
}

// exact returns the margin at a sample.
func (k *combing) exact(t *track, i int) unit.Angle {
	return k.ap.Margin(k.pose(t.zero, &k.femur[i]))
}
