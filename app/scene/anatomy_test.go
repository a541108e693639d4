package scene

import "testing"

func bones() map[string]*Mesh {
	return map[string]*Mesh{"cut femur": FemurCut(), "femur with neck": FemurNeck(), "hemipelvis": Hemipelvis()}
}

func TestBonesAreWatertightOfDueSize(t *testing.T) {
	for name, m := range bones() {
		if n := m.Triangles(); n < 3000 || n > 8000 {
			t.Errorf("%s: %d triangles, want 3,000 to 8,000", name, n)
		}
		if n := open(m); n != 0 {
			t.Errorf("%s: %d open edges, want 0", name, n)
		}
		if v := volume(m); v < 1e5 {
			t.Errorf("%s: volume %.0f mm³, want above 100,000", name, v)
		}
	}
}
