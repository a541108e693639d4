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
