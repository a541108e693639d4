package aperture

import (
	"rimclear/kinematics/unit"
)

// touch is the margin at or below which rim and neck are in contact.
const touch = 1e-9 * unit.Degree

// Free reports whether the neck is clear of the rim at a pose: the same answer
// as Nearest(p).Margin > 1e-9°, at a glance for nearly all poses.
func (a *Aperture) Free(p Pose) bool {
	if a.round {
		return p.Axis.Z > a.cosFree
	}
	if free, decided := a.table.look(a.pair.seen(p)); decided {
		return free
	}
	return a.pair.nearest(p).Margin > touch
}

// Inscribed returns the half angle of a cone about the cup axis in which every
// neck direction is free at every roll, 0 where it is not worked out: for round
// designs the whole aperture, for others within 0.2° of the greatest.
func (a *Aperture) Inscribed() unit.Angle {
	return a.inscribed
}
