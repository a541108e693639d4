package kinematics

// Replaced returns the key of the value that stands in for this one in a
// design, so that this one has no effect there: a section or a taper for the
// diameter of the neck, a circle of the rim for arc and inset. It is "" where
// the value counts.
func (p *Parameter) Replaced(d *Design) string {
	switch p.Key {
	case "neck_diameter_mm":
		if key := d.neckKey(); key != p.Key {
			return key
		}
	case "cup_arc_deg", "inset_mm":
		if d.Rim.Edge.Present() {
			return "rim_radius_mm"
		}
	}
	return ""
}

// Idle returns what is to be said of a value that has no effect in a design,
// nil where it counts or is absent. It is no fault: a file may hold it.
func (p *Parameter) Idle(d *Design, design int, v float64) *Fault {
	if p.Replaced(d) == "" || p.Optional && v == 0 {
		return nil
	}
	return &Fault{Key: p.Key, Design: design, Value: v, Min: p.Min, Max: p.Max, Reason: NoEffect}
}

// idle returns the values of design i that have no effect and are not the
// defaults, which were never chosen.
func (c *Case) idle(i int) []Fault {
	var list []Fault
	for k := range Parameters {
		p := &Parameters[k]
		if v := p.Get(c, i); p.Scope == OfDesign && v != p.Default {
			if f := p.Idle(&c.Designs[i], i, v); f != nil {
				list = append(list, *f)
			}
		}
	}
	return list
}
