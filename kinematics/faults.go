package kinematics

import "rimclear/kinematics/aperture"

// faults returns what is wrong between the values of a design, each of which
// is in its own range.
func (d Design) faults(i int) []Fault {
	var list []Fault
	add := func(key string, reason Reason, value, lo, hi float64) {
		list = append(list, Fault{Key: key, Design: i, Value: value, Min: lo, Max: hi, Reason: reason})
	}
	if w := d.Neck.Widest(); w >= d.Rim.HeadDiameter {
		add(d.neckKey(), NeckTooWide, w, 0, d.Rim.HeadDiameter)
	} else if w <= 0 {
		p := ParameterByKey("neck_diameter_mm")
		add(p.Key, OutOfRange, 0, p.Min, p.Max)
	}
	if t := d.Neck.Taper; t.Present() && !(t.End > t.Start) {
		add("taper_end_mm", TaperReversed, t.End, t.Start, ParameterByKey("taper_end_mm").Max)
	}
	if len(list) == 0 {
		if theta, round := aperture.Build(d.Rim, d.Neck).Theta(); round && theta <= 0 {
			add("cup_arc_deg", NeverFree, degrees(d.Rim.Arc), 0, 0)
		}
	}
	return list
}

// neckKey names the parameter that makes the neck as wide as it is.
func (d Design) neckKey() string {
	if d.Neck.Taper.Present() {
		return "taper_start_diameter_mm"
	}
	return "neck_diameter_mm"
}
