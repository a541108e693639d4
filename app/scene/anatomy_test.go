package scene

import (
	"bytes"
	"io"
	"math"
	"testing"

	"rimclear/assets"
)

func bones() map[string]*Mesh {
	return map[string]*Mesh{"cut femur": FemurCut(), "femur with neck": FemurNeck(), "hemipelvis": Hemipelvis()}
}

func TestSmallBonesAreWatertightAndMuchTheSame(t *testing.T) {
	for name, pair := range map[string][2]*Mesh{
		"cut femur": {FemurCutSmall(), FemurCut()}, "femur with neck": {FemurNeckSmall(), FemurNeck()},
		"hemipelvis": {HemipelvisSmall(), Hemipelvis()},
	} {
		small, full := pair[0], pair[1]
		if n := small.Triangles(); n > full.Triangles()/2 {
			t.Errorf("%s: %d triangles, want less than half of %d", name, n, full.Triangles())
		}
		if n := open(small); n != 0 {
			t.Errorf("%s: %d open edges, want 0", name, n)
		}
		if a, b := volume(small), volume(full); math.Abs(a-b) > 0.08*b {
			t.Errorf("%s: volume %.0f mm³, want %.0f within 8 %% (flat faces cut inside the surface)", name, a, b)
		}
	}
}

func TestReadMeshRefusesWhatIsNotOne(t *testing.T) {
	whole, err := io.ReadAll(assets.Mesh(assets.FemurCut))
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range map[string][]byte{
		"empty": nil, "other": []byte("hello, this is no mesh at all, not even nearly so"),
		"cut short": whole[:len(whole)/2], "head only": whole[:38],
		"beyond the vertices": append(bytes.Clone(whole[:len(whole)-2]), 0xfe, 0xff, 0x7f),
	} {
		if m, err := ReadMesh(bytes.NewReader(data)); err == nil || m != nil {
			t.Errorf("%s: ReadMesh gave a mesh, want an error", name)
		}
	}
	if _, err := ReadMesh(assets.Mesh("thorax")); err == nil {
		t.Error("ReadMesh(no such bone): want an error")
	}
}

func FuzzReadMesh(f *testing.F) {
	whole, err := io.ReadAll(assets.Mesh(assets.FemurCutSmall))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(whole[:600])
	f.Add([]byte("mesh1\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		if m, err := ReadMesh(bytes.NewReader(data)); err == nil {
			for i := range m.Triangles() {
				for _, k := range m.Corners(i) {
					m.Point(int(k))
				}
			}
		}
	})
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
