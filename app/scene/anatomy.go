package scene

import (
	"sync"

	"rimclear/assets"
)

// bone reads a stored mesh once.
func bone(b assets.Bone) func() *Mesh {
	return sync.OnceValue(func() *Mesh {
		m, err := ReadMesh(assets.Mesh(b))
		if err != nil {
			panic(err) // the stored meshes are part of the program and tested
		}
		return m
	})
}

// The bones, illustrative and of no person: a right hip in the pelvis frame
// with the hip centre at the origin, the femur in neutral posture with its
// shaft along -Y, neck-shaft angle 130°, anteversion 15°.
var (
	// FemurCut is the femur cut at the neck, as for a stemmed hip.
	FemurCut = bone(assets.FemurCut)
	// FemurNeck is the femur with its neck but without its head, as under a
	// resurfacing.
	FemurNeck = bone(assets.FemurNeck)
	// Hemipelvis is the half pelvis, with a socket of 26 mm radius.
	Hemipelvis = bone(assets.Hemipelvis)

	// The same with about a third of the triangles, for several small
	// pictures side by side.
	FemurCutSmall   = bone(assets.FemurCutSmall)
	FemurNeckSmall  = bone(assets.FemurNeckSmall)
	HemipelvisSmall = bone(assets.HemipelvisSmall)
)
