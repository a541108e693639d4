package cohort

import (
	"bytes"
	"context"
	"encoding/csv"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"rimclear/app/present"
	"rimclear/kinematics"
)

// run answers a cohort in memory.
func run(t testing.TB, s Settings, in string) (out string, tally Tally, faults []Fault) {
	t.Helper()
	var b bytes.Buffer
	tally, err := Run(context.Background(), s, strings.NewReader(in), &b, Report{Fault: func(f Fault) { faults = append(faults, f) }})
	if err != nil {
		t.Fatalf("a run of %d bytes: %v", len(in), err)
	}
	return b.String(), tally, faults
}

func settings() Settings { return Settings{Base: kinematics.Default(), Workers: 2} }

// rows reads results of CSV by the names of their columns.
func rows(t testing.TB, out string) []map[string]string {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	if err != nil || len(lines) == 0 {
		t.Fatalf("no table: %v\n%.500s", err, out)
	}
	var list []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		list = append(list, row)
	}
	return list
}

// varied are parameters that a random case sets, with how far it goes.
var varied = []struct {
	key      string
	min, max float64
}{
	{"cup_inclination_deg", 20, 70}, {"cup_anteversion_deg", -20, 50}, {"stem_anteversion_deg", -10, 45},
	{"neck_shaft_deg", 115, 150}, {"stem_varus_deg", -8, 8}, {"stem_sagittal_tilt_deg", -8, 8},
	{"tilt_standing_deg", -20, 20}, {"tilt_supine_deg", -20, 20}, {"given_adduction_deg", -20, 20},
	{"head_diameter_mm", 28, 48}, {"neck_diameter_mm", 9, 22}, {"cup_arc_deg", 150, 190},
}

// random returns a case by key and value.
func random(r *rand.Rand, lip, oval, sharp bool) map[string]float64 {
	v := map[string]float64{}
	for _, p := range varied {
		v[p.key] = p.min + (p.max-p.min)*r.Float64()
	}
	v["posture_plane"], v["cup_plane"] = float64(r.IntN(5)), float64(r.IntN(5))
	v["side"], v["cup_definition"] = float64(r.IntN(2)), float64(r.IntN(3))
	if lip {
		v["lip_height_deg"], v["lip_centre_deg"] = 3+12*r.Float64(), -180+360*r.Float64()
		v["lip_plateau_deg"], v["lip_ramp_deg"] = 20+100*r.Float64(), 60*r.Float64()
	}
	if oval {
		v["neck_diameter_mm"] = 0
		v["oval_width_mm"], v["oval_depth_mm"], v["oval_roll_deg"] = 10+8*r.Float64(), 9+5*r.Float64(), -40+80*r.Float64()
	}
	if sharp { // corners and the edges of a notch are what samples see least well
		v["neck_diameter_mm"] = 0
		v["trapezoid_width_mm"], v["trapezoid_superior_mm"], v["trapezoid_inferior_mm"] = 11+5*r.Float64(), 9+4*r.Float64(), 6+3*r.Float64()
		v["trapezoid_roll_deg"] = -40 + 80*r.Float64()
		v["notch_depth_deg"], v["notch_centre_deg"] = 3+9*r.Float64(), -180+360*r.Float64()
		v["notch_plateau_deg"] = 20 + 60*r.Float64()
	}
	return v
}

// table writes cases as CSV and returns them as kinematics has them.
func cohortOf(list []map[string]float64) (string, []kinematics.Case) {
	var keys []string
	for i := range kinematics.Parameters {
		for _, v := range list {
			if _, ok := v[kinematics.Parameters[i].Key]; ok {
				keys = append(keys, kinematics.Parameters[i].Key)
				break
			}
		}
	}
	text := strings.Join(keys, ",") + "\n"
	var cases []kinematics.Case
	for _, v := range list {
		c := kinematics.Default()
		for i, key := range keys {
			if i > 0 {
				text += ","
			}
			x, ok := v[key]
			if !ok {
				continue
			}
			p := kinematics.ParameterByKey(key)
			if p.Kind == kinematics.Choice {
				text += p.Choices[int(x)]
			} else {
				text += strconv.FormatFloat(x, 'g', -1, 64)
			}
			c = p.Set(c, 0, x)
		}
		text += "\n"
		cases = append(cases, c)
	}
	return text, cases
}

// agree compares results with kinematics' own answers and returns the greatest
// difference in degrees.
func agree(t *testing.T, got []map[string]string, cases []kinematics.Case) float64 {
	t.Helper()
	worst, counted := 0.0, map[string]int{}
	for i, c := range cases {
		if len(kinematics.Validate(&c)) > 0 {
			if got[i]["status"] != refused {
				t.Errorf("case %d is %s, want a fault: %+v", i, got[i]["status"], kinematics.Validate(&c))
			}
			counted[refused]++
			continue
		}
		if got[i]["status"] != answered {
			t.Errorf("case %d: %s %s: %s", i, got[i]["fault_field"], got[i]["fault_value"], got[i]["fault_reason"])
			continue
		}
		for _, a := range kinematics.NewJoint(c.Hip, c.Designs[0]).Answers(c.Hip) {
			key := a.Question.Key
			want := present.StatusKey(a)
			counted[want]++
			if s := got[i]["status_"+key]; s != want {
				t.Errorf("case %d: %s is %q, want %q at %.6f°", i, key, s, want, a.Reading.Degrees())
				continue
			}
			if want != "limit" {
				continue
			}
			x, err := strconv.ParseFloat(got[i]["limit_"+key+"_deg"], 64)
			off := math.Abs(x - a.Reading.Degrees())
			if err != nil || off > 2e-5 {
				t.Errorf("case %d: %s = %q, want %.6f°", i, key, got[i]["limit_"+key+"_deg"], a.Reading.Degrees())
			}
			worst = math.Max(worst, off)
		}
	}
	t.Logf("%d cases, answers %v, largest difference %.1e°", len(cases), counted, worst)
	return worst
}

func TestACohortAnswersAsASingleCaseDoes(t *testing.T) {
	for _, tt := range []struct {
		name             string
		lip, oval, sharp bool
		count            int
	}{
		{"round", false, false, false, 400}, {"lipped", true, false, false, 30}, {"oval", false, true, false, 8},
		{"lipped and oval", true, true, false, 6}, {"lipped and sharp in a notch", true, false, true, 6},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := rand.New(rand.NewPCG(21, uint64(tt.count)))
			var list []map[string]float64
			for range tt.count {
				list = append(list, random(r, tt.lip, tt.oval, tt.sharp))
			}
			text, cases := cohortOf(list)
			out, tally, _ := run(t, settings(), text)
			if tally.Answered != tt.count {
				t.Errorf("%d answered, want %d", tally.Answered, tt.count)
			}
			agree(t, rows(t, out), cases)
		})
	}
}

func TestAShortHeaderTakesTheUsualHip(t *testing.T) {
	out, _, _ := run(t, settings(), "id\nusual\n")
	c := kinematics.Default()
	got := rows(t, out)
	agree(t, got, []kinematics.Case{c})
	if got[0]["id"] != "usual" || got[0]["line"] != "2" {
		t.Errorf("id %q, line %q", got[0]["id"], got[0]["line"])
	}
	theta, _ := kinematics.NewJoint(c.Hip, c.Designs[0]).Aperture.Theta()
	if want := fmt.Sprintf("%.5f", 2*theta.Degrees()); got[0]["oscillation_deg"] != want {
		t.Errorf("oscillation %s, want %s", got[0]["oscillation_deg"], want)
	}
}
