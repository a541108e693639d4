package scene

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

var update = flag.Bool("update", false, "write the golden pictures anew")

// whole is a stemmed hip with its bones, a translucent pelvis, a contact mark
// and a patch of skin: every kind of surface.
func whole() []Instance {
	cup := cupPose(40, 15)
	var loop []r3.Vec
	for k := range 90 {
		s, c := math.Sincos(2 * math.Pi * float64(k) / 90)
		loop = append(loop, r3.Vec{X: 0.89 * c, Y: math.Sqrt(1 - 0.89*0.89), Z: 0.89 * s})
	}
	return append(joint(),
		Instance{FemurCut(), Still, IvoryBone},
		Instance{Hemipelvis(), Still, IvoryBone.Faded(0.5)},
		Instance{Mark{Rim: Flat(math.Pi), Clock: 0.7, Inner: 18, Outer: 27}.Mesh(), cup, ContactMark},
		Instance{Skin(18.6, r3.Vec{Y: 1}, loop), cup, FreeSkin},
	)
}

// apart returns the greatest difference of a channel, and the share of pixels
// that differ by more than slack.
func apart(a, b *image.RGBA, slack int) (most int, share float64) {
	n := 0
	for i := 0; i < len(a.Pix); i += 4 {
		worst := 0
		for k := range 3 {
			worst = max(worst, abs(int(a.Pix[i+k])-int(b.Pix[i+k])))
		}
		most = max(most, worst)
		if worst > slack {
			n++
		}
	}
	return most, float64(n) / float64(len(a.Pix)/4)
}

func abs(v int) int { return max(v, -v) }

// The golden pictures allow for processors that round differently: a few
// outline pixels may differ, the rest by 2 levels.
func TestPicturesAreAsApproved(t *testing.T) {
	left := Oblique()
	left.Mirror = true
	for name, p := range map[string]struct {
		cam  Camera
		tone Tone
	}{
		"front-light": {Front(), Light}, "side-dark": {Side(), Dark},
		"cup-light": {Facing(cupPose(40, 15).Y), Light}, "left-dark": {left, Dark},
	} {
		got := picture(300, 240, p.cam, p.tone, whole())
		file := filepath.Join("testdata", name+".png")
		if *update {
			var b bytes.Buffer
			if err := png.Encode(&b, got); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if most, share := apart(got, read(t, file), 2); share > 0.002 {
			t.Errorf("%s: %.2f %% of pixels differ by more than 2 levels (at most %d), want 0.2 %%", name, 100*share, most)
		}
	}
}

func read(t *testing.T, file string) *image.RGBA {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	m, err := png.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	out := image.NewRGBA(m.Bounds())
	for y := range m.Bounds().Dy() {
		for x := range m.Bounds().Dx() {
			out.Set(x, y, m.At(x, y))
		}
	}
	return out
}

func TestNumberOfWorkersNeverChangesAPicture(t *testing.T) {
	want := image.NewRGBA(image.Rect(0, 0, 333, 241))
	(&Renderer{Workers: 1}).Draw(want, Oblique(), Light, whole())
	for _, workers := range []int{2, 3, 8} {
		got := image.NewRGBA(want.Rect)
		r := Renderer{Workers: workers}
		for range 5 {
			r.Draw(got, Oblique(), Light, whole())
			if !bytes.Equal(got.Pix, want.Pix) {
				t.Fatalf("picture with %d workers differs from that with one", workers)
			}
		}
	}
}

func TestDrawingAllocatesNothingOnceWarm(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	in := whole()
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	var r Renderer
	cam := Oblique()
	for range 20 {
		r.Draw(img, cam, Light, in)
	}
	if n := testing.AllocsPerRun(50, func() { r.Draw(img, cam, Light, in) }); n > 0 {
		t.Errorf("%.1f allocations per picture, want 0", n)
	}
}

// bead draws a small ball at p over the background and returns the middle of
// the pixels it changed.
func bead(cam Camera, p r3.Vec, w, h int) (x, y float64, n int) {
	glow := Material{Colour: color.NRGBA{R: 255, A: 255}, Glow: 1}
	with := picture(w, h, cam, Light, []Instance{{Head(1.5), At(p), glow}})
	without := picture(w, h, cam, Light, nil)
	for j := range h {
		for i := range w {
			if with.RGBAAt(i, j) != without.RGBAAt(i, j) {
				x, y, n = x+float64(i)+0.5, y+float64(j)+0.5, n+1
			}
		}
	}
	return x / float64(n), y / float64(n), n
}

func TestProjectedPointIsWhereItIsDrawn(t *testing.T) {
	const w, h = 400, 300
	left := Oblique()
	left.Mirror = true
	for _, cam := range []Camera{Front(), Side(), Oblique(), left, Facing(cupPose(45, 20).Y)} {
		for _, p := range []r3.Vec{{}, {X: 20, Y: 10, Z: -15}, {X: -12, Y: -30, Z: 25}} {
			x, y, _, ok := cam.Lens(w, h).Project(p)
			if !ok {
				t.Fatalf("Project(%v) not ok", p)
			}
			gx, gy, n := bead(cam, p, w, h)
			if n == 0 || math.Hypot(gx-x, gy-y) > 0.5 {
				t.Errorf("%+v: Project(%v) = %.2f, %.2f; drawn at %.2f, %.2f (%d pixels)", cam, p, x, y, gx, gy, n)
			}
		}
	}
}

func TestRayPassesThroughTheProjectedPoint(t *testing.T) {
	left := Side()
	left.Mirror = true
	for _, cam := range []Camera{Front(), Oblique(), left} {
		lens := cam.Lens(640, 480)
		p := r3.Vec{X: 31, Y: -17, Z: 44}
		x, y, _, _ := lens.Project(p)
		eye, d := lens.Ray(x, y)
		if miss := r3.Norm(r3.Cross(r3.Sub(p, eye), d)); miss > 1e-9 {
			t.Errorf("ray through Project(%v) misses it by %g mm", p, miss)
		}
	}
}

func TestPickMeetsTheHeadWhereItIsSeen(t *testing.T) {
	in := []Instance{{Head(18), Still, Ceramic}, {FemurCut(), Still, IvoryBone}}
	lens := Front().Lens(900, 700)
	eye, d := lens.Ray(450, 350)
	i, p := Pick(in, Plane{}, eye, d)
	if i != 0 || r3.Norm(r3.Sub(p, r3.Vec{X: 18})) > 0.2 {
		t.Errorf("Pick(middle of the front view) = %d, %v; want 0, (18, 0, 0)", i, p)
	}
	eye, d = lens.Ray(3, 3)
	if i, _ := Pick(in, Plane{}, eye, d); i != -1 {
		t.Errorf("Pick(corner) = %d, want -1", i)
	}
}

// flipped returns the picture with left and right exchanged.
func flipped(m *image.RGBA) *image.RGBA {
	out := image.NewRGBA(m.Rect)
	w := m.Rect.Dx()
	for y := range m.Rect.Dy() {
		for x := range w {
			out.SetRGBA(x, y, m.RGBAAt(w-1-x, y))
		}
	}
	return out
}

// evenly returns instances that glow, so that the lamps, which stay with the
// viewer, do not tell left from right.
func evenly(in []Instance) []Instance {
	for i := range in {
		in[i].Material.Glow, in[i].Material.Gloss = 1, 0
	}
	return in
}

func TestLeftHipIsTheMirrorImageOfTheRight(t *testing.T) {
	right := picture(400, 300, Oblique(), Light, evenly(whole()))
	cam := Oblique()
	cam.Mirror = true
	left := picture(400, 300, cam, Light, evenly(whole()))
	if _, share := apart(left, flipped(right), 3); share > 0.02 {
		t.Errorf("mirroring camera: %.2f %% of pixels differ from the mirror image, want outlines only (2 %%)", 100*share)
	}
	if _, share := apart(left, right, 3); share < 0.05 {
		t.Errorf("the picture is symmetric: the test shows nothing")
	}
}

func TestMirroredInstanceIsTheMirrorImage(t *testing.T) {
	right := picture(400, 300, Front(), Light, evenly(whole()))
	in := evenly(whole())
	for i := range in {
		in[i].Pose = MirrorZ.Mul(in[i].Pose)
	}
	left := picture(400, 300, Front(), Light, in)
	if _, share := apart(left, flipped(right), 3); share > 0.02 {
		t.Errorf("mirrored instances: %.2f %% of pixels differ from the mirror image, want outlines only (2 %%)", 100*share)
	}
}

// A plain glowing ball (level 246) before black: any crack between triangles
// would let black through.
func TestSurfacesHaveNoCracks(t *testing.T) {
	white := Material{Colour: color.NRGBA{R: 255, G: 255, B: 255, A: 255}, Glow: 1}
	dark := Tone{Top: color.NRGBA{A: 255}, Bottom: color.NRGBA{A: 255}}
	for _, q := range []Quality{Fine, Coarse, Best} {
		for k := range 12 {
			img := image.NewRGBA(image.Rect(0, 0, 300, 300))
			cam := Front()
			cam.Extent, cam.Azimuth, cam.Elevation = 60, 0.37*float64(k), 0.1*float64(k)-0.5
			(&Renderer{Quality: q}).Draw(img, cam, dark, []Instance{{Head(25), Still, white}})
			for y := range 300 {
				for x := range 300 {
					inside := math.Hypot(float64(x)-149.5, float64(y)-149.5) < 115
					if v := img.RGBAAt(x, y).R; inside && v < 243 {
						t.Fatalf("quality %d, view %d: level %d at %d, %d inside the ball", q, k, v, x, y)
					}
				}
			}
		}
	}
}

// Translucent surfaces share no edge samples: a seam would show as a darker
// line where two triangles overlap.
func TestTranslucentSurfaceIsEven(t *testing.T) {
	half := Material{Colour: color.NRGBA{R: 255, G: 255, B: 255, A: 128}, Glow: 1}
	dark := Tone{Top: color.NRGBA{A: 255}, Bottom: color.NRGBA{A: 255}}
	cam := Front()
	cam.Extent = 60
	img := picture(300, 300, cam, dark, []Instance{{Head(25), Still, half}})
	for y := range 300 {
		for x := range 300 {
			if math.Hypot(float64(x)-149.5, float64(y)-149.5) < 115 {
				if v := int(img.RGBAAt(x, y).R); abs(v-124) > 2 {
					t.Fatalf("level %d at %d, %d, want about 124", v, x, y)
				}
			}
		}
	}
}

func TestNearerPartHidesTheFarther(t *testing.T) {
	red := Material{Colour: color.NRGBA{R: 255, A: 255}, Glow: 1}
	blue := Material{Colour: color.NRGBA{B: 255, A: 255}, Glow: 1}
	for _, in := range [][]Instance{
		{{Head(10), At(r3.Vec{X: 30}), red}, {Head(20), Still, blue}},
		{{Head(20), Still, blue}, {Head(10), At(r3.Vec{X: 30}), red}},
	} {
		c := picture(200, 200, Front(), Light, in).RGBAAt(100, 100)
		if c.R < 200 || c.B > 50 {
			t.Errorf("middle pixel %v, want the nearer, red ball", c)
		}
	}
}

// A translucent part must not hide what lies before it.
func TestOpaquePartInFrontOfGlassIsUnchanged(t *testing.T) {
	head := Instance{Head(10), At(r3.Vec{X: 40}), Ceramic}
	glass := Instance{Head(25), Still, IvoryBone.Faded(0.4)}
	got := picture(200, 200, Front(), Light, []Instance{glass, head}).RGBAAt(100, 100)
	want := picture(200, 200, Front(), Light, []Instance{head}).RGBAAt(100, 100)
	if got != want {
		t.Errorf("middle pixel %v, want %v", got, want)
	}
}

func TestEveryPictureSizeIsFilled(t *testing.T) {
	var r Renderer
	for _, size := range [][2]int{{1, 1}, {31, 17}, {32, 16}, {33, 15}, {200, 3}, {64, 64}} {
		for _, q := range []Quality{Coarse, Fine, Best} {
			img := image.NewRGBA(image.Rect(0, 0, size[0], size[1]))
			r.Quality = q
			r.Draw(img, Oblique(), Dark, whole())
			for i := 3; i < len(img.Pix); i += 4 {
				if img.Pix[i] != 255 {
					t.Fatalf("%v, quality %d: pixel %d not drawn", size, q, i/4)
				}
			}
		}
	}
}

func TestWildCamerasDoNotPanic(t *testing.T) {
	var r Renderer
	img := image.NewRGBA(image.Rect(0, 0, 120, 90))
	for _, cam := range []Camera{
		{Extent: 1e-3, Distance: 1300}, {Extent: 1e6, Distance: 1300}, {Extent: 100, Distance: 101},
		{Extent: 100, Distance: 1, Target: r3.Vec{X: 5}}, {Extent: 50, Distance: 1300, Elevation: math.Pi / 2},
		{Extent: 200, Distance: 300, Azimuth: 40, Target: r3.Vec{Y: -400}},
	} {
		r.Draw(img, cam, Light, whole())
	}
}

// A probe is hidden where a line of sight to it meets something before it.
func TestAProbeIsHiddenJustWhereSomethingLiesBeforeIt(t *testing.T) {
	in := whole()
	var opaque []Instance
	for _, i := range in {
		if i.Material.Colour.A == 255 {
			opaque = append(opaque, i)
		}
	}
	const w, h = 300, 240
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	told := map[bool]int{}
	for k := range 40 {
		cam := Facing(cupPose(40, 15).Y)
		cam.Azimuth += 0.09 * float64(k%20-10)
		cam.Elevation += 0.6 * math.Sin(float64(k))
		p := cupPose(40, 15).Moved(r3.Vec{X: 20 * math.Cos(float64(k)), Z: 20 * math.Sin(float64(k))})
		lens := cam.Lens(w, h)
		x, y, depth, _ := lens.Project(p)
		least, most := math.Inf(1), math.Inf(-1)
		for _, off := range [][2]float64{{0, 0}, {1.5, 0}, {-1.5, 0}, {0, 1.5}, {0, -1.5}} {
			eye, d := lens.Ray(x+off[0], y+off[1])
			before := math.Inf(-1)
			if i, met := Pick(opaque, Plane{}, eye, d); i >= 0 {
				before = depth - r3.Norm(r3.Sub(met, eye))*r3.Dot(d, r3.Scale(-1, lens.back))
			}
			least, most = min(least, before), max(most, before)
		}
		if least < hiddenBy && most > hiddenBy {
			continue // too near an outline to tell by one pixel
		}
		r := Renderer{Probe: Probe{At: p, Wanted: true}, Quality: Quality(k % 3)}
		r.Draw(img, cam, Light, in) // the translucent parts do not count
		told[r.Hidden()]++
		if want := least > hiddenBy; r.Hidden() != want {
			t.Errorf("view %d: hidden %v, and what is met lies %.1f to %.1f mm before it", k, r.Hidden(), least, most)
		}
	}
	if told[true] < 5 || told[false] < 5 {
		t.Errorf("hidden %d times and seen %d times: the test shows too little", told[true], told[false])
	}
}
