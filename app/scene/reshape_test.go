package scene

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

func TestReamedSocketIsClearOfItsCup(t *testing.T) {
	m := Hemipelvis().Reamed(30)
	for i := range m.Points() {
		if d := r3.Norm(m.Point(i)); d < 30-1e-4 {
			t.Fatalf("point %d lies %.3f mm from the hip centre, want 30 or more", i, d)
		}
	}
	if n := open(m); n != 0 {
		t.Errorf("%d open edges, want 0", n)
	}
	if same := Hemipelvis().Reamed(10); volume(same) != volume(Hemipelvis()) {
		t.Error("reaming less than the socket changed it")
	}
}

func TestCutLeavesNothingBeyondThePlane(t *testing.T) {
	whole := Head(20)
	half := whole.Cut(r3.Vec{X: 3}, r3.Vec{X: 2})
	for i := range half.Points() {
		if x := half.Point(i).X; x > 3+1e-4 {
			t.Fatalf("point at X = %.4f, want 3 or less", x)
		}
	}
	other := whole.Cut(r3.Vec{X: 3}, r3.Vec{X: -1})
	// The cut faces of the two lie in one plane and cancel.
	at := r3.Vec{X: 3}
	sum := volumeAbout(half, at) + volumeAbout(other, at)
	if want := volume(whole); sum < 0.9999*want || sum > 1.0001*want {
		t.Errorf("the two parts hold %.1f mm³, want %.1f", sum, want)
	}
	if n := whole.Cut(r3.Vec{X: 30}, r3.Vec{X: 1}).Triangles(); n != whole.Triangles() {
		t.Errorf("a cut that misses left %d triangles of %d", n, whole.Triangles())
	}
}

// volumeAbout is the volume between the surface and the point at.
func volumeAbout(m *Mesh, at r3.Vec) float64 {
	v := 0.0
	for i := range m.Triangles() {
		c := m.Corners(i)
		p := func(k int32) r3.Vec { return r3.Sub(m.Point(int(k)), at) }
		v += r3.Dot(p(c[0]), r3.Cross(p(c[1]), p(c[2]))) / 6
	}
	return v
}
