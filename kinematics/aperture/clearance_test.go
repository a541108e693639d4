package aperture

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// outlineOf is the neck's outline outside the ball, as a polyline of (axial,
// radial) corners, from the definitions: section, skirt with its flat end.
func (p parts) outlineOf(psi float64) [][2]float64 {
	radius := func(x float64) float64 {
		switch {
		case p.ovalA != 0:
			s, c := math.Sincos(psi - p.ovalRoll*math.Pi/180)
			return 1 / math.Sqrt(c*c/(p.ovalA*p.ovalA/4)+s*s/(p.ovalB*p.ovalB/4))
		case p.tapD0 != 0:
			f := math.Min(1, math.Max(0, (x-p.tapS0)/(p.tapS1-p.tapS0)))
			return (p.tapD0 + f*(p.tapD1-p.tapD0)) / 2
		}
		return p.neck / 2
	}
	b := p.halfWidth(p.head/2, psi)
	start := p.head / 2 * math.Cos(b)
	line := [][2]float64{{start, p.head / 2 * math.Sin(b)}}
	if p.skirtL > start {
		line = append(line, [2]float64{p.skirtL, p.skirtD / 2})
		start = p.skirtL
		line = append(line, [2]float64{start, radius(start)})
	}
	for _, x := range []float64{p.tapS0, p.tapS1, 2 * p.head} {
		if x > start {
			line = append(line, [2]float64{x, radius(x)})
		}
	}
	return line
}

// distance is the least distance in space between the face and the neck's
// surface outside the ball: coarse clouds of both, then ever finer ones about
// the nearest pairs.
func (p parts) distance(pose Pose) float64 {
	n := len(p.outlineOf(0)) - 1
	face := func(az, t float64) r3.Vec { return p.face(az, p.polar(az), t) }
	neck := func(psi, s float64) r3.Vec {
		line := p.outlineOf(psi)
		i := min(int(s), n-1)
		f := s - float64(i)
		x := line[i][0] + f*(line[i+1][0]-line[i][0])
		y := line[i][1] + f*(line[i+1][1]-line[i][1])
		sp, cp := math.Sincos(psi)
		return r3.Add(r3.Scale(x, pose.Axis), r3.Scale(y, r3.Add(r3.Scale(cp, pose.Superior), r3.Scale(sp, pose.Anterior))))
	}
	const faces, walls, rolls, alongs = 48, 3, 24, 10
	var surface []r3.Vec
	var where [][2]float64
	for i := range rolls {
		for k := range alongs * n {
			psi, s := float64(i)*2*math.Pi/rolls, float64(k)/alongs
			surface, where = append(surface, neck(psi, s)), append(where, [2]float64{psi, s})
		}
	}
	best := math.Inf(1)
	for i := range faces {
		for k := range walls + 1 {
			az, t := float64(i)*360/faces, float64(k)/walls
			at, d, m := face(az, t), math.Inf(1), 0
			for j, q := range surface {
				if e := r3.Norm2(r3.Sub(at, q)); e < d {
					d, m = e, j
				}
			}
			if math.Sqrt(d) < best+2 {
				best = math.Min(best, descend([4]float64{az, t, where[m][0], where[m][1]},
					[4]float64{360.0 / faces, 1.0 / walls, 2 * math.Pi / rolls, 1.0 / alongs},
					func(x [4]float64) float64 {
						x[1], x[3] = math.Max(0, math.Min(1, x[1])), math.Max(0, math.Min(float64(n), x[3]))
						return r3.Norm(r3.Sub(face(x[0], x[1]), neck(x[2], x[3])))
					}))
			}
		}
	}
	return best
}

// descend walks downhill on a shrinking grid in four dimensions.
func descend(x, step [4]float64, f func([4]float64) float64) float64 {
	best := f(x)
	for range 150 {
		from, moved := x, false
		for i := range 81 {
			y, k := from, i
			for d := range 4 {
				y[d] += step[d] * float64(k%3-1)
				k /= 3
			}
			if v := f(y); v < best-1e-15 {
				best, x, moved = v, y, true
			}
		}
		if !moved {
			for d := range step {
				step[d] /= 2
			}
			if step[1] < 1e-7 {
				break
			}
		}
	}
	return best
}

func TestClearanceIsTheShortestWayFromFaceToNeck(t *testing.T) {
	for k, features := range []string{"", "taper", "skirt", "inset", "taper skirt", "lip", "oval", "lip skirt"} {
		r := rand.New(rand.NewPCG(51, uint64(k)))
		worst := 0.0
		for range 2 {
			p := randomParts(r, strings.Fields(features)...)
			a := p.build()
			pose := poseOf(r.Float64()*0.6, r.Float64()*2*math.Pi, r.Float64()*2*math.Pi)
			if a.Nearest(pose).Margin <= 0 {
				if got := a.Clearance(pose); got != 0 {
					t.Errorf("[%s] in contact the clearance is %v mm, want 0", features, got)
				}
				continue
			}
			got, want := a.Clearance(pose), p.distance(pose)
			worst = math.Max(worst, math.Abs(got-want))
			if math.Abs(got-want) > 2e-4 {
				t.Errorf("[%s] %+v, pose %v: clearance %.5f mm, want %.5f mm", features, p, pose, got, want)
			}
		}
		t.Logf("[%s] worst difference %.2g mm", features, worst)
	}
}
