package scene

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// where projects p in the view and returns it relative to the middle.
func where(c Camera, p r3.Vec) (right, up float64) {
	x, y, _, _ := c.Lens(800, 600).Project(p)
	return x - 400, 300 - y
}

func TestViewsShowThePatientAsTheTradeDoes(t *testing.T) {
	lateral, anterior, superior := r3.Vec{Z: 10}, r3.Vec{X: 10}, r3.Vec{Y: 10}
	left := func(c Camera) Camera { c.Mirror = true; return c }
	for _, c := range []struct {
		name      string
		cam       Camera
		p         r3.Vec
		right, up float64 // signs
	}{
		{"front: the right hip's outer side is on the viewer's left", Front(), lateral, -1, 0},
		{"front: superior is up", Front(), superior, 0, 1},
		{"side: anterior is on the right", Side(), anterior, 1, 0},
		{"left hip, front: outer side on the viewer's right", left(Front()), lateral, 1, 0},
		{"left hip, side: anterior is on the left", left(Side()), anterior, -1, 0},
	} {
		x, y := where(c.cam, c.p)
		if sign(x) != c.right || sign(y) != c.up {
			t.Errorf("%s: got (%.2f, %.2f)", c.name, x, y)
		}
	}
}

func sign(v float64) float64 {
	if math.Abs(v) < 1e-9 {
		return 0
	}
	return math.Copysign(1, v)
}

func TestFacingLooksAlongTheAxis(t *testing.T) {
	n := cupPose(42, 17).Y
	x, y := where(Facing(n), r3.Scale(25, n))
	if math.Hypot(x, y) > 1e-6 {
		t.Errorf("a point on the axis lies %.3g pixels off the middle", math.Hypot(x, y))
	}
	// On a right hip 3 o'clock, the anterior side of the rim, is on the right.
	if x, _ := where(Facing(n), r3.Scale(20, cupPose(42, 17).Z)); x <= 0 {
		t.Errorf("3 o'clock lies at %.1f, want right of the middle", x)
	}
}

func TestExtentSpansTheShorterSide(t *testing.T) {
	c := Front()
	_, top := where(c, r3.Vec{Y: c.Extent / 2})
	if math.Abs(top-300) > 1e-9 {
		t.Errorf("half the extent lies %.3f pixels above the middle, want 300", top)
	}
}

func TestOrbitFollowsThePointer(t *testing.T) {
	// A point in front of the centre moves the way the pointer does.
	for _, mirror := range []bool{false, true} {
		c := Front()
		c.Mirror = mirror
		d := c.Orbit(12, 7, 600)
		x, y := where(d, r3.Vec{X: 40})
		if x <= 0 || y >= 0 {
			t.Errorf("mirror %v: drag right and down moved the near point by (%.2f, %.2f)", mirror, x, y)
		}
		e := c.Pan(12, 7, 600)
		if x, y := where(e, r3.Vec{}); math.Abs(x-12) > 0.01 || math.Abs(y+7) > 0.01 {
			t.Errorf("mirror %v: panning by (12, 7) moved the centre by (%.2f, %.2f)", mirror, x, -y)
		}
	}
}

func TestOrbitAndZoomStayInBounds(t *testing.T) {
	c := Front().Orbit(0, 1e6, 600).Zoom(1e-9)
	if c.Elevation > steepest || c.Extent < leastExtent {
		t.Errorf("elevation %.3f, extent %.3f out of bounds", c.Elevation, c.Extent)
	}
	if got := c.Zoom(1e12).Extent; got > mostExtent {
		t.Errorf("extent %.1f, want at most %.1f", got, mostExtent)
	}
}

func TestChangeOfViewStartsAndEndsRight(t *testing.T) {
	a, b := Side(), Oblique()
	a.Azimuth, b.Azimuth = 3, -3
	for share, want := range map[float64]Camera{0: a, 1: b} {
		got := a.Between(b, share)
		if math.Abs(math.Remainder(got.Azimuth-want.Azimuth, 2*math.Pi)) > 1e-12 || math.Abs(got.Elevation-want.Elevation) > 1e-12 {
			t.Errorf("Between at %.0f: %+v, want %+v", share, got, want)
		}
	}
	if mid := a.Between(b, 0.5).Azimuth; math.Abs(math.Remainder(mid-math.Pi, 2*math.Pi)) > 1e-9 {
		t.Errorf("halfway azimuth %.3f, want the short way round, through 180°", mid)
	}
}

func TestInverseUndoesAPose(t *testing.T) {
	p := MirrorZ.Mul(Turn(0.7, r3.Vec{X: 1, Y: 2, Z: -1})).Mul(At(r3.Vec{X: 3, Y: -4, Z: 5}))
	v := r3.Vec{X: 11, Y: -7, Z: 2}
	if got := p.Inverse().Moved(p.Moved(v)); r3.Norm(r3.Sub(got, v)) > 1e-12 {
		t.Errorf("p⁻¹(p(%v)) = %v", v, got)
	}
	if !p.Mirrors() || p.Mul(p).Mirrors() {
		t.Error("one reflection must mirror, two must not")
	}
}
