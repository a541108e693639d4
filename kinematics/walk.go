package kinematics

import (
	"math"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/solve"
	"rimclear/kinematics/unit"
)

// walk finds the contact along one leg of a motion, of any design. All that it
// passes over is certainly free, or certainly in contact:
//
//   - Margins fall no faster than the slope, and their bound at a glance no faster
//     than the neck turns.
//   - Where the design has one, the measure of aperture.Rise bends up by no more
//     than the curve. With a rise r at x and none below 0 at z, it is above 0
//     between them if r > curve/2·(z-x)².
//   - A place of the rim that has been found in contact says how long the contact
//     lasts at least: until that place comes free.
type walk struct {
	j     Joint
	m     motion.Path
	leg   int
	slope float64 // of the margin, per unit of the leg's fraction
	turn  float64 // of the neck, at most, per unit of the leg's fraction
	curve float64 // of the rise
	touch aperture.Touch
	clear solve.Func // over, and gap at the touch
	apart solve.Func
}

func (j Joint) walk(m motion.Path, leg int) *walk {
	turn := turnOf(m, leg)
	w := &walk{j: j, m: m, leg: leg, slope: j.Aperture.Rate() * turn, turn: turn, curve: turn * turn}
	w.clear, w.apart = w.over, w.gap
	return w
}

func (w *walk) pose(at float64) aperture.Pose {
	return w.j.pose(w.m.At(motion.Place{Leg: w.leg, Fraction: at}), w.j.zero)
}

// over returns by how much the margin is above a touch, or a lower bound that is
// above 0 too.
func (w *walk) over(at float64) float64 { return float64(w.j.Aperture.Clear(w.pose(at)) - Touch) }

// touching notes a place in contact, or if there is none the nearest to it, and
// returns by how much its margin is above a touch.
func (w *walk) touching(at float64) float64 {
	w.touch = w.j.Aperture.Touching(w.pose(at))
	return float64(w.touch.Margin - Touch)
}

// gap returns by how much the place last noted is above a touch. In deep
// contact, where it may change fast, it is held.
func (w *walk) gap(at float64) float64 {
	return float64(max(w.j.Aperture.Gap(w.pose(at), w.touch), w.j.Aperture.Steady()) - Touch)
}

// enters returns the first place from which there is contact, if there is one,
// or else the end of the leg.
func (w *walk) enters(from float64) (at float64, found bool) {
	x := from
	v := w.over(x)
	for v > 0 && x < 1 {
		reach := w.reach(x, v)
		if reach < creep {
			x, found = solve.FirstCrossing(w.clear, x, math.Min(1, x+single), solve.Bound{Slope: w.slope})
			if found {
				return x, true
			}
			v = w.over(x)
			continue
		}
		y := math.Min(1, x+reach)
		u := w.over(y)
		if u <= 0 {
			return w.entry(x, y), true
		}
		x, v = y, u
	}
	return x, v <= 0
}

// Where steps would be shorter than creep, as shares of a leg, the margin is
// taken to have a single bottom within single: see solve.FirstCrossing.
const (
	creep  = 1e-7
	single = 1e-4
)

// reach returns how far from a free place, by how much it is clear there, there
// is no contact, or one that begins there and nowhere before.
func (w *walk) reach(at, v float64) float64 {
	reach := v / w.slope
	if w.slope > w.turn {
		reach = math.Max(reach, float64(w.j.Aperture.Below(w.pose(at))-Touch)/w.turn)
	}
	if rise := w.j.Aperture.Rise(unit.Angle(v)); rise > 0 {
		reach = math.Max(reach, math.Sqrt(2*rise/w.curve))
	}
	return reach
}

// entry returns where contact begins between a free place and one in contact:
// it goes back to where the touched place came into contact, looks what is
// touched there, and so on. Where by rounding there is none yet it goes on a
// little, at most to where it was before.
func (w *walk) entry(free, contact float64) float64 {
	nudge, sure := 4e-16, contact
	for range 100 {
		v := w.touching(contact)
		if v > 0 {
			free = math.Max(free, contact)
			if contact += nudge; contact >= sure {
				return sure
			}
			nudge *= 2
			continue
		}
		if sure, nudge = contact, 4e-16; v > -settled {
			return contact
		}
		if w.gap(contact) > 0 { // the neck's axis is in the body of the cup
			if middle := (free + contact) / 2; w.touching(middle) <= 0 {
				contact = middle
			} else {
				free = middle
			}
			continue
		}
		at := solve.Root(w.apart, free, contact)
		if at >= contact {
			return contact
		}
		contact = at
	}
	return sure
}

// settled is how deep a contact may be, in radians, where it begins.
const settled = 1e-14

// leaves returns the first place after a contact that is free, or the end of
// the leg if none is.
func (w *walk) leaves(from float64) (at float64, free bool) {
	x, nudge := from, 4e-16
	for {
		v := w.touching(x)
		if v > 0 || !(x < 1) {
			return x, v > 0
		}
		next := x - float64(max(unit.Angle(v), w.j.Aperture.Steady()))/w.slope
		if w.gap(x) <= 0 { // else the neck's axis is in the body of the cup
			at, _ := solve.LeavesAt(w.apart, x, 1, solve.Bound{Slope: w.slope})
			next = math.Max(next, at)
		}
		if next-x < hardly { // as where the touched place slips off an edge of the neck at once
			next = math.Max(next, x+nudge)
			nudge = math.Min(2*nudge, hardly)
		}
		x = math.Min(next, 1)
	}
}

// hardly is a share of a leg by which a contact may be told too long: of 180°, it
// is 2e-8°.
const hardly = 1e-10
