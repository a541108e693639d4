package scene

import "image/color"

// Material is how a surface answers light. The zero value is black and matt.
type Material struct {
	// Colour is the surface under full light; its alpha is the opacity.
	// Translucent surfaces are drawn after the opaque ones and show their
	// nearest layer only.
	Colour color.NRGBA
	// Gloss is the share of light mirrored, 0 (matt) to about 0.5.
	Gloss float64
	// Glow is the share of the colour shown whatever the light, 0 to 1.
	Glow float64
	// Section, unless its alpha is 0, is the flat colour of the part's cut face
	// where a Plane cuts it; without one the part is left whole.
	Section color.NRGBA
	// BothSides draws the inside of a surface too, lit like the outside.
	BothSides bool
}

// Instance is a mesh with its place and material in one picture.
type Instance struct {
	Mesh     *Mesh
	Pose     Pose
	Material Material
}

// Materials of the joint.
var (
	Ceramic     = Material{Colour: color.NRGBA{R: 0xF6, G: 0xF5, B: 0xF2, A: 0xFF}, Gloss: 0.10}
	BrushedGrey = Material{Colour: color.NRGBA{R: 0x9A, G: 0xA1, B: 0xA8, A: 0xFF}, Gloss: 0.14}
	PaleBlue    = Material{Colour: color.NRGBA{R: 0xB9, G: 0xD3, B: 0xE6, A: 0xFF}, Gloss: 0.05, Section: color.NRGBA{R: 0x7F, G: 0xAE, B: 0xD2, A: 0xFF}}
	DarkShell   = Material{Colour: color.NRGBA{R: 0x5E, G: 0x67, B: 0x70, A: 0xFF}, Gloss: 0.08, Section: color.NRGBA{R: 0x40, G: 0x47, B: 0x4F, A: 0xFF}}
	// Mobile is the liner that turns with the head of a dual mobility.
	Mobile = Material{Colour: PaleBlue.Colour, Gloss: 0.05, Section: color.NRGBA{R: 0xD6, G: 0xE6, B: 0xF2, A: 0xFF}}
	// IvoryBone and its cut face.
	IvoryBone = Material{Colour: color.NRGBA{R: 0xF4, G: 0xE7, B: 0xD0, A: 0xFF}, Gloss: 0.03, Section: color.NRGBA{R: 0xDB, G: 0xC3, B: 0x9B, A: 0xFF}}
	// ContactMark and FreeSkin carry the Okabe-Ito vermilion and green.
	ContactMark = Material{Colour: color.NRGBA{R: 0xD5, G: 0x5E, B: 0x00, A: 0xFF}, Glow: 0.6, BothSides: true}
	FreeSkin    = Material{Colour: color.NRGBA{R: 0x00, G: 0x9E, B: 0x73, A: 0x6E}, Glow: 0.4, BothSides: true}
	// Way is the track of a neck on the way of a motion, in the Okabe-Ito blue.
	Way = Material{Colour: color.NRGBA{R: 0x00, G: 0x72, B: 0xB2, A: 0xFF}, Glow: 0.5, BothSides: true}
)

// Lit returns the material of something that shines, by a share of 0 to 1.
func (m Material) Lit(share float64) Material {
	mix := func(c uint8, to float64) uint8 { return uint8(float64(c) + (to-float64(c))*share + 0.5) }
	m.Colour.R, m.Colour.G, m.Colour.B = mix(m.Colour.R, 255), mix(m.Colour.G, 214), mix(m.Colour.B, 64)
	m.Glow += (1 - m.Glow) * share
	return m
}

// Uncut returns the material of a part that is left whole where others are cut.
func (m Material) Uncut() Material {
	m.Section = color.NRGBA{}
	return m
}

// Faded returns the material with its opacity set to alpha (0 to 1).
func (m Material) Faded(alpha float64) Material {
	m.Colour.A = uint8(clamp(alpha, 0, 1)*255 + 0.5)
	return m
}

// Tone is the light and the background of a picture.
type Tone struct {
	Top, Bottom color.NRGBA // background, opaque
	Key, Fill   float64     // strength of the two lamps
	Ambient     float64
}

// Light and Dark are the two tones of the program.
var (
	Light = Tone{
		Top: color.NRGBA{R: 0xF7, G: 0xF8, B: 0xF9, A: 0xFF}, Bottom: color.NRGBA{R: 0xE2, G: 0xE6, B: 0xEA, A: 0xFF},
		Key: 0.73, Fill: 0.16, Ambient: 0.24,
	}
	Dark = Tone{
		Top: color.NRGBA{R: 0x23, G: 0x28, B: 0x2E, A: 0xFF}, Bottom: color.NRGBA{R: 0x14, G: 0x17, B: 0x1B, A: 0xFF},
		Key: 0.70, Fill: 0.14, Ambient: 0.18,
	}
)
