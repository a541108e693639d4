package scene

import (
	"bytes"
	"image"
	"image/color"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// along is a plane through the cup's axis and 12 o'clock.
func along(cup Pose) Plane { return Plane{Normal: cup.Z} }

// cutPicture is picture with the parts cut open.
func cutPicture(w, h int, cam Camera, at Plane, in []Instance) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	(&Renderer{Cut: at}).Draw(img, cam, Light, in)
	return img
}

// sectionOf is the level a material's cut face has in the light tone.
func sectionOf(m Material) color.RGBA {
	p := pixel(uint64(Light.section(m.Section)), 10, 0)
	return color.RGBA{R: uint8(p), G: uint8(p >> 8), B: uint8(p >> 16), A: 255}
}

func alike(a, b color.RGBA) bool {
	return abs(int(a.R)-int(b.R)) <= 1 && abs(int(a.G)-int(b.G)) <= 1 && abs(int(a.B)-int(b.B)) <= 1
}

// around are cameras that look at a plane from both sides, straight and aslant.
func around(at Plane) (list []Camera) {
	for _, n := range []r3.Vec{at.Normal, r3.Scale(-1, at.Normal)} {
		for _, turn := range [][2]float64{{0, 0}, {0.5, 0}, {-0.4, 0.3}, {0.2, -0.6}} {
			c := Facing(n)
			c.Azimuth += turn[0]
			c.Elevation = clamp(c.Elevation+turn[1], -steepest, steepest)
			list = append(list, c)
		}
	}
	return list
}

// In the plane of the cut the walls of liner and shell are where their radii
// are, filled.
func TestACutCupShowsItsWalls(t *testing.T) {
	cup := cupPose(40, 15)
	liner, shell := Cup{Bearing: 18, Liner: 23, Shell: 27, Rim: Flat(math.Pi)}.Meshes()
	in := []Instance{{shell, cup, DarkShell}, {liner, cup, PaleBlue}}
	at := along(cup)
	const w, h = 420, 360
	for k, cam := range around(at) {
		img := cutPicture(w, h, cam, at, in)
		lens := cam.Lens(w, h)
		for polar := 95.0; polar <= 265; polar += 5 {
			for radius, want := range map[float64]Material{19.5: PaleBlue, 21.5: PaleBlue, 24.2: DarkShell, 25.8: DarkShell} {
				s, c := math.Sincos(polar * math.Pi / 180)
				x, y, _, _ := lens.Project(cup.Turned(r3.Vec{X: radius * s, Y: radius * c}))
				if got := img.RGBAAt(int(x), int(y)); !alike(got, sectionOf(want)) {
					t.Errorf("camera %d: %v at %.0f° and %.1f mm, want the cut face's %v", k, got, polar, radius, sectionOf(want))
				}
			}
		}
	}
}

// winding is how often a closed mesh encloses a point: 1 inside, 0 outside. (van
// Oosterom and Strackee, IEEE Trans Biomed Eng 1983;30:125.)
func winding(m *Mesh, p r3.Vec) float64 {
	sum := 0.0
	for _, t := range m.corners {
		a, b, c := r3.Sub(m.Point(int(t[0])), p), r3.Sub(m.Point(int(t[1])), p), r3.Sub(m.Point(int(t[2])), p)
		la, lb, lc := r3.Norm(a), r3.Norm(b), r3.Norm(c)
		sum += 2 * math.Atan2(r3.Dot(a, r3.Cross(b, c)),
			la*lb*lc+r3.Dot(a, b)*lc+r3.Dot(a, c)*lb+r3.Dot(b, c)*la)
	}
	return sum / (4 * math.Pi)
}

// Nothing looks hollow: wherever the plane runs through bone the cut face is
// seen, and where it does not, it is not.
func TestCutBonesAreSolid(t *testing.T) {
	for name, c := range map[string]struct {
		mesh *Mesh
		at   Pose // X and Y lie in the plane
	}{
		"hemipelvis": {Hemipelvis().Reamed(27.5), cupPose(40, 15)},
		"cut femur":  {FemurCut(), Pose{X: Still.Y, Y: Still.Z, Z: Still.X, At: r3.Vec{X: -11, Y: -60, Z: 50}}},
	} {
		m, in := c.mesh, []Instance{{c.mesh, Still, IvoryBone}}
		const w, h, step, room = 500, 500, 14.0, 1.5
		at := Plane{At: c.at.At, Normal: c.at.Z}
		cam := Facing(at.Normal)
		cam.Extent, cam.Target = 260, c.at.At
		img, lens := cutPicture(w, h, cam, at, in), cam.Lens(w, h)
		inside, outside := 0, 0
		for u := -84.0; u <= 84; u += step {
			for v := -84.0; v <= 84; v += step {
				p := c.at.Moved(r3.Vec{X: u, Y: v})
				turns, clear := math.Round(winding(m, p)), true
				for _, d := range []r3.Vec{{X: room}, {X: -room}, {Y: room}, {Y: -room}} {
					clear = clear && math.Round(winding(m, r3.Add(p, c.at.Turned(d)))) == turns
				}
				x, y, _, _ := lens.Project(p)
				if !clear {
					continue // too near an edge to tell by one pixel
				}
				got := alike(img.RGBAAt(int(x), int(y)), sectionOf(IvoryBone))
				if got != (turns > 0.5) {
					t.Errorf("%s: cut face at (%.0f, %.0f): %v, and the bone is there %.0f times", name, u, v, got, turns)
				}
				if turns > 0.5 {
					inside++
				} else {
					outside++
				}
			}
		}
		if inside < 10 || outside < 10 {
			t.Errorf("%s: only %d places inside and %d outside the bone", name, inside, outside)
		}
	}
}

func TestPartsWithoutACutFaceStayWhole(t *testing.T) {
	in := []Instance{{Head(18), Still, Ceramic}, {FemurCut(), Still, IvoryBone.Uncut()}}
	a := picture(300, 240, Oblique(), Light, in)
	b := cutPicture(300, 240, Oblique(), along(cupPose(40, 15)), in)
	if !bytes.Equal(a.Pix, b.Pix) {
		t.Error("a cut changed parts that are not to be cut")
	}
}

func TestACutBeyondAllPartsChangesNothing(t *testing.T) {
	a := picture(300, 240, Oblique(), Light, whole())
	b := cutPicture(300, 240, Oblique(), Plane{At: r3.Vec{X: 900}, Normal: r3.Vec{X: 1}}, whole())
	if most, _ := apart(a, b, 0); most > 0 {
		t.Errorf("channels differ by up to %d", most)
	}
}

func TestNumberOfWorkersNeverChangesACutPicture(t *testing.T) {
	at := along(cupPose(40, 15))
	want := image.NewRGBA(image.Rect(0, 0, 333, 241))
	(&Renderer{Workers: 1, Cut: at}).Draw(want, Oblique(), Light, whole())
	for _, workers := range []int{2, 8} {
		got := image.NewRGBA(want.Rect)
		r := Renderer{Workers: workers, Cut: at}
		for range 3 {
			if r.Draw(got, Oblique(), Light, whole()); !bytes.Equal(got.Pix, want.Pix) {
				t.Fatalf("picture with %d workers differs from that with one", workers)
			}
		}
	}
}

func TestDrawingACutAllocatesNothingOnceWarm(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	in, img := whole(), image.NewRGBA(image.Rect(0, 0, 400, 300))
	r := Renderer{Cut: along(cupPose(40, 15))}
	for range 20 {
		r.Draw(img, Oblique(), Light, in)
	}
	if n := testing.AllocsPerRun(50, func() { r.Draw(img, Oblique(), Light, in) }); n > 0 {
		t.Errorf("%.1f allocations per picture, want 0", n)
	}
}

// A line of sight meets what is left, at the cut face first.
func TestPickPassesWhatIsCutAway(t *testing.T) {
	ball := Material{Colour: color.NRGBA{A: 255}, Section: color.NRGBA{A: 255}}
	in := []Instance{{Head(18), Still, ball}}
	at := Plane{At: r3.Vec{X: 4}, Normal: r3.Vec{X: 1}}
	eye, ahead := r3.Vec{X: 500}, r3.Vec{X: -1}
	if i, _ := Pick(in, at, eye, ahead); i != 0 {
		t.Errorf("Pick through the cut face = %d, want the ball", i)
	}
	// 17 mm from the axis the ball lies within 6 mm of its middle plane; a cut
	// behind that leaves nothing there.
	eye.Y = 17
	if i, _ := Pick(in, Plane{At: r3.Vec{X: -8}, Normal: r3.Vec{X: 1}}, eye, ahead); i != -1 {
		t.Errorf("Pick where the ball was cut away = %d, want nothing", i)
	}
	if i, _ := Pick(in, at, eye, ahead); i != 0 {
		t.Errorf("Pick beside the cut = %d, want the ball", i)
	}
}
