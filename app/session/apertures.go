package session

import (
	"slices"

	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/implant"
)

// shapes is what an aperture depends on.
type shapes struct {
	rim  implant.Rim
	neck implant.Neck
}

// kept bounds the apertures kept: four designs, and those a drag or an undo
// has just left.
const kept = 32

// apertures keeps the apertures last used, newest last.
type apertures struct {
	keys []shapes
	has  map[shapes]*aperture.Aperture
}

// of returns the aperture of a design's shapes, building it if need be.
func (a *apertures) of(d kinematics.Design) *aperture.Aperture {
	key := shapes{d.Rim, d.Neck}
	if ap, ok := a.has[key]; ok {
		if i := slices.Index(a.keys, key); i < len(a.keys)-1 {
			a.keys = append(slices.Delete(a.keys, i, i+1), key)
		}
		return ap
	}
	if a.has == nil {
		a.has = make(map[shapes]*aperture.Aperture, kept)
	}
	if len(a.keys) >= kept {
		delete(a.has, a.keys[0])
		a.keys = slices.Delete(a.keys, 0, 1)
	}
	ap := aperture.Build(d.Rim, d.Neck)
	a.keys = append(a.keys, key)
	a.has[key] = ap
	return ap
}
