package kinematics

import (
	"slices"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Parameters is the table, in the order in which files and windows show it.
// Ranges are what the model is meant for, not what an implant maker offers.
var Parameters = slices.Concat(
	bearingRows, lipRows("lip", first), lipRows("lip2", second), notchRows, rimRows,
	neckRows, cupRows, stemRows, hipRows, postureRows, goalRows)

var bearingRows = []Parameter{
	choice("bearing", OfDesign, BearingGroup, []string{"fixed_liner", "resurfacing", "dual_mobility"},
		func(_ *Case, d *Design) float64 { return float64(d.Bearing) },
		func(_ *Case, d *Design, v float64) { d.Bearing = BearingKind(v) }),
	millimetres("head_diameter_mm", BearingGroup, 18, 70, 0.5, 32, "range_heads",
		func(d *Design) *float64 { return &d.Rim.HeadDiameter }).setBy((*Design).setHead),
	millimetres("neck_diameter_mm", BearingGroup, 4, 66, 0.1, 12, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Diameter }).optional(),
	angle("cup_arc_deg", BearingGroup, 130, 220, 0.5, 180, "range_arcs",
		func(d *Design) *unit.Angle { return &d.Rim.Arc }),
	millimetres("wall_mm", BearingGroup, 0.5, 15, 0.1, 5, "range_walls",
		func(d *Design) *float64 { return &d.Rim.Wall }),
	derived("outer_cup_mm", Millimetre, BearingGroup, 20, 100, 0.5, "range_walls",
		func(d *Design) float64 { return d.Rim.HeadDiameter + 2*d.Rim.Wall },
		func(d *Design, v float64) { d.Rim.Wall = (v - d.Rim.HeadDiameter) / 2 }),
	millimetres("mobile_head_mm", BearingGroup, 18, 40, 0.5, 0, "range_mobile",
		func(d *Design) *float64 { return &d.Rim.Mobile.Head }).optional(),
	angle("mobile_arc_deg", BearingGroup, 160, 300, 0.5, 0, "range_mobile",
		func(d *Design) *unit.Angle { return &d.Rim.Mobile.Arc }).optional(),
}

func first(d *Design) *implant.Lip  { return &d.Rim.Lips[0] }
func second(d *Design) *implant.Lip { return &d.Rim.Lips[1] }

func lipRows(name string, at func(*Design) *implant.Lip) []Parameter {
	return []Parameter{
		angle(name+"_height_deg", RimGroup, 0, 45, 0.5, 0, "range_lips",
			func(d *Design) *unit.Angle { return &at(d).Height }),
		derived(name+"_height_mm", Millimetre, RimGroup, 0, 25, 0.1, "range_lips",
			func(d *Design) float64 { return float64(at(d).Height) * d.Rim.HeadDiameter / 2 },
			func(d *Design, v float64) { at(d).Height = unit.Angle(v / (d.Rim.HeadDiameter / 2)) }),
		angle(name+"_centre_deg", RimGroup, -180, 180, 1, 0, "range_azimuth",
			func(d *Design) *unit.Angle { return &at(d).Centre }),
		angle(name+"_plateau_deg", RimGroup, 0, 360, 1, 0, "range_azimuth",
			func(d *Design) *unit.Angle { return &at(d).Plateau }),
		angle(name+"_ramp_deg", RimGroup, 0, 180, 1, 0, "range_azimuth",
			func(d *Design) *unit.Angle { return &at(d).Ramp }),
	}
}

var notchRows = []Parameter{
	angle("notch_depth_deg", RimGroup, 0, 45, 0.5, 0, "range_lips",
		func(d *Design) *unit.Angle { return &d.Rim.Notch.Height }),
	angle("notch_centre_deg", RimGroup, -180, 180, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Rim.Notch.Centre }),
	angle("notch_plateau_deg", RimGroup, 0, 360, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Rim.Notch.Plateau }),
	angle("notch_ramp_deg", RimGroup, 0, 180, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Rim.Notch.Ramp }),
}

var rimRows = []Parameter{
	millimetres("chamfer_width_mm", RimGroup, 0, 8, 0.1, 0, "range_faces",
		func(d *Design) *float64 { return &d.Rim.Chamfer.Width }),
	millimetres("chamfer_depth_mm", RimGroup, 0, 8, 0.1, 0, "range_faces",
		func(d *Design) *float64 { return &d.Rim.Chamfer.Depth }),
	millimetres("recess_width_mm", RimGroup, 0, 12, 0.1, 0, "range_faces",
		func(d *Design) *float64 { return &d.Rim.Recess.Width }),
	millimetres("recess_depth_mm", RimGroup, 0, 6, 0.1, 0, "range_faces",
		func(d *Design) *float64 { return &d.Rim.Recess.Depth }),
	millimetres("extension_mm", RimGroup, 0, 10, 0.1, 0, "range_insets",
		func(d *Design) *float64 { return &d.Rim.Extension }),
	millimetres("inset_mm", RimGroup, -6, 6, 0.1, 0, "range_insets",
		func(d *Design) *float64 { return &d.Rim.Inset }),
	millimetres("rim_radius_mm", RimGroup, 8, 40, 0.1, 0, "range_rim_circle",
		func(d *Design) *float64 { return &d.Rim.Edge.Radius }).optional(),
	millimetres("rim_height_mm", RimGroup, -10, 10, 0.1, 0, "range_rim_circle",
		func(d *Design) *float64 { return &d.Rim.Edge.Height }),
}

// leastBumpRamp is, in degrees about the neck, the steepest flank of a bump for
// which the search between samples is known to be exact against a lipped rim.
const leastBumpRamp = 12

var neckRows = []Parameter{
	millimetres("taper_start_diameter_mm", NeckGroup, 4, 66, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Taper.StartDiameter }).optional(),
	millimetres("taper_start_mm", NeckGroup, 0, 60, 0.5, 0, "range_tapers",
		func(d *Design) *float64 { return &d.Neck.Taper.Start }),
	millimetres("taper_end_diameter_mm", NeckGroup, 4, 66, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Taper.EndDiameter }).optional(),
	millimetres("taper_end_mm", NeckGroup, 0, 80, 0.5, 0, "range_tapers",
		func(d *Design) *float64 { return &d.Neck.Taper.End }),
	millimetres("oval_width_mm", NeckGroup, 4, 66, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Oval.Width }).optional(),
	millimetres("oval_depth_mm", NeckGroup, 4, 66, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Oval.Depth }).optional(),
	angle("oval_roll_deg", NeckGroup, -90, 90, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Neck.Oval.Roll }),
	millimetres("oval_superior_shift_mm", NeckGroup, -12, 12, 0.1, 0, "range_offsets",
		func(d *Design) *float64 { return &d.Neck.Oval.SuperiorShift }),
	millimetres("oval_anterior_shift_mm", NeckGroup, -12, 12, 0.1, 0, "range_offsets",
		func(d *Design) *float64 { return &d.Neck.Oval.AnteriorShift }),
	derived("superior_offset_mm", Millimetre, NeckGroup, -10, 30, 0.1, "range_offsets",
		func(d *Design) float64 { return d.offset(0) },
		func(d *Design, v float64) { d.shift(&d.Neck.Oval.SuperiorShift, d.offset(0)-v) }),
	derived("anterior_offset_mm", Millimetre, NeckGroup, -10, 30, 0.1, "range_offsets",
		func(d *Design) float64 { return d.offset(90 * unit.Degree) },
		func(d *Design, v float64) { d.shift(&d.Neck.Oval.AnteriorShift, d.offset(90*unit.Degree)-v) }),
	millimetres("trapezoid_width_mm", NeckGroup, 4, 40, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Trapezoid.Width }).optional(),
	millimetres("trapezoid_superior_mm", NeckGroup, 2, 40, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Trapezoid.Superior }).optional(),
	millimetres("trapezoid_inferior_mm", NeckGroup, 2, 40, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Trapezoid.Inferior }).optional(),
	millimetres("trapezoid_corner_mm", NeckGroup, 0, 15, 0.1, 0, "range_necks",
		func(d *Design) *float64 { return &d.Neck.Trapezoid.Corner }),
	angle("trapezoid_roll_deg", NeckGroup, -90, 90, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Neck.Trapezoid.Roll }),
	millimetres("bump_height_mm", NeckGroup, 0, 10, 0.1, 0, "range_bumps",
		func(d *Design) *float64 { return &d.Neck.Bump.Height }),
	angle("bump_centre_deg", NeckGroup, -180, 180, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Neck.Bump.Centre }),
	angle("bump_plateau_deg", NeckGroup, 0, 360, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Neck.Bump.Plateau }),
	angle("bump_ramp_deg", NeckGroup, leastBumpRamp, 180, 1, 0, "range_azimuth",
		func(d *Design) *unit.Angle { return &d.Neck.Bump.Ramp }).optional(),
	millimetres("skirt_diameter_mm", NeckGroup, 4, 50, 0.1, 0, "range_skirts",
		func(d *Design) *float64 { return &d.Neck.Skirt.Diameter }).optional(),
	millimetres("skirt_length_mm", NeckGroup, 1, 60, 0.1, 0, "range_skirts",
		func(d *Design) *float64 { return &d.Neck.Skirt.Length }).optional(),
}

var cupRows = []Parameter{
	choice("cup_definition", OfDesign, CupGroup, []string{"radiographic", "operative", "anatomic"},
		func(_ *Case, d *Design) float64 { return float64(d.Cup.Definition) },
		func(_ *Case, d *Design, v float64) { d.Cup = d.Cup.Redefined(hip.Definition(v)) }),
	angle("cup_inclination_deg", CupGroup, 0, 90, 0.5, 40, "range_cup",
		func(d *Design) *unit.Angle { return &d.Cup.Inclination }),
	angle("cup_anteversion_deg", CupGroup, -90, 90, 0.5, 15, "range_cup",
		func(d *Design) *unit.Angle { return &d.Cup.Anteversion }),
	choice("cup_plane", OfCase, CupGroup, planes,
		func(c *Case, _ *Design) float64 { return float64(c.Hip.CupPlane) },
		func(c *Case, _ *Design, v float64) { c.Hip.CupPlane = hip.Plane(v) }),
}

var stemRows = []Parameter{
	angle("stem_anteversion_deg", StemGroup, -30, 75, 0.5, 15, "range_stem",
		func(d *Design) *unit.Angle { return &d.Stem.Anteversion }),
	angle("neck_shaft_deg", StemGroup, 100, 165, 0.5, 135, "range_neck_shaft",
		func(d *Design) *unit.Angle { return &d.Stem.NeckShaft }),
	angle("stem_varus_deg", StemGroup, -15, 15, 0.5, 0, "range_stem_tilt",
		func(d *Design) *unit.Angle { return &d.Stem.Varus }),
	angle("stem_sagittal_tilt_deg", StemGroup, -15, 15, 0.5, 0, "range_stem_tilt",
		func(d *Design) *unit.Angle { return &d.Stem.SagittalTilt }),
	angle("component_to_neck_deg", StemGroup, -20, 20, 0.5, 0, "range_component_to_neck",
		func(d *Design) *unit.Angle { return &d.Stem.ComponentToNeck }),
}

var hipRows = []Parameter{
	choice("side", OfCase, HipGroup, []string{"right", "left"},
		func(c *Case, _ *Design) float64 { return float64(c.Hip.Side) },
		func(c *Case, _ *Design, v float64) { c.Hip.Side = hip.Side(v) }),
	caseAngle("tilt_supine_deg", HipGroup, -50, 50, 0, "range_tilt",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.Supine }),
	caseAngle("tilt_standing_deg", HipGroup, -50, 50, 0, "range_tilt",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.Standing }),
	caseAngle("tilt_relaxed_sitting_deg", HipGroup, -80, 50, -22, "range_tilt_sitting",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.RelaxedSitting }),
	caseAngle("tilt_flexed_sitting_deg", HipGroup, -60, 60, 0, "range_tilt",
		func(c *Case) *unit.Angle { return &c.Hip.Tilts.FlexedSitting }),
	choice("posture_plane", OfCase, HipGroup, planes,
		func(c *Case, _ *Design) float64 { return float64(c.Hip.PosturePlane) },
		func(c *Case, _ *Design, v float64) { c.Hip.PosturePlane = hip.Plane(v) }).byDefault(float64(hip.Standing)),
	caseAngle("given_adduction_deg", HipGroup, -60, 60, 10, "range_given_adduction",
		func(c *Case) *unit.Angle { return &c.Hip.GivenAdduction }),
	choice("socket", OfCase, HipGroup, []string{"socket_free", "socket_tied"},
		func(c *Case, _ *Design) float64 { return float64(c.Hip.Socket.Rule) },
		func(c *Case, _ *Design, v float64) { c.Hip.Socket.Rule = SocketRule(v) }),
	caseMillimetres("socket_mm", 40, 80, 52, "range_socket",
		func(c *Case) *float64 { return &c.Hip.Socket.Outer }),
	caseMillimetres("shell_mm", 2, 8, 4, "range_shell",
		func(c *Case) *float64 { return &c.Hip.Socket.Shell }),
	caseMillimetres("least_liner_mm", 2, 10, 4, "range_liner",
		func(c *Case) *float64 { return &c.Hip.Socket.LeastLiner }),
}

var postureRows = []Parameter{
	caseAngle("flexion_deg", PostureGroup, -60, 180, 0, "range_posture",
		func(c *Case) *unit.Angle { return &c.Posture.Flexion }),
	caseAngle("adduction_deg", PostureGroup, -89, 89, 0, "range_posture",
		func(c *Case) *unit.Angle { return &c.Posture.Adduction }),
	caseAngle("internal_rotation_deg", PostureGroup, -180, 180, 0, "range_posture",
		func(c *Case) *unit.Angle { return &c.Posture.InternalRotation }),
}

// goalRows hold scatter as published for cups set by hand (UsualScatter), and
// the bound of inclination that most targets share. The margin below which a
// motion that is met counts as close is our own choice.
var goalRows = []Parameter{
	goalAngle("closeness_deg", 0, 30, 0.5, 5, "range_closeness",
		func(c *Case) *unit.Angle { return &c.Goal.Closeness }),
	goalAngle("mechanical_axis_deg", 0, 15, 0.5, float64(motion.UsualMechanical/unit.Degree), "range_mechanical",
		func(c *Case) *unit.Angle { return &c.Goal.Mechanical }),
	goalAngle("scatter_inclination_deg", 0, 20, 0.1, handInclination, "range_scatter_cup",
		func(c *Case) *unit.Angle { return &c.Goal.SD[CupInclination] }),
	goalAngle("scatter_anteversion_deg", 0, 25, 0.1, handAnteversion, "range_scatter_cup",
		func(c *Case) *unit.Angle { return &c.Goal.SD[CupAnteversion] }),
	goalAngle("scatter_stem_deg", 0, 20, 0.1, assumedStem, "range_scatter_stem",
		func(c *Case) *unit.Angle { return &c.Goal.SD[StemAnteversion] }),
	goalAngle("scatter_tilt_deg", 0, 20, 0.1, assumedTilt, "range_scatter_tilt",
		func(c *Case) *unit.Angle { return &c.Goal.SD[PelvicTilt] }),
	goalAngle("bound_inclination_least_deg", 0, 90, 0.5, 30, "range_bound_inclination",
		func(c *Case) *unit.Angle { return &c.Goal.Inclination.Least }),
	goalAngle("bound_inclination_most_deg", 0, 90, 0.5, 50, "range_bound_inclination",
		func(c *Case) *unit.Angle { return &c.Goal.Inclination.Most }),
	goalAngle("bound_anteversion_least_deg", -60, 90, 0.5, -60, "range_bound_anteversion",
		func(c *Case) *unit.Angle { return &c.Goal.Anteversion.Least }),
	goalAngle("bound_anteversion_most_deg", -60, 90, 0.5, 90, "range_bound_anteversion",
		func(c *Case) *unit.Angle { return &c.Goal.Anteversion.Most }),
	goalLength("bound_jump_mm", 1, 40, "range_bound_jump",
		func(c *Case) *float64 { return &c.Goal.LeastJump }),
	goalLength("bound_patch_mm", 1, 40, "range_bound_patch",
		func(c *Case) *float64 { return &c.Goal.LeastPatch }),
}
