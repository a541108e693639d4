package scene

import (
	"image/color"

	"gonum.org/v1/gonum/spatial/r3"
)

// Lengths of the person, in mm: shares of a stature of 1.7 m. The shares are
// those of Drillis and Contini, "Body Segment Parameters", 1966, as reprinted in
// Winter, "Biomechanics and Motor Control of Human Movement" (from memory).
// Girths are our own, by eye. The person is nobody.
const (
	stature    = 1700.0
	thighLong  = 0.245 * stature
	shankLong  = 0.246 * stature
	ankleHigh  = 0.039 * stature
	trunkLong  = 0.288 * stature // hip to shoulder
	upperLong  = 0.186 * stature
	foreLong   = 0.146 * stature
	shoulderAt = 0.114 * stature // from the middle: that of the bones is 0.129
	hipAt      = 0.050 * stature // from the middle; assumed
)

// Materials of the person and of what is about it: clothes without gloss, skin
// of a middle tone.
var (
	shirt    = Material{Colour: color.NRGBA{R: 0x8F, G: 0xB2, B: 0xC4, A: 0xFF}}
	trousers = Material{Colour: color.NRGBA{R: 0x56, G: 0x66, B: 0x7D, A: 0xFF}}
	skin     = Material{Colour: color.NRGBA{R: 0xD0, G: 0xAC, B: 0x90, A: 0xFF}, Gloss: 0.02}
	hairOf   = Material{Colour: color.NRGBA{R: 0x6B, G: 0x58, B: 0x4C, A: 0xFF}, Gloss: 0.03}
	shoe     = Material{Colour: color.NRGBA{R: 0x45, G: 0x4A, B: 0x52, A: 0xFF}, Gloss: 0.04}
	sole     = Material{Colour: color.NRGBA{R: 0xD8, G: 0xD6, B: 0xD0, A: 0xFF}}
	// hipSpot says which hip it is about; while the parts touch it is lit.
	hipSpot = Material{Colour: color.NRGBA{R: 0x56, G: 0xB4, B: 0xE9, A: 0xFF}, Glow: 0.35}
	hipLit  = Material{Colour: color.NRGBA{R: 0xD5, G: 0x5E, B: 0x00, A: 0xFF}, Glow: 0.6}
)

// stance is how a person stands, sits or lies: the place of every part in the
// room, whose X is forward, Y up from the floor and Z to the person's right, in
// mm. Index 0 is right, 1 left. Each part's own frame is the body's when it
// stands upright, with its origin at the part's upper joint.
type stance struct {
	pelvis, chest, head Pose // the pelvis' origin is midway between the hips
	thigh, shank, foot  [2]Pose
	upper, fore, hand   [2]Pose
	barefoot            bool
}

// sideOf returns +1 for the right side and -1 for the left.
func sideOf(i int) float64 { return 1 - 2*float64(i) }

// instances appends the person. lit says that the parts of the joint touch.
func (s *stance) instances(list []Instance, lit bool) []Instance {
	add := func(m *Mesh, at Pose, of Material) { list = append(list, Instance{m, at, of}) }
	hips, body := s.trunk()
	add(hips, Still, trousers)
	add(body, Still, shirt)
	add(s.neck(), Still, skin)
	face, crown := headMeshes()
	add(face, s.head, skin)
	add(crown, s.head, hairOf)
	for i := range 2 {
		add(s.leg(i), Still, trousers)
		at := s.foot[i]
		if i == 1 {
			at = at.Mul(MirrorZ)
		}
		if s.barefoot {
			add(bareFoot(), at, skin)
		} else {
			add(shoeUpper(), at, shoe)
			add(shoeSole(), at, sole)
		}
		arm, sleeve := s.arm(i)
		add(arm, Still, skin)
		add(sleeve, Still, shirt)
		at = s.hand[i]
		if i == 1 {
			at = at.Mul(MirrorZ)
		}
		add(handMesh(), at, skin)
	}
	spot := hipSpot
	if lit {
		spot = hipLit
	}
	add(spotMesh(), s.spot(), spot)
	return list
}

// spot returns the pose of the mark on the clothes over the right hip, which
// looks outwards.
func (s *stance) spot() Pose {
	out := r3.Add(s.pelvis.Z, s.thigh[0].Z)
	return Along(out, s.pelvis.Y).to(r3.Add(s.thigh[0].At, r3.Scale(93, r3.Unit(out))))
}

// to returns the pose with its origin moved to v.
func (p Pose) to(v r3.Vec) Pose {
	p.At = v
	return p
}
