package kinematics

import (
	"math"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// faults collects what is wrong between the values of a design, each of which
// is in its own range.
type faults struct {
	design int
	list   []Fault
}

func (f *faults) add(key string, reason Reason, value, lo, hi float64) {
	f.list = append(f.list, Fault{Key: key, Design: f.design, Value: value, Min: lo, Max: hi, Reason: reason})
}

// faults returns what is wrong between the values of design i.
func (d Design) faults(i int) []Fault {
	f := &faults{design: i}
	f.section(d)
	f.taper(d)
	f.skirt(d)
	f.mobile(d)
	f.face(d.Rim)
	f.lip("lip_plateau_deg", "lip_height_deg", d.Rim, d.Rim.Lips[0])
	f.lip("lip2_plateau_deg", "lip2_height_deg", d.Rim, d.Rim.Lips[1])
	f.lip("notch_plateau_deg", "notch_depth_deg", d.Rim, d.Rim.Notch)
	if len(f.list) == 0 {
		f.width(d)
	}
	return f.list
}

func (f *faults) section(d Design) {
	o, t := d.Neck.Oval, d.Neck.Trapezoid
	switch {
	case o.Present() && t.Present():
		f.add("trapezoid_width_mm", SectionTwice, t.Width, 0, 0)
	case o.Present() && o.Width == 0:
		f.add("oval_width_mm", Incomplete, 0, 0, 0)
	case o.Present() && o.Depth == 0:
		f.add("oval_depth_mm", Incomplete, 0, 0, 0)
	case o.Present() && !o.Holds():
		f.add("oval_anterior_shift_mm", AxisOutside, o.AnteriorShift, 0, 0)
	case t.Present() && (t.Width == 0 || t.Superior == 0 || t.Inferior == 0):
		f.add("trapezoid_width_mm", Incomplete, t.Width, 0, 0)
	case t.Present() && !t.Sound():
		f.add("trapezoid_corner_mm", CornersTooRound, t.Corner, 0, 0)
	case d.Neck.Bump.Present() && d.Neck.Bump.Ramp == 0:
		f.add("bump_ramp_deg", Incomplete, 0, 0, 0)
	case !o.Present() && !t.Present() && !d.Neck.Taper.Present() && d.Neck.Diameter == 0:
		f.add("neck_diameter_mm", NeckMissing, 0, 0, 0)
	}
}

func (f *faults) taper(d Design) {
	t := d.Neck.Taper
	switch {
	case !t.Present():
	case t.StartDiameter == 0:
		f.add("taper_start_diameter_mm", Incomplete, 0, 0, 0)
	case t.EndDiameter == 0:
		f.add("taper_end_diameter_mm", Incomplete, 0, 0, 0)
	case !(t.End > t.Start):
		f.add("taper_end_mm", TaperReversed, t.End, t.Start, 0)
	}
}

func (f *faults) skirt(d Design) {
	switch s := d.Neck.Skirt; {
	case !s.Present():
	case s.Diameter == 0:
		f.add("skirt_diameter_mm", Incomplete, 0, 0, 0)
	case s.Length == 0:
		f.add("skirt_length_mm", Incomplete, 0, 0, 0)
	case s.Diameter >= d.Rim.HeadDiameter:
		f.add("skirt_diameter_mm", NeckTooWide, s.Diameter, 0, d.Rim.HeadDiameter)
	}
}

func (f *faults) mobile(d Design) {
	m := d.Rim.Mobile
	switch {
	case d.Bearing == DualMobility && m.Head == 0:
		f.add("mobile_head_mm", Incomplete, 0, 0, 0)
	case d.Bearing == DualMobility && m.Arc == 0:
		f.add("mobile_arc_deg", Incomplete, 0, 0, 0)
	case m.Present() && m.Head >= d.Rim.HeadDiameter:
		f.add("mobile_head_mm", NeckTooWide, m.Head, 0, d.Rim.HeadDiameter)
	case m.Present() && d.Neck.Widest() >= m.Head:
		f.add(d.neckKey(), NeckTooWide, d.Neck.Widest(), 0, m.Head)
	}
}

// onHead is by how much, in mm, a rim circle may lie inside the head's sphere:
// circles read off a drawing are rounded.
const onHead = 0.1

func (f *faults) face(r implant.Rim) {
	if e := r.Edge; e.Present() && math.Hypot(e.Radius, e.Height) < r.HeadDiameter/2-onHead {
		f.add("rim_radius_mm", RimInsideHead, e.Radius, r.HeadDiameter/2, 0)
	}
	if c := r.Chamfer; c.Width >= r.Wall {
		f.add("chamfer_width_mm", FaceTooNarrow, c.Width, 0, r.Wall)
	}
	if c := r.Recess; c.Width >= r.Wall {
		f.add("recess_width_mm", FaceTooNarrow, c.Width, 0, r.Wall)
	}
}

// steepestLip is the least polar angle down to which a lip may reach.
const steepestLip = 20 * unit.Degree

func (f *faults) lip(wide, high string, r implant.Rim, l implant.Lip) {
	if !l.Present() {
		return
	}
	if l.Plateau+2*l.Ramp > 360*unit.Degree {
		f.add(wide, LipTooWide, degrees(l.Plateau), 0, degrees(360*unit.Degree-2*l.Ramp))
	}
	if most := r.Bare().Polar(0) - steepestLip; l.Height > most {
		f.add(high, LipTooHigh, degrees(l.Height), 0, degrees(most))
	}
}

// width checks the neck against the head, and that any direction is free.
func (f *faults) width(d Design) {
	if w := d.Neck.Widest(); w >= d.Rim.HeadDiameter {
		f.add(d.neckKey(), NeckTooWide, w, 0, d.Rim.HeadDiameter)
		return
	}
	if most := (d.Rim.HeadDiameter - d.Neck.Widest()) / 2; !d.Rim.Edge.Present() && math.Abs(d.Rim.Inset) >= most {
		f.add("inset_mm", InsetTooDeep, d.Rim.Inset, -most, most)
		return
	}
	if !d.Neck.Round() {
		return
	}
	if theta, _ := aperture.Build(d.Rim.Bare(), d.Neck).Theta(); theta <= 0 {
		f.add("cup_arc_deg", NeverFree, degrees(d.Rim.Arc), 0, 0)
	}
}

// neckKey names the parameter that makes the neck as wide as it is.
func (d Design) neckKey() string {
	switch {
	case d.Neck.Oval.Present():
		return "oval_width_mm"
	case d.Neck.Trapezoid.Present():
		return "trapezoid_width_mm"
	case d.Neck.Taper.Present():
		return "taper_start_diameter_mm"
	}
	return "neck_diameter_mm"
}

// leastOffset is the least anterior head-neck offset in the published range, 2
// to 9 mm, mean 4.5 (Orthop Proc 93-B Supp IV).
const leastOffset = 2.0

// Warnings returns what a user should know of a valid case: it does not keep
// answers from being shown.
func Warnings(c *Case) []Fault {
	var list []Fault
	if c.Count > 1 && c.Hip.Socket.Rule == SocketUntied {
		list = append(list, Fault{Key: "socket", Design: -1, Reason: SocketFree})
	}
	for i, d := range c.Active() {
		list = append(list, c.idle(i)...)
		if d.Neck.Overhangs() {
			list = append(list, Fault{Key: "taper_start_mm", Design: i, Value: d.Neck.Taper.Start, Reason: NeckOverhangs})
		}
		if d.Bearing != Resurfacing {
			continue
		}
		if least := (d.Rim.HeadDiameter - d.Neck.Widest()) / 2; least < leastOffset {
			list = append(list, Fault{Key: d.neckKey(), Design: i, Value: least, Min: leastOffset, Reason: NeckNearHead})
		}
	}
	return list
}
