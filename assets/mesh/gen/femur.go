package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// The femur is that of an adult of middling size; its measures are illustrative
// (from memory of common anatomy): neck-shaft angle 130°, anteversion 15°, head
// 47 mm, offset 43 mm. Frame: hip centre at the origin, shaft along -Y, X
// anterior, Z lateral.
const (
	neckShaft  = 130 * math.Pi / 180
	version    = 15 * math.Pi / 180
	headRadius = 23.5
	offset     = 43.0
)

// neckAxis is the direction from the head centre to the shaft.
var neckAxis = func() r3.Vec {
	a := math.Pi - neckShaft
	return at(-math.Sin(version)*math.Sin(a), -math.Cos(a), math.Cos(version)*math.Sin(a))
}()

// shaftAt is the point of the neck axis on the shaft's axis.
var shaftAt = r3.Scale(offset/math.Sin(math.Pi-neckShaft), neckAxis)

// femur returns the whole bone below a cut square to the neck, at distance cut
// from the head centre; the head is left out.
func femur(cut float64) field {
	bone := blend(9, neck(), proximal(), shaft(), distal())
	bone = carve(6, bone, egg(at(-29, -17, 37), at(9, 10, 6.5)))
	return within(1.2, bone, half(r3.Scale(cut, neckAxis), r3.Scale(-1, neckAxis)))
}

// neck is an oval waist between head and trochanters.
func neck() field {
	up := r3.Unit(r3.Sub(at(0, 1, 0), r3.Scale(neckAxis.Y, neckAxis)))
	front := r3.Cross(up, neckAxis)
	tall := table{{0, 19}, {14, 18}, {27, 16.2}, {40, 19.5}, {54, 25}}
	deep := table{{0, 16.5}, {14, 15}, {27, 13.2}, {40, 14.8}, {54, 17}}
	sag := table{{0, 0}, {20, -0.6}, {40, -2.5}, {54, -4}}
	return func(p r3.Vec) float64 {
		d := r3.Dot(p, neckAxis)
		u, w := r3.Dot(p, up)-sag.at(d), r3.Dot(p, front)
		a, b := tall.at(d), deep.at(d)
		return math.Max((math.Hypot(u/a, w/b)-1)*math.Min(a, b), d-52)
	}
}

// proximal is the trochanters, the crest between them and the calcar.
func proximal() field {
	greater := blend(8,
		egg(at(-15, -31, 57), at(17, 25, 12.5)),
		egg(at(-20, -14, 54), at(13, 12.5, 10.5)),
		egg(at(-8, -46, 56), at(15, 15, 11)),
		egg(at(-13, -27, 46), at(12, 15, 13)),
	)
	lesser := chain(knob{at(-17, -66, 34), 12}, knob{at(-30, -65, 25.5), 6.8})
	crest := chain(knob{at(-28, -18, 53), 8}, knob{at(-31, -38, 45), 7.5}, knob{at(-28, -60, 31), 7})
	calcar := horn(knob{at(-6.5, -32, 27), 15}, knob{at(-11, -74, 40), 17})
	return blend(8, greater, lesser, crest, calcar, ball(at(-11, -48, 44), 20))
}

// shaft is an oval tube with an anterior bow and a ridge behind (linea aspera).
func shaft() field {
	bow := table{{-450, 0}, {-400, 2.5}, {-320, 8}, {-240, 10.5}, {-160, 8}, {-90, 2}, {-45, 0}}
	deep := table{{-425, 23}, {-405, 21.5}, {-385, 19.5}, {-350, 16}, {-290, 14.2}, {-200, 14}, {-110, 15}, {-75, 17.5}, {-50, 18.5}}
	wide := table{{-425, 38}, {-405, 34}, {-385, 27}, {-350, 18.5}, {-290, 14.2}, {-200, 13.6}, {-110, 15}, {-75, 17.5}, {-50, 20}}
	ridge := table{{-360, 0}, {-300, 2.2}, {-150, 2.4}, {-100, 0.6}, {-80, 0}}
	return func(p r3.Vec) float64 {
		x, z := p.X-shaftAt.X-bow.at(p.Y), p.Z-shaftAt.Z
		a, b := deep.at(p.Y), wide.at(p.Y)
		behind := math.Atan2(z, -x)
		r := ridge.at(p.Y) * math.Exp(-behind*behind/0.12)
		d := (math.Hypot(x/a, z/b)-1)*math.Min(a, b) - r
		return math.Max(d, math.Max(p.Y+40, -418-p.Y))
	}
}

// distal is the condyles, the groove for the patella and the notch behind.
func distal() field {
	const mid = 41.0
	condyle := func(z float64) field {
		side := (z - mid) / 23
		return blend(7,
			egg(at(-23, -425, z+1.5*side), at(20, 21, 12.5)),
			egg(at(-6, -426, z), at(25, 23, 14)),
			egg(at(9, -418, z-2.5*side), at(19, 24, 14)),
		)
	}
	knee := blend(9,
		condyle(mid-22.5), condyle(mid+22.5),
		egg(at(4, -408, mid), at(21, 24, 29)),
		egg(at(-12, -412, mid-31.5), at(11, 11, 9)),
		egg(at(-10, -411, mid+31.5), at(10, 11, 8.5)),
	)
	groove := chain(knob{at(43, -380, mid+1), 11}, knob{at(42.5, -410, mid+1), 13}, knob{at(36, -438, mid), 13}, knob{at(19, -458, mid), 12})
	notch := chain(knob{at(-52, -424, mid), 11}, knob{at(-30, -431, mid), 10.5}, knob{at(-12, -447, mid), 7.5}, knob{at(-2, -459, mid), 6})
	return carve(7, carve(8, knee, groove), notch)
}
