package assets

import (
	"bytes"
	"embed"
	"io"
)

// The stored meshes are illustrative bones of no person: formed by hand-written
// distance fields, never scanned. Right hip, pelvis frame (X anterior, Y
// superior, Z to the patient's right), origin at the hip centre, mm.
//
// Stored form, little endian: the line "mesh1", the number of vertices and of
// triangles (uint32 each), the box that holds them (lowest x, y, z, highest x,
// y, z as float32); for each vertex its place in the box (3 uint16, 0 to 65535
// from lowest to highest), its normal (3 int8, 127 for 1) and its openness
// (uint8, 255 for unshaded); for each triangle corner the step from the vertex
// before (signed varint).
//
//go:generate go run ./mesh/gen -dir mesh
//go:embed mesh/*.mesh
var meshes embed.FS

// Bone names a stored mesh.
type Bone string

const (
	FemurCut   Bone = "femur-cut"  // femur cut at the neck, for a stemmed hip
	FemurNeck  Bone = "femur-neck" // femur with its neck, without its head
	Hemipelvis Bone = "hemipelvis" // half pelvis with its socket

	// The same with fewer triangles.
	FemurCutSmall   Bone = "femur-cut-small"
	FemurNeckSmall  Bone = "femur-neck-small"
	HemipelvisSmall Bone = "hemipelvis-small"
)

// Mesh returns the stored form of a bone; nil for a name that is not one.
func Mesh(b Bone) io.Reader {
	data, err := meshes.ReadFile("mesh/" + string(b) + ".mesh")
	if err != nil {
		return nil
	}
	return bytes.NewReader(data)
}
