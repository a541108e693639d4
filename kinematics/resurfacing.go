package kinematics

import "rimclear/kinematics/unit"

// UsualArc returns the arc of a resurfacing cup for a head of this diameter, as
// a default to edit: 158° at 40 mm to 166° at 58 mm, linear between and held
// outside. From memory: arcs are mostly 158° to 166°, growing with size.
func UsualArc(head float64) unit.Angle {
	const small, large = 40.0, 58.0
	share := min(1, max(0, (head-small)/(large-small)))
	return unit.Angle(158+8*share) * unit.Degree
}

// setHead changes the head. The arc of a resurfacing cup follows it for as long
// as it is the usual one; once edited it stays.
func (d *Design) setHead(diameter float64) {
	follows := d.Bearing == Resurfacing && d.Rim.Arc == UsualArc(d.Rim.HeadDiameter)
	d.Rim.HeadDiameter = diameter
	if follows {
		d.Rim.Arc = UsualArc(diameter)
	}
}
