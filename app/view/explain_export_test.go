package view

import (
	"bytes"
	"image"
	"image/gif"
	"image/png"
	"testing"

	"rimclear/app/figure"
	"rimclear/app/scene"
	"rimclear/kinematics/hip"
)

func TestThePictureHasASizeAndShowsWhatIsOnScreen(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.end()
	data, err := a.Picture()
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(bytes.NewReader(data))
	if err != nil || img.Bounds().Dx() != 2560 {
		t.Fatalf("a picture of %v, %v", img.Bounds(), err)
	}
}

func TestTheFilmIsSmallAndTheSameEachTime(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.designs = []int{0, 1}
	a.Show(1)
	first, err := a.page().film()
	if err != nil {
		t.Fatal(err)
	}
	if len(first) >= filmMost {
		t.Errorf("%d bytes, want less than %d", len(first), filmMost)
	}
	g, err := gif.DecodeAll(bytes.NewReader(first))
	if err != nil {
		t.Fatal(err)
	}
	total := 0
	for _, d := range g.Delay {
		total += d
	}
	if len(g.Image) < 20 || g.Config.Width < 400 || total < 500 || total > 1200 {
		t.Errorf("%d pictures %d pixels wide in %d hundredths of a second", len(g.Image), g.Config.Width, total)
	}
	var twice [2]bytes.Buffer
	for i := range twice {
		if err := a.page().filmOf(0.25).WriteGIF(&twice[i]); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(twice[0].Bytes(), twice[1].Bytes()) {
		t.Error("made twice it differs")
	}
}

func BenchmarkExplainPicture(b *testing.B) {
	a := openExplain(b, twoHips(hip.Right), 1280, 770, bright())
	a.designs = []int{0, 1}
	for _, act := range []int{0, 6} {
		a.Show(act)
		img := image.NewRGBA(image.Rect(0, 0, 900, 650))
		pal := figure.Light()
		b.Run(scene.Acts[act].Key, func(b *testing.B) {
			used := processor()
			defer func() { b.ReportMetric((processor()-used)*1000/float64(b.N), "cpu-ms/op") }()
			for i := range b.N {
				a.picture.paint.Quality = scene.Fine
				a.picture.paint.draw(img, a.shown, float64(i%100)/100, &pal, 1)
			}
		})
	}
}
