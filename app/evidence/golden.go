package evidence

import (
	"math"
	"strconv"
	"strings"

	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
)

// Category is a kind of rows of a golden set, and the largest difference of
// the program on them.
type Category struct {
	Set    string // "contact", found by two other references, or "own", by ours
	Name   string
	Rows   int
	Failed int     // rows with another status, another number of contacts, or beyond their tolerance
	Worst  float64 // of first contacts, degrees; in the set "own" of all answers, degrees or mm
}

// golden answers all rows of a set.
func golden(set string) []Category {
	rows, err := assets.Golden(set + ".csv")
	if err != nil {
		panic(err) // it is built in
	}
	var list []Category
	for _, row := range rows {
		if n := len(list); n == 0 || list[n-1].Name != row["category"] {
			list = append(list, Category{Set: set, Name: row["category"]})
		}
		c := &list[len(list)-1]
		c.Rows++
		g := goldenRow{line{row}, set == "own"}
		off, ok := g.compare()
		c.Worst = max(c.Worst, off)
		if !ok {
			c.Failed++
		}
	}
	return list
}

// goldenRow is a line of a golden set; an empty cell means that the feature is
// absent.
type goldenRow struct {
	line
	own bool
}

func (g goldenRow) number(column string) float64 {
	if !g.given(column) {
		return 0
	}
	return g.line.number(column)
}

func (g goldenRow) lip(name string) implant.Lip {
	return implant.Lip{
		Height: deg(g.number(name + "_h")), Centre: deg(g.number(name + "_c")),
		Plateau: deg(g.number(name + "_w")), Ramp: deg(g.number(name + "_r")),
	}
}

// design reads the columns described beside the set.
func (g goldenRow) design() (kinematics.Hip, kinematics.Design) {
	n := g.number
	h := kinematics.Hip{Side: hip.Right, CupPlane: hip.Supine, PosturePlane: hip.Standing,
		Tilts: hip.Tilts{Supine: deg(n("cup_tilt")), Standing: deg(n("motion_tilt"))}}
	if g.Row["side"] == "L" {
		h.Side = hip.Left
	}
	d := placed(bearing(n("head_d"), n("neck_d"), n("arc")), n("ri"), n("ra"), n("fa"), n("ccd"))
	d.Stem.Varus, d.Stem.SagittalTilt = deg(n("varus")), deg(n("sagittal"))
	d.Rim.Wall, d.Rim.Inset = n("wall"), n("inset")
	d.Rim.Lips = [2]implant.Lip{g.lip("lip"), g.lip("lip2")}
	d.Rim.Notch = g.lip("notch")
	d.Rim.Chamfer = implant.Chamfer{Width: n("chamfer_w"), Depth: n("chamfer_d")}
	d.Rim.Recess = implant.Recess{Width: n("recess_w"), Depth: n("recess_d")}
	d.Rim.Mobile = implant.Mobile{Head: n("mobile_d"), Arc: deg(n("mobile_arc"))}
	d.Neck.Taper = implant.Taper{StartDiameter: n("tap_d0"), Start: n("tap_s0"), EndDiameter: n("tap_d1"), End: n("tap_s1")}
	d.Neck.Skirt = implant.Skirt{Diameter: n("skirt_d"), Length: n("skirt_l")}
	d.Neck.Oval = implant.Oval{Width: n("oval_a"), Depth: n("oval_b"), Roll: deg(n("oval_roll")),
		SuperiorShift: n("oval_sup"), AnteriorShift: n("oval_ant")}
	d.Neck.Trapezoid = implant.Trapezoid{Width: n("trap_w"), Superior: n("trap_sup"), Inferior: n("trap_inf"),
		Corner: n("trap_corner"), Roll: deg(n("trap_roll"))}
	if d.Rim.Mobile.Present() {
		d.Bearing = kinematics.DualMobility
	}
	return h, d
}

var movements = map[string]kinematics.Movement{
	"flexion": kinematics.FlexionMovement, "extension": kinematics.Extension, "adduction": kinematics.AdductionMovement,
	"abduction": kinematics.Abduction, "internal": kinematics.Internal, "external": kinematics.External,
}

var statusWords = map[kinematics.Status]string{
	kinematics.Stopped: "limit", kinematics.Free: "none", kinematics.StartsInContact: "contact_at_start",
}

// compare answers the row and returns by how much it is off.
func (g goldenRow) compare() (off float64, ok bool) {
	h, d := g.design()
	m, n := movements[g.Row["motion"]], g.number
	start := hip.Posture{Flexion: deg(n("flex")), Adduction: deg(n("add")), InternalRotation: deg(n("ir"))}
	path := m.Path(start, deg(n("end")), h.PosturePlane)
	j := kinematics.NewJoint(h, d)
	l := j.Limit(path)
	a := comparison{ok: statusWords[l.Status] == g.Row["status"]}
	reading := func(at motion.Place) float64 { return m.Reading(path, at).Degrees() }
	if a.ok && l.Status == kinematics.Stopped {
		a.near(reading(l.At), n("limit_deg"), g.tolerance())
	}
	bounds := strings.FieldsFunc(g.Row["contact_intervals"], func(c rune) bool { return c == ':' || c == ';' })
	a.ok = a.ok && len(bounds) == 2*len(l.Intervals)
	for i := 0; a.ok && i < len(l.Intervals); i++ {
		for k, at := range []motion.Place{l.Intervals[i].From, l.Intervals[i].To} {
			want, err := strconv.ParseFloat(bounds[2*i+k], 64)
			switch {
			case err != nil:
				a.ok = false
			case g.own:
				a.near(reading(at), want, ownTolerance)
			default: // written to 0.01°; the two references agree within 0.05
				a.ok = a.ok && math.Abs(reading(at)-want) <= max(0.05, g.tolerance())
			}
		}
	}
	if g.given("liner_deg") {
		ride := j.LinerRide(path, j.CupAxis())
		a.ok = a.ok && ride.Meets
		a.near(reading(ride.At), n("liner_deg"), ownTolerance)
	}
	if g.given("clearance_mm") {
		a.near(j.Contact(start).Clearance, n("clearance_mm"), ownTolerance)
	}
	return a.off, a.ok
}

// ownTolerance is that of the set "own", degrees or mm.
const ownTolerance = 1e-5

func (g goldenRow) tolerance() float64 {
	if g.own {
		return ownTolerance
	}
	return g.number("tol_deg")
}

// comparison gathers what a row finds.
type comparison struct {
	off float64
	ok  bool
}

func (c *comparison) near(got, want, tolerance float64) {
	d := math.Abs(got - want)
	c.off = max(c.off, d)
	c.ok = c.ok && d <= tolerance
}
