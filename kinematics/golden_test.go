package kinematics

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// goldenRow is a row of assets/golden/contact.csv: limits found by two
// independent references (mesh collision and exact surfaces); the columns are
// described in contact.md beside it.
type goldenRow map[string]string

func (r goldenRow) number(column string) float64 {
	if r[column] == "" {
		return 0
	}
	x, err := strconv.ParseFloat(r[column], 64)
	if err != nil {
		panic(column + ": " + err.Error())
	}
	return x
}

func (r goldenRow) angle(column string) unit.Angle { return unit.Angle(r.number(column)) * unit.Degree }

func readGolden(t testing.TB, name string) []goldenRow {
	t.Helper()
	table, err := assets.Golden(name)
	if err != nil {
		t.Fatal(err)
	}
	rows := make([]goldenRow, len(table))
	for i, r := range table {
		rows[i] = goldenRow(r)
	}
	return rows
}

func (r goldenRow) design() (Hip, Design) {
	h := Hip{Side: hip.Right}
	if r["side"] == "L" {
		h.Side = hip.Left
	}
	return h, Design{
		Rim: implant.Rim{
			HeadDiameter: r.number("head_d"), Arc: r.angle("arc"), Wall: r.number("wall"), Inset: r.number("inset"),
			Lips: [2]implant.Lip{{Height: r.angle("lip_h"), Centre: r.angle("lip_c"), Plateau: r.angle("lip_w"), Ramp: r.angle("lip_r")}},
		},
		Neck: implant.Neck{
			Diameter: r.number("neck_d"),
			Taper: implant.Taper{StartDiameter: r.number("tap_d0"), Start: r.number("tap_s0"),
				EndDiameter: r.number("tap_d1"), End: r.number("tap_s1")},
			Oval:  implant.Oval{Width: r.number("oval_a"), Depth: r.number("oval_b"), Roll: r.angle("oval_roll")},
			Skirt: implant.Skirt{Diameter: r.number("skirt_d"), Length: r.number("skirt_l")},
		},
		Cup:  Cup{Inclination: r.angle("ri"), Anteversion: r.angle("ra")},
		Stem: hip.Stem{Anteversion: r.angle("fa"), NeckShaft: r.angle("ccd")},
	}
}

var movements = map[string]Movement{
	"flexion": FlexionMovement, "extension": Extension, "adduction": AdductionMovement,
	"abduction": Abduction, "internal": Internal, "external": External,
}

// statusWords are the status words of the golden set.
var statusWords = map[Status]string{Stopped: "limit", Free: "none", StartsInContact: "contact_at_start"}

func TestEveryGoldenContactIsFoundWithinItsTolerance(t *testing.T) {
	worst := map[string]float64{}
	for _, r := range readGolden(t, "contact.csv") {
		h, d := r.design()
		j := NewJoint(h, d)
		m := movements[r["motion"]]
		start := hip.Posture{Flexion: r.angle("flex"), Adduction: r.angle("add"), InternalRotation: r.angle("ir")}
		path := m.Path(start, r.angle("end"), hip.APP)
		for name, l := range map[string]Limit{"closed": j.Limit(path), "searched": j.SearchedLimit(path)} {
			if got := statusWords[l.Status]; got != r["status"] {
				t.Errorf("%s (%s, %s): status %s, want %s", r["id"], r["category"], name, got, r["status"])
				continue
			}
			if l.Status == Stopped {
				diff := math.Abs(m.Reading(path, l.At).Degrees() - r.number("limit_deg"))
				worst[r["category"]] = math.Max(worst[r["category"]], diff)
				if diff > r.number("tol_deg") {
					t.Errorf("%s (%s, %s): limit %.5f°, want %s ± %s", r["id"], r["category"], name,
						m.Reading(path, l.At).Degrees(), r["limit_deg"], r["tol_deg"])
				}
				if want := r["contact_clock_deg"]; want != "" && r["category"] != "oval" {
					if off := (l.Contact.Azimuth - r.angle("contact_clock_deg")).Wrapped().Abs().Degrees(); off > 1 {
						t.Errorf("%s (%s, %s): contact at azimuth %.2f°, want %s ± 1", r["id"], r["category"], name,
							l.Contact.Azimuth.Degrees(), want)
					}
				}
			}
			want := strings.Split(r["contact_intervals"], ";")
			if r["contact_intervals"] == "" {
				want = nil
			}
			if len(want) != len(l.Intervals) {
				t.Errorf("%s (%s, %s): %d contact intervals, want %s", r["id"], r["category"], name, len(l.Intervals), r["contact_intervals"])
				continue
			}
			for i, w := range want {
				from, to, _ := strings.Cut(w, ":")
				for k, bound := range []string{from, to} {
					at := l.Intervals[i].From
					if k == 1 {
						at = l.Intervals[i].To
					}
					x, _ := strconv.ParseFloat(bound, 64)
					if got := m.Reading(path, at).Degrees(); math.Abs(got-x) > math.Max(0.05, r.number("tol_deg")) {
						t.Errorf("%s (%s, %s): interval bound %.3f°, want %s", r["id"], r["category"], name, got, w)
					}
				}
			}
		}
	}
	t.Logf("largest difference per category in degrees: %v", worst)
}
