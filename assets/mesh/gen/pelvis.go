package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// The hemipelvis is a right one in the frame of its anterior plane: anterior
// superior iliac spine and pubic tubercle lie at the same X. Its landmarks are
// illustrative (from memory of common anatomy, for about 240 mm between the
// spines); the midline lies at Z = -86.

// opening is the outward normal of the native socket.
var opening = r3.Unit(at(0.32, -0.66, 0.68))

const socketRadius = 26.0

// hemipelvis returns the bone with its socket.
func hemipelvis() field {
	bone := blend(9, ilium(), socketWall(), ischium(), pubis())
	bone = carve(2.5, bone, ball(r3.Vec{}, socketRadius))
	// The way out of the socket, and the notch at its lower edge.
	bone = carve(2.5, bone, mouth())
	notch := chain(knob{at(4, -22, -12), 8}, knob{at(10, -34, -6), 9})
	return carve(3, bone, notch)
}

// mouth is a widening cone from the socket outwards.
func mouth() field {
	return func(p r3.Vec) float64 {
		h := r3.Dot(p, opening)
		r := r3.Norm(r3.Sub(p, r3.Scale(h, opening)))
		return math.Max((r-socketRadius-0.35*(h-3))*0.94, 3-h)
	}
}

// socketWall is the bowl about the hip centre: a ball cut off near the opening
// plane, and the buttresses that carry it.
func socketWall() field {
	bowl := within(5, ball(at(-1, 1, -2), 34), half(r3.Scale(5, opening), opening))
	roof := horn(knob{at(-2, 22, -6), 22}, knob{at(-4, 52, 4), 13})
	brim := chain(knob{at(-48, 46, -42), 8}, knob{at(-26, 26, -36), 9}, knob{at(4, 10, -32), 9}, knob{at(22, 6, -32), 10})
	return blend(10, bowl, roof, brim)
}

// ringNormal is square to the plane of the obturator foramen: the bones round
// it are flattened that way.
var ringNormal = r3.Unit(at(-0.65, 0.49, -0.58))

// ischium runs from the socket to the tuberosity, with the spine behind.
func ischium() field {
	body := chain(knob{at(-19, -14, -17), 17}, knob{at(-27, -42, -24), 14.5}, knob{at(-34, -66, -28), 15.5}, knob{at(-27, -85, -33), 12.5})
	ramus := strap(ringNormal, 0.55, knob{at(-26, -80, -34), 14}, knob{at(-6, -84, -46), 12}, knob{at(16, -71, -62), 10.5}, knob{at(31, -54, -75), 12})
	spine := chain(knob{at(-34, -4, -29), 9}, knob{at(-43, -9, -35), 6}, knob{at(-52, -14, -40), 2.8})
	behind := chain(knob{at(-44, 38, -35), 9}, knob{at(-37, 12, -28), 10}, knob{at(-33, -16, -26), 11})
	return blend(7, body, ramus, spine, behind)
}

// pubis is the superior ramus, the tubercle and the body at the symphysis.
func pubis() field {
	ramus := chain(knob{at(15, 0, -20), 15}, knob{at(27, 5, -31), 11.5}, knob{at(37, 1, -47), 9}, knob{at(43, -8, -61), 9}, knob{at(42, -16, -74), 9})
	body := strap(ringNormal, 0.55, knob{at(41, -17, -66), 12}, knob{at(38, -28, -73), 16}, knob{at(34, -44, -77), 14.5}, knob{at(30, -56, -77), 11.5})
	tubercle := ball(at(48, -8, -59), 5)
	bone := blend(7, ramus, body, tubercle)
	return within(2, bone, half(at(0, 0, -83), at(0, 0, -1)))
}
