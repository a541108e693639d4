package chart

import (
	"os"
	"testing"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

const deg = unit.Degree

// sample is a hip with a 32 mm stemmed design, a resurfacing, a lipped
// design and one with a small head.
func sample(side hip.Side) Subject {
	design := func(name string, head, neck float64, arc unit.Angle, lip implant.Lip, version unit.Angle) kinematics.Design {
		return kinematics.Design{
			Name: name, Rim: implant.Rim{HeadDiameter: head, Arc: arc, Wall: 5, Lips: [2]implant.Lip{lip}},
			Neck: implant.Neck{Diameter: neck},
			Cup:  kinematics.Cup{Inclination: 40 * deg, Anteversion: 15 * deg},
			Stem: hip.Stem{Anteversion: version, NeckShaft: 130 * deg},
		}
	}
	c := kinematics.Case{
		Hip:     kinematics.Hip{Side: side},
		Posture: hip.Posture{Flexion: 40 * deg, Adduction: 5 * deg, InternalRotation: 15 * deg},
		Count:   4,
	}
	c.Designs[0] = design("stemmed", 32, 12, 180*deg, implant.Lip{}, 15*deg)
	c.Designs[1] = design("resurfacing", 50, 44, 168*deg, implant.Lip{}, 12*deg)
	c.Designs[2] = design("lipped", 32, 12, 180*deg, implant.Lip{Height: 15 * deg, Centre: -120 * deg, Plateau: 60 * deg, Ramp: 30 * deg}, 15*deg)
	c.Designs[3] = design("small head", 28, 14, 200*deg, implant.Lip{}, 5*deg)
	return SubjectOf(c, 0)
}

func small(s Subject, n int) Subject {
	s.Designs = s.Designs[:n]
	return s
}

// TestPicturesForTheEye writes each chart as PNG into the folder named by
// RIMCLEAR_PICTURES, to be looked at; without it nothing is written.
func TestPicturesForTheEye(t *testing.T) {
	folder := os.Getenv("RIMCLEAR_PICTURES")
	if folder == "" {
		t.Skip("RIMCLEAR_PICTURES names no folder")
	}
	write := func(name string, f figure.Figure) {
		w, err := os.Create(folder + "/" + name + ".png")
		if err != nil {
			t.Fatal(err)
		}
		defer w.Close()
		if err := f.WritePNG(w, 1); err != nil {
			t.Error(err)
		}
	}
	for _, c := range All {
		if only := os.Getenv("RIMCLEAR_CHART"); only != "" && only != c.Key {
			continue
		}
		write(c.Key+"-380", c.Draw(small(sample(hip.Right), 1), Look{Size: figure.Pt(380, 340), Palette: figure.Light()}))
		lipped := sample(hip.Right)
		lipped.Active = 2
		write(c.Key+"-lip", c.Draw(lipped, Look{Size: figure.Pt(380, 420), Palette: figure.Light()}))
		tight := sample(hip.Right)
		tight.Designs = tight.Designs[1:2]
		tight.Posture = hip.Posture{Flexion: 70 * deg, InternalRotation: 10 * deg}
		write(c.Key+"-tight", c.Draw(tight, Look{Size: figure.Pt(500, 500), Palette: figure.Light()}))
		write(c.Key+"-500", c.Draw(small(sample(hip.Left), 2), Look{Size: figure.Pt(500, 500), Palette: figure.Dark()}))
	}
}
