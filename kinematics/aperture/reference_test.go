package aperture

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// parts is a rim and a neck written down a second time, from the definitions
// of assets/golden/contact.md alone: degrees and mm, solids sampled point by
// point. None of the formulas of the packages under test is used.
type parts struct {
	head, arc, wall, inset     float64
	lipH, lipC, lipW, lipR     float64
	neck                       float64 // a cylinder, if there is no taper and no oval
	tapD0, tapS0, tapD1, tapS1 float64
	ovalA, ovalB, ovalRoll     float64
	skirtD, skirtL             float64
	edgeRadius, edgeHeight     float64
}

func (p parts) build() *Aperture {
	deg := func(x float64) unit.Angle { return unit.Angle(x) * unit.Degree }
	lip := implant.Lip{Height: deg(p.lipH), Centre: deg(p.lipC), Plateau: deg(p.lipW), Ramp: deg(p.lipR)}
	lips, notch := [2]implant.Lip{lip}, implant.Lip{}
	if p.lipH < 0 {
		lip.Height = -lip.Height
		lips, notch = [2]implant.Lip{}, lip
	}
	return Build(
		implant.Rim{
			HeadDiameter: p.head, Arc: deg(p.arc), Wall: p.wall, Inset: p.inset,
			Edge: implant.Edge{Radius: p.edgeRadius, Height: p.edgeHeight},
			Lips: lips, Notch: notch,
		},
		implant.Neck{
			Diameter: p.neck,
			Taper:    implant.Taper{StartDiameter: p.tapD0, Start: p.tapS0, EndDiameter: p.tapD1, End: p.tapS1},
			Oval:     implant.Oval{Width: p.ovalA, Depth: p.ovalB, Roll: deg(p.ovalRoll)},
			Skirt:    implant.Skirt{Diameter: p.skirtD, Length: p.skirtL},
		})
}

// polar is the polar angle of the face, seen from the liner's centre, in degrees.
func (p parts) polar(az float64) float64 {
	g := 180 - p.arc/2
	if p.edgeRadius != 0 {
		g = 90
	}
	x := math.Abs(math.Remainder(az-p.lipC, 360))
	switch {
	case x <= p.lipW/2:
		g -= p.lipH
	case x < p.lipW/2+p.lipR:
		g -= p.lipH * (1 + math.Cos(math.Pi*(x-p.lipW/2)/p.lipR)) / 2
	}
	return g
}

// face is the point of the face at azimuth az, standing at polar angle g, at
// share t of the wall, in the cup frame.
func (p parts) face(az, g, t float64) r3.Vec {
	sg, cg := math.Sincos(g * math.Pi / 180)
	sa, ca := math.Sincos(az * math.Pi / 180)
	r, centre := p.head/2, p.inset
	if p.edgeRadius != 0 {
		r, centre = p.edgeRadius, p.edgeHeight
	}
	r += t * p.wall
	return r3.Vec{X: r * sg * ca, Y: r * sg * sa, Z: centre + r*cg}
}

// halfWidth is the greatest angle from the neck's axis, in radians, at which a
// point at distance rho on the side psi is still within the neck: of a straight
// neck and of a skirt by a sine, of a tapered one scanned, then bisected.
func (p parts) halfWidth(rho, psi float64) float64 {
	r := p.neck / 2
	if p.ovalA != 0 {
		s, c := math.Sincos(psi - p.ovalRoll*math.Pi/180)
		r = 1 / math.Sqrt(c*c/(p.ovalA*p.ovalA/4)+s*s/(p.ovalB*p.ovalB/4))
	}
	b := math.Asin(math.Min(1, r/rho))
	if p.tapD0 != 0 {
		b = p.taperedHalfWidth(rho)
	}
	if p.skirtL > 0 && rho <= math.Hypot(p.skirtL, p.skirtD/2) {
		b = math.Max(b, math.Asin(math.Min(1, p.skirtD/2/rho)))
	}
	return b
}

func (p parts) taperedHalfWidth(rho float64) float64 {
	inside := func(b float64) bool {
		f := math.Min(1, math.Max(0, (rho*math.Cos(b)-p.tapS0)/(p.tapS1-p.tapS0)))
		return rho*math.Sin(b) <= (p.tapD0+f*(p.tapD1-p.tapD0))/2
	}
	const step = 0.005
	b := math.Asin(math.Min(1, math.Max(p.tapD0, p.tapD1)/2/rho)) + step
	for ; !inside(b); b -= step {
	}
	lo, hi := b, b+step
	for range 45 {
		if m := (lo + hi) / 2; inside(m) {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

func (p parts) widest() float64 {
	return math.Max(math.Max(p.neck, p.skirtD), math.Max(math.Max(p.tapD0, p.tapD1), math.Max(p.ovalA, p.ovalB))) / 2
}

// gap is the angle, along the neck's own meridian, by which a point is clear
// of the neck, in radians; with a bound, points that are clear by more are not
// looked at closely.
func (p parts) gap(at r3.Vec, pose Pose, bound float64) float64 {
	rho := r3.Norm(at)
	x := r3.Dot(at, pose.Axis)
	across := r3.Sub(at, r3.Scale(x, pose.Axis))
	angle := math.Atan2(r3.Norm(across), x)
	if least := angle - math.Asin(math.Min(1, p.widest()/rho)); least > bound {
		return least
	}
	psi := math.Atan2(r3.Dot(across, pose.Anterior), r3.Dot(across, pose.Superior))
	return angle - p.halfWidth(rho, psi)
}

// strand is a curve on the face: the rim, or the riser of a step of the lip.
type strand struct {
	from, to float64
	at       func(s float64) (az, g float64)
}

func (p parts) strands() []strand {
	list := []strand{{0, 360, func(s float64) (float64, float64) { return s, p.polar(s) }}}
	if p.lipH != 0 && p.lipR == 0 {
		for _, az := range []float64{p.lipC - p.lipW/2, p.lipC + p.lipW/2} {
			low := p.polar(az)
			list = append(list, strand{low, low + p.lipH, func(s float64) (float64, float64) { return az, s }})
		}
	}
	return list
}

// margin is the least gap over all points of the face, in degrees: a dense
// cloud, then ever finer clouds around the least of its points. Under a round
// rim a neck that is not round is measured the other way about: from the points
// of its outline to the rim.
func (p parts) margin(pose Pose) float64 {
	best := math.Inf(1)
	for _, c := range p.strands() {
		gap := func(s, t, bound float64) float64 {
			az, g := c.at(s)
			return p.gap(p.face(az, g, t), pose, bound)
		}
		if p.lipH == 0 && p.ovalA != 0 {
			gap = func(s, t, _ float64) float64 { return p.reach(s, t, pose) }
		}
		n := int(math.Ceil(math.Abs(c.to-c.from)/0.25)) + 1
		step := (c.to - c.from) / float64(n-1)
		cloud := make([][layers]float64, n)
		for i := range cloud {
			for k := range layers {
				cloud[i][k] = gap(c.from+float64(i)*step, float64(k)/(layers-1), best+0.02)
				best = math.Min(best, cloud[i][k])
			}
		}
		for i := range cloud {
			for k, m := range cloud[i] {
				if m < best+0.004 && m <= cloud[max(i-1, 0)][k] && m <= cloud[min(i+1, n-1)][k] {
					best = math.Min(best, c.zoom(gap, c.from+float64(i)*step, step, float64(k)/(layers-1)))
				}
			}
		}
	}
	return best * 180 / math.Pi
}

// reach is the polar angle from the neck's outline, on its side psi in degrees
// and at the distance of share t of the wall, to the rim.
func (p parts) reach(psi, t float64, pose Pose) float64 {
	at := p.face(0, p.polar(0), t)
	rho := r3.Norm(at)
	sp, cp := math.Sincos(psi * math.Pi / 180)
	sb, cb := math.Sincos(p.halfWidth(rho, psi*math.Pi/180))
	q := r3.Add(r3.Scale(cb, pose.Axis), r3.Scale(sb, r3.Add(r3.Scale(cp, pose.Superior), r3.Scale(sp, pose.Anterior))))
	return math.Atan2(at.X, at.Z) - math.Atan2(math.Hypot(q.X, q.Y), q.Z)
}

// layers is how many points of the cloud lie across the face.
const layers = 9

func (c strand) zoom(gap func(s, t, bound float64) float64, s, ds, t float64) float64 {
	dt, best := 1.0/(layers-1), math.Inf(1)
	for range 16 {
		s0, t0 := s, t
		for i := -2; i <= 2; i++ {
			for k := -2; k <= 2; k++ {
				s1 := math.Max(math.Min(c.from, c.to), math.Min(math.Max(c.from, c.to), s0+float64(i)*ds/2))
				t1 := math.Max(0, math.Min(1, t0+float64(k)*dt/2))
				if m := gap(s1, t1, best); m < best {
					best, s, t = m, s1, t1
				}
			}
		}
		ds, dt = ds*0.55, dt*0.55
	}
	return best
}

// poseOf is the neck tilted by polar towards azimuth and rolled about itself,
// all in radians.
func poseOf(polar, azimuth, roll float64) Pose {
	turn := r3.NewRotation(azimuth, r3.Vec{Z: 1})
	tilt := r3.NewRotation(polar, r3.Vec{Y: 1})
	spin := r3.NewRotation(roll, r3.Vec{Z: 1})
	at := func(v r3.Vec) r3.Vec { return turn.Rotate(tilt.Rotate(spin.Rotate(v))) }
	// The neck frame is left-handed as the cup frame is: superior, anterior, axis.
	return Pose{Superior: at(r3.Vec{X: 1}), Anterior: at(r3.Vec{Y: 1}), Axis: at(r3.Vec{Z: 1})}
}

// randomParts draws a design with the named features.
func randomParts(r *rand.Rand, features ...string) parts {
	u := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	p := parts{head: u(22, 52), arc: u(150, 195), wall: u(2, 8)}
	p.neck = p.head * u(0.3, 0.7)
	for _, f := range features {
		switch f {
		case "lip":
			p.lipH, p.lipC, p.lipW, p.lipR = u(3, 22), u(-180, 180), u(0, 150), u(8, 40)
		case "step":
			p.lipH, p.lipC, p.lipW, p.lipR = u(3, 22), u(-180, 180), u(20, 150), 0
		case "notch":
			p.lipH, p.lipC, p.lipW, p.lipR = -u(3, 15), u(-180, 180), u(5, 100), u(5, 30)
		case "oval":
			p.ovalA, p.neck = p.neck, 0
			p.ovalB, p.ovalRoll = p.ovalA*u(0.6, 1.3), u(-90, 90)
		case "taper":
			p.tapD0, p.neck = p.neck, 0
			p.tapD1, p.tapS0 = p.tapD0*u(0.6, 1.2), u(0, 0.9*p.head)
			p.tapS1 = p.tapS0 + u(6, 25)
		case "skirt":
			p.skirtD, p.skirtL = p.head*u(0.5, 0.8), p.head/2+u(-3, p.wall+2)
		case "inset":
			p.inset = u(-3, 4)
		case "edge":
			p.edgeRadius, p.edgeHeight = p.head/2*u(1.02, 1.2), u(-3, 3)
		}
	}
	return p
}

// turn returns the pose turned by an angle about a random axis.
func turn(r *rand.Rand, p Pose, by float64) (Pose, float64) {
	axis := r3.Unit(r3.Vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()})
	rot := r3.NewRotation(by, axis)
	return Pose{Axis: rot.Rotate(p.Axis), Superior: rot.Rotate(p.Superior), Anterior: rot.Rotate(p.Anterior)}, by
}
