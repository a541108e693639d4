package kinematics

import (
	"math"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/unit"
)

// dive looks for the least margin along one leg of a motion, of a design that
// is not round.
type dive struct {
	*sounding
	slope float64 // the margin changes no faster along the leg
	// curve bounds the second derivative of what the margin is the least of: the
	// distance on the sphere between a direction and the points of an outline,
	// less the half-width there. Along a curve of speed and acceleration at most w
	// and w², a distance d bends up by at most w²(1 + cot d), and as long as the
	// motion is free, d is at least the neck's half-width. 0 where there is no
	// such bound.
	curve float64
}

// between looks between two places at which a lower bound of the margin is
// known.
func (d *dive) between(a, va, b, vb float64) {
	width := b - a
	low := (va + vb - d.slope*width) / 2
	x := (a + b) / 2
	tolerance := soundMutual
	if d.curve > 0 {
		tolerance = soundFree
		if low > 0 {
			low, x = d.parabola(a, va, b, vb, low)
		}
	}
	if d.lowest <= 0 {
		tolerance = soundContact
	}
	if low >= d.lowest-tolerance || width < finest {
		return
	}
	v := d.clear(x)
	d.between(a, va, x, v)
	d.between(x, v, b, vb)
}

// parabola returns a lower bound between two places by the bound of the second
// derivative, if that is better, and where to look next.
func (d *dive) parabola(a, va, b, vb, low float64) (float64, float64) {
	width := b - a
	slope := (vb - va) / width
	x := (a+b)/2 - slope/d.curve
	under := math.Min(va, vb)
	if x > a && x < b {
		under = va + slope*(x-a) - d.curve/2*(x-a)*(b-x)
	}
	return math.Max(low, under), math.Max(a+width/4, math.Min(b-width/4, x))
}

// narrowest returns a lower bound of the neck's half-width, seen from the head
// centre, at any distance at which the cup has a face.
func narrowest(ap *aperture.Aperture) unit.Angle {
	rim, neck := ap.Rim(), ap.Neck()
	least := neck.Narrowest() / 2
	if t := neck.Taper; t.Present() {
		least *= math.Min(1, t.EndDiameter/t.StartDiameter)
	}
	far := 2 * math.Abs(rim.Offset()) // about which lips turn the face
	f := rim.Face(0)
	for _, v := range f.Corner[:f.Count] {
		far = math.Max(far, v.Rho()+2*math.Abs(rim.Offset()))
	}
	return unit.Angle(math.Asin(math.Min(1, least/far)))
}
