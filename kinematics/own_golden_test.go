package kinematics

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
)

var update = flag.Bool("update", false, "write assets/golden/own.csv anew, from the solids")

// ownInputs are the columns of assets/golden/own.csv that say what is asked,
// described in own.md beside it; those of contact.csv come first.
var ownInputs = []string{"id", "category", "side", "ri", "ra", "fa", "ccd", "head_d", "neck_d", "arc", "wall", "inset",
	"lip_h", "lip_c", "lip_w", "lip_r", "tap_d0", "tap_s0", "tap_d1", "tap_s1", "oval_a", "oval_b", "oval_roll", "skirt_d", "skirt_l",
	"lip2_h", "lip2_c", "lip2_w", "lip2_r", "notch_h", "notch_c", "notch_w", "notch_r", "oval_sup", "oval_ant",
	"trap_w", "trap_sup", "trap_inf", "trap_corner", "trap_roll", "chamfer_w", "chamfer_d", "recess_w", "recess_d",
	"mobile_d", "mobile_arc", "varus", "sagittal", "cup_tilt", "motion_tilt", "flex", "add", "ir", "motion", "end"}

var ownAnswers = []string{"status", "limit_deg", "contact_intervals", "liner_deg", "clearance_mm"}

// ownDesign reads a row: the columns of contact.csv, then our own.
func (r goldenRow) ownDesign() (Hip, Design) {
	h, d := r.design()
	h.CupPlane, h.PosturePlane = hip.Supine, hip.Standing
	h.Tilts = hip.Tilts{Supine: r.angle("cup_tilt"), Standing: r.angle("motion_tilt")}
	lip := func(name string) implant.Lip {
		return implant.Lip{Height: r.angle(name + "_h"), Centre: r.angle(name + "_c"), Plateau: r.angle(name + "_w"), Ramp: r.angle(name + "_r")}
	}
	d.Rim.Lips[1], d.Rim.Notch = lip("lip2"), lip("notch")
	d.Rim.Chamfer = implant.Chamfer{Width: r.number("chamfer_w"), Depth: r.number("chamfer_d")}
	d.Rim.Recess = implant.Recess{Width: r.number("recess_w"), Depth: r.number("recess_d")}
	d.Rim.Mobile = implant.Mobile{Head: r.number("mobile_d"), Arc: r.angle("mobile_arc")}
	if d.Rim.Mobile.Present() {
		d.Bearing = DualMobility
	}
	d.Neck.Oval.SuperiorShift, d.Neck.Oval.AnteriorShift = r.number("oval_sup"), r.number("oval_ant")
	d.Neck.Trapezoid = implant.Trapezoid{Width: r.number("trap_w"), Superior: r.number("trap_sup"), Inferior: r.number("trap_inf"),
		Corner: r.number("trap_corner"), Roll: r.angle("trap_roll")}
	d.Stem.Varus, d.Stem.SagittalTilt = r.angle("varus"), r.angle("sagittal")
	return h, d
}

// sweep is the row's motion, and where its moving angle starts, counted in the
// motion's direction.
func (r goldenRow) sweep() (m Movement, path motion.Path, from float64) {
	m = movements[r["motion"]]
	start := hip.Posture{Flexion: r.angle("flex"), Adduction: r.angle("add"), InternalRotation: r.angle("ir")}
	angle, sign := m.Joint()
	return m, m.Path(start, r.angle("end"), hip.Standing), (sign * start.Angle(angle)).Degrees()
}

// drawRow draws the inputs of a row of a category, rounded as they are written.
func drawRow(r *rand.Rand, category, features string) goldenRow {
	row := goldenRow{"category": category, "side": []string{"R", "L"}[r.IntN(2)]}
	in := func(column string, from, to float64) float64 {
		v := math.Round((from+(to-from)*r.Float64())*10) / 10
		row[column] = strconv.FormatFloat(v+0, 'f', -1, 64)
		return v
	}
	head := in("head_d", 26, 52)
	in("ri", 25, 60)
	in("ra", -10, 35)
	in("fa", -5, 35)
	in("ccd", 120, 145)
	in("arc", 155, 195)
	in("wall", 2, 8)
	neck := in("neck_d", 0.3*head, 0.7*head)
	lip := func(name string, ramp float64) {
		in(name+"_h", 4, 22)
		in(name+"_c", -180, 180)
		in(name+"_w", 5, 120)
		in(name+"_r", 0, ramp)
	}
	for _, f := range strings.Fields(features) {
		switch f {
		case "lip", "lip2", "notch":
			lip(f, 40)
		case "steep":
			lip("lip", 2)
			if r.IntN(2) == 0 {
				row["lip_r"] = "0"
			}
		case "steep2":
			lip("lip2", 2)
		case "steepnotch":
			lip("notch", 2)
		case "oval", "native":
			in("oval_a", neck, neck)
			neck = in("oval_b", 0.7*neck, 1.2*neck)
			in("oval_roll", -90, 90)
			if row["neck_d"] = ""; f == "native" {
				in("oval_sup", -0.2*neck, 0.2*neck)
				in("oval_ant", -0.25*neck, 0.2*neck)
			}
		case "trapezoid":
			in("trap_w", neck, neck)
			in("trap_sup", 0.5*neck, 0.9*neck)
			in("trap_inf", 0.6*neck, neck)
			in("trap_corner", 0, 0.15*neck)
			in("trap_roll", -60, 60)
			row["neck_d"] = ""
		case "taper":
			in("tap_d0", neck, neck)
			at := in("tap_s0", 0, 0.8*head)
			in("tap_s1", at+4, at+20)
			in("tap_d1", 0.7*neck, 1.4*neck)
			row["neck_d"] = ""
		case "skirt":
			in("skirt_d", 1.05*neck, 1.4*neck)
			in("skirt_l", 0.4*head, 0.7*head)
		case "inset":
			in("inset", -0.15*(head-neck), 0.15*(head-neck))
		case "chamfer":
			in("chamfer_w", 0.3, 1.5)
			in("chamfer_d", 0.3, 2)
		case "recess":
			in("recess_w", 0.3, 1.5)
			in("recess_d", 0.3, 2)
		case "dual":
			in("mobile_d", max(22, neck+4), max(26, min(36, head-6)))
			in("mobile_arc", 180, 230)
		case "tilt":
			in("varus", -10, 10)
			in("sagittal", -10, 10)
			in("cup_tilt", -30, 20)
			in("motion_tilt", -30, 20)
		}
	}
	row.drawMotion(r, in)
	return row
}

func (r goldenRow) drawMotion(x *rand.Rand, in func(string, float64, float64) float64) {
	words := []string{"flexion", "extension", "adduction", "abduction", "internal", "external"}
	r["motion"] = words[x.IntN(len(words))]
	if x.IntN(3) > 0 {
		in("flex", -20, 110)
		in("add", -30, 30)
		in("ir", -50, 50)
	}
	_, _, from := r.sweep()
	in("end", from+60, from+350)
}

// ownCategories say what rows there are, how many, and which of the random
// ones are taken.
var ownCategories = []struct {
	name     string
	count    int
	features []string
	take     func(s *ownSolids) bool
}{
	{"contact_free_contact", 9, []string{"lip", "steep steep2", "native", "notch lip", "oval lip", "taper lip"}, func(s *ownSolids) bool {
		return len(s.contacts) > 1 && s.contacts[0][0] > 1
	}},
	{"narrow", 9, []string{"lip", "steep", "steep steep2", "oval", "", "native lip"}, func(s *ownSolids) bool {
		long := s.narrow()
		return long > 0.2 && long < 2
	}},
	{"steep", 9, []string{"steep", "steep steep2", "steep steepnotch", "steep skirt", "steep oval", "steep trapezoid", "steep recess"}, func(s *ownSolids) bool {
		return s.stops() && len(s.contacts) > 0 && math.Abs(s.contacts[0][0]-s.bare()) > 1
	}},
	{"dual", 6, []string{"dual", "dual tilt"}, func(s *ownSolids) bool { return s.stops() && s.liner() > 0 && s.liner() < s.contacts[0][0] }},
	{"eccentric", 9, []string{"native", "native tilt", "native lip", "native inset", "native steep"}, (*ownSolids).stops},
	{"tilt", 8, []string{"tilt", "tilt lip", "tilt oval", "tilt trapezoid", "tilt taper chamfer"}, (*ownSolids).stops},
	{"clearance", 12, []string{"", "taper", "skirt", "lip", "steep", "oval", "native", "trapezoid", "recess", "chamfer lip", "inset notch", "taper lip"}, func(s *ownSolids) bool {
		c := s.clearance()
		return c > 0.3 && c < 12
	}},
}

// ownSolids is a row asked of the solids.
type ownSolids struct {
	h        Hip
	d        Design
	m        motion.Path
	path     *solidPath
	contacts [][2]float64
}

func (r goldenRow) solids() *ownSolids {
	s := &ownSolids{}
	s.h, s.d = r.ownDesign()
	_, s.m, _ = r.sweep()
	s.path = newSolidPath(newSolidHip(s.h, s.d), s.h, s.m)
	s.contacts = s.path.contacts()
	return s
}

func (s *ownSolids) stops() bool { return len(s.contacts) > 0 && s.contacts[0][0] > 1 }

// narrow is the length of the only contact if the motion starts and ends free.
func (s *ownSolids) narrow() float64 {
	if len(s.contacts) == 1 && s.contacts[0][0] > 1 && s.contacts[0][1] < s.path.end()-1 {
		return s.contacts[0][1] - s.contacts[0][0]
	}
	return 0
}

// tighten closes the cup round a motion that it does not stop, until it just
// does.
func (r goldenRow) tighten() {
	lo, hi := 150.0, 200.0
	for range 12 {
		mid := math.Round(500*(lo+hi)) / 1000
		r["arc"] = strconv.FormatFloat(mid, 'f', -1, 64)
		switch s := r.solids(); {
		case len(s.contacts) == 0:
			lo = mid
		case s.narrow() > 0.2 && s.narrow() < 2:
			return
		default:
			hi = mid
		}
	}
}

func (s *ownSolids) clearance() float64 {
	return s.path.hip.clearance(s.path.pose(0))
}

// bare is where the motion stops without lips and notch.
func (s *ownSolids) bare() float64 {
	d := s.d
	d.Rim.Lips, d.Rim.Notch = [2]implant.Lip{}, implant.Lip{}
	if c := newSolidPath(newSolidHip(s.h, d), s.h, s.m).contacts(); len(c) > 0 {
		return c[0][0]
	}
	return math.Inf(1)
}

// liner is where the neck first meets a mobile liner that starts coaxial with
// the cup: a cup of its own; below zero if it does not.
func (s *ownSolids) liner() float64 {
	d := s.d
	d.Rim = implant.Rim{HeadDiameter: d.Rim.Mobile.Head, Arc: d.Rim.Mobile.Arc, Wall: (d.Rim.HeadDiameter - d.Rim.Mobile.Head) / 2}
	if c := newSolidPath(newSolidHip(s.h, d), s.h, s.m).contacts(); len(c) > 0 {
		return c[0][0]
	}
	return -1
}

// answer writes what the solids say into the row.
func (r goldenRow) answer(s *ownSolids) {
	_, _, from := r.sweep()
	number := func(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }
	r["status"] = "none"
	var list []string
	for i, c := range s.contacts {
		if i == 0 && c[0] == 0 {
			r["status"] = "contact_at_start"
		} else if i == 0 {
			r["status"], r["limit_deg"] = "limit", number(from+c[0])
		}
		list = append(list, number(from+c[0])+":"+number(from+c[1]))
	}
	r["contact_intervals"] = strings.Join(list, ";")
	if s.d.Rim.Mobile.Present() {
		if at := s.liner(); at >= 0 {
			r["liner_deg"] = number(from + at)
		}
	}
	if r["category"] == "clearance" {
		r["clearance_mm"] = strconv.FormatFloat(s.clearance(), 'f', 5, 64)
	}
}

// writeOwn draws the rows anew.
func writeOwn(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 7))
	f, err := os.Create("../assets/golden/own.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := csv.NewWriter(f)
	columns := append(append([]string{}, ownInputs...), ownAnswers...)
	w.Write(columns)
	id := 0
	for _, c := range ownCategories {
		for k := 0; k < c.count; {
			row := drawRow(r, c.name, c.features[r.IntN(len(c.features))])
			if _, d := row.ownDesign(); !valid(d) {
				continue
			}
			if c.name == "narrow" {
				row.tighten()
			}
			s := row.solids()
			if !c.take(s) {
				continue
			}
			s.path.step = 1e-4
			s.contacts = s.path.contacts()
			k, id = k+1, id+1
			t.Log(id, c.name)
			row["id"] = fmt.Sprintf("W%03d", id)
			row.answer(s)
			line := make([]string, len(columns))
			for i, column := range columns {
				line[i] = row[column]
			}
			w.Write(line)
		}
	}
	if w.Flush(); w.Error() != nil {
		t.Fatal(w.Error())
	}
}

// How near a row must be met: its places in degrees, a distance in mm.
const (
	ownTolerance          = 1e-5
	ownClearanceTolerance = 1e-5
)

func TestEveryRowOfOurOwnIsMet(t *testing.T) {
	if *update {
		writeOwn(t)
	}
	rows := readGolden(t, "own.csv")
	if len(rows) < 40 {
		t.Errorf("%d rows, want at least 40", len(rows))
	}
	worst := map[string]float64{}
	for _, r := range rows {
		near := func(what string, got, want, tolerance float64) {
			worst[r["category"]] = math.Max(worst[r["category"]], math.Abs(got-want))
			if !(math.Abs(got-want) <= tolerance) {
				t.Errorf("%s (%s): %s %.6f, want %.6f ± %g", r["id"], r["category"], what, got, want, tolerance)
			}
		}
		h, d := r.ownDesign()
		m, path, _ := r.sweep()
		j := NewJoint(h, d)
		reading := func(at motion.Place) float64 { return m.Reading(path, at).Degrees() }
		l := j.Limit(path)
		if got := statusWords[l.Status]; got != r["status"] {
			t.Errorf("%s (%s): status %s, want %s", r["id"], r["category"], got, r["status"])
			continue
		}
		if l.Status == Stopped {
			near("limit", reading(l.At), r.number("limit_deg"), ownTolerance)
		}
		want := strings.FieldsFunc(r["contact_intervals"], func(c rune) bool { return c == ':' || c == ';' })
		if len(want) != 2*len(l.Intervals) {
			t.Errorf("%s (%s): %d contacts, want %s", r["id"], r["category"], len(l.Intervals), r["contact_intervals"])
			continue
		}
		for i, c := range l.Intervals {
			near("contact from", reading(c.From), parsed(t, want[2*i]), ownTolerance)
			near("contact to", reading(c.To), parsed(t, want[2*i+1]), ownTolerance)
		}
		if r["liner_deg"] != "" {
			ride := j.LinerRide(path, j.CupAxis())
			if !ride.Meets {
				t.Errorf("%s: the neck does not meet the liner, want it at %s", r["id"], r["liner_deg"])
			}
			near("liner met", reading(ride.At), r.number("liner_deg"), ownTolerance)
		}
		if r["clearance_mm"] != "" {
			near("clearance", j.contact(path.At(motion.Place{}), path.Zero).Clearance, r.number("clearance_mm"), ownClearanceTolerance)
		}
	}
	t.Logf("%d rows, largest difference per category, degrees or mm: %v", len(rows), worst)
}

func parsed(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
