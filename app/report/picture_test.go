package report

import (
	"bytes"
	"image"
	"image/color"
	"testing"

	"rimclear/app/figure"
	"rimclear/app/scene"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

var size = figure.Pt(240, 200)

func picture(p Placed, v View) *image.RGBA { return Joint(p, "A joint.", v).Image(2) }

// stopped is the usual design where internal rotation at 90° flexion stops.
func stopped(c *kinematics.Case) Placed {
	for _, a := range kinematics.NewJoint(c.Hip, c.Designs[0]).Answers(c.Hip) {
		if a.Question.Key == "internal_at_90" {
			return PlacedAt(c, 0, a.Limit.Posture)
		}
	}
	return Placed{}
}

func vermilion(img *image.RGBA) int {
	n := 0
	for i := 0; i < len(img.Pix); i += 4 {
		if p := (color.RGBA{img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3]}); p.R > 150 && int(p.R)-int(p.B) > 120 && p.G < 130 {
			n++
		}
	}
	return n
}

func TestOnlyContactIsMarked(t *testing.T) {
	c := kinematics.Default()
	touch := stopped(&c)
	if n := vermilion(picture(touch, Close(touch, size, figure.Light()))); n < 30 {
		t.Errorf("%d pixels of the contact's colour at the limit, want the mark to be seen", n)
	}
	free := PlacedAt(&c, 0, hip.Posture{Flexion: 30 * unit.Degree})
	if n := vermilion(picture(free, Close(free, size, figure.Light()))); n > 0 {
		t.Errorf("%d pixels of the contact's colour although the neck is free", n)
	}
}

func TestTheMarkStandsAtTheContact(t *testing.T) {
	c := kinematics.Default()
	p := stopped(&c)
	m := scene.MarkOn(p.Design.Rim, p.Contact.Azimuth)
	lo, hi := m.Box()
	at := scene.PartPose(p.Joint.APPFromCup())
	local := func(x, y, z float64) bool {
		return x > lo.X-1 && x < hi.X+1 && y > lo.Y-1 && y < hi.Y+1 && z > lo.Z-1 && z < hi.Z+1
	}
	r := p.Contact.RimPoint
	if !local(r.X*at.X.X+r.Y*at.X.Y+r.Z*at.X.Z, r.X*at.Y.X+r.Y*at.Y.Y+r.Z*at.Y.Z, r.X*at.Z.X+r.Y*at.Z.Y+r.Z*at.Z.Z) {
		t.Errorf("the mark between %v and %v is not at the contact %v", lo, hi, r)
	}
}

func TestALeftHipIsDrawnMirrored(t *testing.T) {
	c := kinematics.Default()
	v := Whole(size, figure.Light())
	v.Camera = scene.Front()
	right := render(PlacedAt(&c, 0, hip.Neutral), v, figure.Box(0, 0, 100, 100))
	c.Hip.Side = hip.Left
	v.Camera.Mirror = true
	left := render(PlacedAt(&c, 0, hip.Neutral), v, figure.Box(0, 0, 100, 100))
	same, mirrored := 0, 0
	for y := range 100 {
		for x := range 100 {
			if left.RGBAAt(x, y) == right.RGBAAt(x, y) {
				same++
			}
			if near(left.RGBAAt(x, y), right.RGBAAt(99-x, y)) {
				mirrored++
			}
		}
	}
	if mirrored < 8500 || same > mirrored {
		t.Errorf("of 10000 pixels %d are mirrored and %d the same", mirrored, same)
	}
}

func near(a, b color.RGBA) bool {
	off := func(x, y uint8) bool { return max(x, y)-min(x, y) < 60 }
	return off(a.R, b.R) && off(a.G, b.G) && off(a.B, b.B)
}

func TestEveryParameterOfThePlacementIsSeen(t *testing.T) {
	v := Whole(size, figure.Light())
	c := kinematics.Default()
	usual := picture(PlacedAt(&c, 0, hip.Neutral), v)
	for _, key := range []string{"cup_inclination_deg", "cup_anteversion_deg", "stem_anteversion_deg", "neck_shaft_deg", "head_diameter_mm", "neck_diameter_mm", "cup_arc_deg"} {
		p := kinematics.ParameterByKey(key)
		changed := p.Set(c, 0, p.Default+10*p.Step)
		if bytes.Equal(usual.Pix, picture(PlacedAt(&changed, 0, hip.Neutral), v).Pix) {
			t.Errorf("another %s changes nothing", key)
		}
	}
	if !bytes.Equal(usual.Pix, picture(PlacedAt(&c, 0, hip.Neutral), v).Pix) {
		t.Error("drawn twice it differs")
	}
}
