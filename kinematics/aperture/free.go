package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

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
	if free, decided := a.glance().look(a.pair.seen(p)); decided {
		return free
	}
	switch m := a.pair.margin(p); {
	case m <= touch-understated:
		return false
	case m > a.short:
		return true
	}
	return a.pair.nearest(p).Margin > touch
}

// understated bounds by how much the margin over samples is below the exact one:
// only where the neck's width is from a table.
const understated = 0.003 * unit.Degree

// FreeAxis is Free for a round neck, whose roll does not matter.
func (a *Aperture) FreeAxis(u r3.Vec) bool {
	if a.round {
		return u.Z > a.cosFree
	}
	if free, decided := a.glance().look(u); decided {
		return free
	}
	return a.Free(Pose{Axis: u})
}

// Inscribed returns the half angle of a cone about the cup axis in which every
// neck direction is free at every roll, 0 where it is not worked out: for round
// designs the whole aperture, for others within 0.2° of the greatest.
func (a *Aperture) Inscribed() unit.Angle {
	if a.round {
		return a.theta
	}
	return a.glance().inscribed
}

// glance returns the table, drawn when it is first asked for: limits do without
// it. Two goroutines that draw it at once draw the same.
func (a *Aperture) glance() *table {
	if t := a.table.Load(); t != nil {
		return t
	}
	return a.draw()
}

func (a *Aperture) draw() *table {
	t := a.pair.table()
	if t.usable {
		t.inscribed = unit.Angle(math.Acos(clamp(t.cosLow)))
	}
	a.table.Store(t)
	return t
}
