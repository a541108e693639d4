package scene

import (
	"image"
	"image/png"
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// neckAxis is the direction of a neck with the given neck-shaft angle and
// anteversion in degrees, in the femur's frame.
func neckAxis(ccd, version float64) r3.Vec {
	sa, ca := math.Sincos((180 - ccd) * math.Pi / 180)
	sv, cv := math.Sincos(version * math.Pi / 180)
	return r3.Vec{X: -sv * sa, Y: -ca, Z: cv * sa}
}

// cupPose is the pose of a cup with radiographic inclination and anteversion in
// degrees.
func cupPose(inclination, anteversion float64) Pose {
	si, ci := math.Sincos(inclination * math.Pi / 180)
	sa, ca := math.Sincos(anteversion * math.Pi / 180)
	return Along(r3.Vec{X: sa, Y: -ca * ci, Z: ca * si}, r3.Vec{Y: 1})
}

// joint is a stemmed hip of primitives.
func joint() []Instance {
	v := neckAxis(130, 15)
	liner, shell := Cup{Bearing: 18.2, Liner: 23, Shell: 26, Rim: Flat(math.Pi)}.Meshes()
	cup := cupPose(40, 15)
	return []Instance{
		{shell, cup, DarkShell},
		{liner, cup, PaleBlue},
		{Head(18), Still, Ceramic},
		{Neck(Taper(10, 6, 36, 7), 10, 36), Along(v, r3.Vec{X: 1}), BrushedGrey},
		{UsualStem(v).Mesh(), Still, BrushedGrey},
	}
}

func picture(w, h int, cam Camera, tone Tone, in []Instance) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	new(Renderer).Draw(img, cam, tone, in)
	return img
}

// TestLook writes pictures to the folder named by RIMCLEAR_LOOK, to be looked at.
func TestLook(t *testing.T) {
	dir := os.Getenv("RIMCLEAR_LOOK")
	if dir == "" {
		t.Skip("RIMCLEAR_LOOK names no folder")
	}
	far := Oblique()
	far.Extent, far.Target = 640, r3.Vec{Y: -160}
	back := Front()
	back.Azimuth = math.Pi
	medial := Side()
	medial.Azimuth = -math.Pi / 2
	away := func(c Camera) Camera { c.Extent, c.Target = 640, r3.Vec{Y: -160}; return c }
	var knife Plane
	draw := func(name string, cam Camera, tone Tone, in []Instance) {
		f, err := os.Create(dir + "/" + name + ".png")
		if err != nil {
			t.Fatal(err)
		}
		defer f.Close()
		img := image.NewRGBA(image.Rect(0, 0, 900, 700))
		(&Renderer{Cut: knife}).Draw(img, cam, tone, in)
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
	}
	full := append(joint(), Instance{FemurCut(), Still, IvoryBone}, Instance{Hemipelvis().Reamed(27), Still, IvoryBone})
	rim := Mark{Rim: Flat(math.Pi), Clock: 0.7, Inner: 18, Outer: 27}
	var loop []r3.Vec
	for k := range 120 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 120)
		st, ct := math.Sincos(1.1 + 0.12*math.Sin(3*float64(k)/120*2*math.Pi))
		loop = append(loop, r3.Vec{X: st * c, Y: ct, Z: st * s})
	}
	line := make([]r3.Vec, len(loop))
	for i := range loop {
		line[i] = r3.Scale(19.2, loop[i])
	}
	cup := cupPose(40, 15)
	close := append(joint(),
		Instance{rim.Mesh(), cup, ContactMark},
		Instance{Skin(19, r3.Vec{Y: 1}, loop), cup, FreeSkin},
		Instance{Thread(0.25, true, line...), cup, FreeSkin.Faded(1)})
	near := Oblique()
	near.Extent = 90
	draw("close-light", near, Light, close)
	draw("close-dark", near, Dark, close)
	opened := joint()
	liner, shell := Cup{Bearing: 18.2, Liner: 23, Shell: 26, Rim: Flat(math.Pi), Gap: 1.6, GapAt: 1.2}.Meshes()
	opened[0].Mesh, opened[1].Mesh = shell, liner
	draw("gap-light", near, Light, opened)
	glass := append(joint(), Instance{FemurCut(), Still, IvoryBone}, Instance{Hemipelvis(), Still, IvoryBone.Faded(0.35)})
	draw("glass-light", Front(), Light, glass)
	draw("glass-dark", Front(), Dark, glass)
	knee := Oblique()
	knee.Extent, knee.Target = 120, r3.Vec{Y: -410, Z: 41}
	draw("knee-light", knee, Light, []Instance{{FemurCut(), Still, IvoryBone}})
	knee.Azimuth = 0
	draw("knee-front", knee, Light, []Instance{{FemurCut(), Still, IvoryBone}})
	draw("small-light", Oblique(), Light, append(joint(), Instance{FemurCutSmall(), Still, IvoryBone}, Instance{HemipelvisSmall(), Still, IvoryBone}))
	left := Oblique()
	left.Mirror = true
	draw("left-light", left, Light, full)
	resurfaced := append([]Instance{}, Instance{FemurNeck(), Still, IvoryBone}, Instance{Hemipelvis().Reamed(29.2), Still, IvoryBone}, Instance{Head(24), Still, BrushedGrey})
	_, metal := Cup{Bearing: 24.3, Liner: 24.3, Shell: 29, Rim: Flat(164 * math.Pi / 180)}.Meshes()
	resurfaced = append(resurfaced, Instance{metal, cup, DarkShell})
	draw("resurfaced-light", Oblique(), Light, resurfaced)
	only := []Instance{{FemurNeck(), Still, IvoryBone}, {Head(23.5), Still, IvoryBone}, {Hemipelvis(), Still, IvoryBone}}
	for name, cam := range map[string]Camera{
		"front": Front(), "side": Side(), "oblique": Oblique(), "cup": Facing(cupPose(40, 15).Y),
	} {
		draw(name+"-light", cam, Light, full)
		draw(name+"-dark", cam, Dark, full)
	}
	knife = Plane{Normal: r3.Unit(r3.Cross(cupPose(40, 15).Y, r3.Vec{Y: 1}))}
	draw("cut-light", Oblique(), Light, full)
	draw("cut-face-light", Facing(r3.Scale(-1, knife.Normal)), Light, full)
	draw("cut-face-dark", Facing(r3.Scale(-1, knife.Normal)), Dark, full)
	knife = Plane{}
	for name, cam := range map[string]Camera{"front": Front(), "side": Side(), "oblique": Oblique(), "back": back, "medial": medial} {
		draw("femur-"+name, away(cam), Light, only[:2])
		draw("femurtop-"+name, cam, Light, only[:1])
		draw("pelvis-"+name, cam, Light, only[2:])
		draw("both-"+name, away(cam), Light, only)
	}
}
