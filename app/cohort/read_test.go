package cohort

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"rimclear/app/casefile"
	"rimclear/kinematics"
	_ "rimclear/kinematics/seeded"
)

// TestWhatIsTakenForPlainIsWithoutFaults gives random values to some of the
// parameters, each within its range.
func TestWhatIsTakenForPlainIsWithoutFaults(t *testing.T) {
	s := settings()
	s.Base.Count = 3
	s.Base.Designs[2].Bearing, s.Base.Designs[2].Rim.HeadDiameter = kinematics.Resurfacing, 48
	s.Base.Designs[2].Rim.Arc = kinematics.UsualArc(48)
	all, plain := s.everyColumn(), 0
	rapid.Check(t, func(t *rapid.T) {
		given := &table{byName: map[string]int{}}
		for _, i := range rapid.SliceOfNDistinct(rapid.IntRange(0, len(all.columns)-1), 0, 6, rapid.ID).Draw(t, "columns") {
			given.add(all.columns[i])
		}
		given.arrange()
		s.Format = Format(rapid.IntRange(int(CSV), int(NDJSON)).Draw(t, "format"))
		w := newWorker(&s, given, dialect{',', '.'})
		w.seen++
		w.c = s.Base
		for _, i := range given.order {
			p, v := given.columns[i].p, 0.0
			if p.Kind == kinematics.Choice {
				v = float64(rapid.IntRange(0, len(p.Choices)-1).Draw(t, p.Key))
			} else {
				v = p.Min + (p.Max-p.Min)*rapid.Float64Range(0, 1).Draw(t, p.Key)
			}
			w.number(i, v, nil)
		}
		if w.set(); w.fault != nil || !w.plain() {
			return
		}
		plain++
		if faults := kinematics.Validate(&w.c); len(faults) > 0 {
			t.Fatalf("a plain case is at fault: %+v", faults)
		}
	})
	if plain == 0 {
		t.Error("nothing was plain")
	}
}

func TestNumbersAreReadAsTheyAreWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.Float64Range(-1e6, 1e6).Draw(t, "x")
		for _, form := range []struct {
			verb      byte
			precision int
		}{{'f', -1}, {'g', -1}, {'e', -1}, {'f', 3}} {
			text := strconv.FormatFloat(x, form.verb, form.precision, 64)
			want, _ := strconv.ParseFloat(text, 64)
			for _, mark := range []byte{'.', ','} {
				got, ok := parse([]byte(strings.Replace(text, ".", string(mark), 1)), mark)
				if !ok || got != want {
					t.Fatalf("%s with %c is read as %v, %v", text, mark, got, ok)
				}
			}
		}
		if got := string(appendFixed(nil, x)); got != strconv.FormatFloat(x, 'f', 5, 64) {
			if v, _ := strconv.ParseFloat(got, 64); math.Abs(v-x) > 0.5e-5+4e-16*math.Abs(x) {
				t.Fatalf("%v is written as %s", x, got)
			}
		}
	})
	for _, text := range []string{"", "-", ".", "inf", "NaN", "0x10", "1_0", "1.2.3", "--1", "1e", "e1", "1e999", "1,5", "١", "1 2"} {
		if v, ok := parse([]byte(text), '.'); ok {
			t.Errorf("%q is read as %v", text, v)
		}
	}
	for x, want := range map[float64]string{0: "0.00000", -1e-9: "0.00000", -0.000012: "-0.00001", 12.3456789: "12.34568", 180: "180.00000"} {
		if got := string(appendFixed(nil, x)); got != want {
			t.Errorf("%v is written as %s, want %s", x, got, want)
		}
	}
}

const oneHeader = "id,head_diameter_mm,neck_diameter_mm,cup_inclination_deg\n"

func TestFaultsNameFieldValueAndReason(t *testing.T) {
	for _, tt := range []struct{ row, field, value, reason string }{
		{"x,forty,12,40", "head_diameter_mm", "forty", "must be a number, 18 mm to 70 mm"},
		{"x,80,12,40", "head_diameter_mm", "80", "18 mm to 70 mm"},
		{"x,32,12,NaN", "cup_inclination_deg", "NaN", "must be a number"},
		{"x,32,12,\"40,5\"", "cup_inclination_deg", "40,5", "decimal point"},
		{"x,32,12,40,5", "", "", "5 cells where the header has 4"},
		{"x,32,12", "", "", "3 cells where the header has 4"},
		{"x,32,40,40", "neck_diameter_mm", "40", "narrower than the head"},
		{"x,32,\"12,40", "", "", "not closed on its line"},
		{"x,3\"2,12,40", "", "", "must be doubled"},
		{"x,\"32\"2,12,40", "", "", "between a closing quotation mark"},
	} {
		out, tally, faults := run(t, settings(), oneHeader+"a,32,12,40\n"+tt.row+"\nb,32,12,40\n")
		got := rows(t, out)
		if tally.Answered != 3 || tally.Faults != 1 || len(faults) != 1 || len(got) != 3 {
			t.Errorf("%s: %+v, %d faults told", tt.row, tally, len(faults))
			continue
		}
		f, r := faults[0], got[1]
		if f.Line != 3 || f.Field != tt.field || f.Value != tt.value || !strings.Contains(f.Reason, tt.reason) {
			t.Errorf("%s: told %v", tt.row, &f)
		}
		if r["status"] != refused || r["line"] != "3" || r["fault_field"] != f.Field || r["fault_value"] != f.Value || r["fault_reason"] != f.Reason || r["limit_flexion_deg"] != "" {
			t.Errorf("%s: the result is %v", tt.row, r)
		}
		if got[0]["limit_flexion_deg"] == "" || got[0]["limit_flexion_deg"] != got[2]["limit_flexion_deg"] || got[2]["status"] != answered {
			t.Errorf("%s: the other lines are %v and %v", tt.row, got[0], got[2])
		}
	}
}

func TestStoppingAtAFaultWritesWhatStandsBefore(t *testing.T) {
	s := settings()
	s.StopAtFault = true
	var in strings.Builder
	in.WriteString(oneHeader)
	for i := range 500 {
		if i == 200 || i == 300 {
			in.WriteString("bad,x,12,40\n")
			continue
		}
		fmt.Fprintf(&in, "%d,32,12,40\n", i)
	}
	out, tally, faults := run(t, s, in.String())
	if !tally.Stopped || tally.Answered != 200 || len(faults) != 1 || faults[0].Line != 202 || strings.Count(out, "\n") != 201 {
		t.Errorf("%+v, faults %v, %d lines", tally, faults, strings.Count(out, "\n"))
	}
}

func TestFilesOfWindowsAndSpreadsheetsAreRead(t *testing.T) {
	plain := "id,head_diameter_mm,cup_inclination_deg\nx,32,40.5\ny,36,42\n"
	want, _, _ := run(t, settings(), plain)
	for name, in := range map[string]string{
		"mark and carriage returns": "\xef\xbb\xbf" + strings.ReplaceAll(plain, "\n", "\r\n"),
		"semicolons, decimal comma": "id;head_diameter_mm;cup_inclination_deg\r\nx;32;40,5\r\ny;36;42\r\n",
		"semicolons, decimal point": "id;head_diameter_mm;cup_inclination_deg\r\nx;32;40.5\r\ny;36;42\r\n",
		"tabs":                      strings.ReplaceAll(plain, ",", "\t"),
		"quotation marks":           "\"id\",\"Head_Diameter_mm\" , \"cup_inclination_deg\"\n\"x\", \"32\" ,\"40.5\"\ny,36,42",
		"spaces":                    " id , head_diameter_mm,cup_inclination_deg\n x , 32 , 40.5 \ny,36,42\n",
	} {
		if got, tally, _ := run(t, settings(), in); got != want {
			t.Errorf("%s: %+v\n%.300s\nwant\n%.300s", name, tally, got, want)
		}
	}
	// The line that one spreadsheet program puts first counts as a line.
	got, _, _ := run(t, settings(), "sep=;\nid;head_diameter_mm;cup_inclination_deg\nx;32;40,5\ny;36;42\n")
	if r := rows(t, got); r[0]["line"] != "3" || r[0]["limit_flexion_deg"] != rows(t, want)[0]["limit_flexion_deg"] {
		t.Errorf("after sep=: %v", r[0])
	}
}

func TestInputsThatAreNoCohortAreRefusedAsAWhole(t *testing.T) {
	for _, tt := range []struct{ name, in, want string }{
		{"empty", "", "empty"},
		{"utf-16", "\xff\xfei\x00d\x00", "UTF-16"},
		{"zero bytes", "i\x00d\n1\n", "zero bytes"},
		{"old carriage returns", "id,head_diameter_mm\rx,32\r", "line feed"},
		{"misspelt", "id,head_diamter_mm\nx,32\n", "head_diameter_mm?"},
		{"twice", "id,side,side\n", "stands twice"},
		{"nameless", "id,,side\n", "no name"},
		{"design", "B.head_diameter_mm\n1\n", "--designs"},
		{"case's own", "A.side\n1\n", "belongs to the case"},
		{"long line", oneHeader + strings.Repeat("9", mostLine+10), "longer than"},
	} {
		var out bytes.Buffer
		_, err := Run(context.Background(), settings(), strings.NewReader(tt.in), &out, Report{})
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q", tt.name, err, tt.want)
		}
		if tt.name != "long line" && (!errors.Is(err, ErrInput) || out.Len() > 0) {
			t.Errorf("%s: %v, %d bytes written", tt.name, err, out.Len())
		}
	}
}

func TestSettingsThatCannotBeAreRefused(t *testing.T) {
	for _, tt := range []struct {
		change func(*Settings)
		want   string
	}{
		{func(s *Settings) { s.Workers = 0 }, "workers"},
		{func(s *Settings) { s.Shard, s.Shards = 4, 3 }, "shard 4/3"},
		{func(s *Settings) { s.Carry = []string{"status"} }, "status"},
		{func(s *Settings) { s.Carry = []string{"a,b"} }, "plain name"},
		{func(s *Settings) { s.Criteria = "nonsense" }, "nonsense"},
		{func(s *Settings) { s.Motions = []string{"posterior_test"} }, "posterior_test"},
		{func(s *Settings) { s.Target = true }, "target"},
		{func(s *Settings) { s.Base.Designs[0].Neck.Diameter = 50 }, "neck_diameter_mm"},
	} {
		s := settings()
		tt.change(&s)
		if err := s.Check(); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v, want %q", err, tt.want)
		}
	}
}

func TestNDJSONAnswersAsCSVDoes(t *testing.T) {
	text := sample(50, false)
	csvOut, _, _ := run(t, settings(), text)
	s := settings()
	s.Format = NDJSON
	out, tally, _ := run(t, s, objects(text))
	if tally.Faults > 0 {
		t.Fatalf("%+v", tally)
	}
	want := rows(t, csvOut)
	for i, line := range strings.Split(strings.TrimSpace(out), "\n") {
		var got map[string]any
		if err := json.Unmarshal([]byte(line), &got); err != nil {
			t.Fatalf("%v: %s", err, line)
		}
		if len(got) != len(want[i]) {
			t.Fatalf("%d fields, want %d", len(got), len(want[i]))
		}
		for key, w := range want[i] {
			g := ""
			switch v := got[key].(type) {
			case string:
				g = v
			case float64:
				g = fmt.Sprintf("%.5f", v)
			}
			if key != "line" && g != w {
				t.Errorf("case %d: %s is %q, want %q", i, key, g, w)
			}
		}
	}
}

func TestLinesOfNDJSONAtFault(t *testing.T) {
	for _, tt := range []struct{ line, field, reason string }{
		{`[1]`, "", "must be an object"},
		{`{"head_diameter_mm":32`, "", "must be JSON"},
		{`{"head_diameter_mm" 32}`, "", "must be JSON"},
		{`{"head_diameter_mm":"32"}`, "head_diameter_mm", "must be a number"},
		{`{"head_diameter_mm":true}`, "head_diameter_mm", "must be a number"},
		{`{"head_diameter_mm":032}`, "head_diameter_mm", "must be a number, a text or null"},
		{`{"side":1}`, "side", "must be one of right, left"},
		{`{"head_diameter_mm":32,"head_diameter_mm":36}`, "head_diameter_mm", "stands twice"},
		{`{"head_size":32}`, "head_size", "no parameter"},
		{`{"neck_diameter_mm":{}}`, "neck_diameter_mm", "must be a number, a text or null"},
		{`{"side":"left"} {}`, "", "after the end"},
		{`{"format":"rimclear-case","version":999}`, "version", "later version"},
		{`{"cup_definition":"operative","cup_inclination_deg":40}`, "cup_anteversion_deg", "must be given"},
	} {
		s := settings()
		s.Format = NDJSON
		out, tally, faults := run(t, s, `{"side":"left"}`+"\n\n"+tt.line+"\r\n"+`{"id":"z"}`)
		if tally.Answered != 3 || len(faults) != 1 || faults[0].Line != 3 || faults[0].Field != tt.field || !strings.Contains(faults[0].Reason, tt.reason) {
			t.Errorf("%s: %+v, told %v", tt.line, tally, faults)
		}
		for _, line := range strings.Split(strings.TrimSpace(out), "\n") {
			if !json.Valid([]byte(line)) {
				t.Errorf("%s: the result is no JSON: %s", tt.line, line)
			}
		}
	}
}

func TestALineMayBeAWholeCaseFile(t *testing.T) {
	c := kinematics.Default()
	c.Designs[0].Rim.HeadDiameter = 40
	c.Hip.Tilts.Standing = 0.1
	data, err := casefile.Encode(casefile.File{Case: c})
	if err != nil {
		t.Fatal(err)
	}
	var line bytes.Buffer
	if err := json.Compact(&line, data); err != nil {
		t.Fatal(err)
	}
	s := settings()
	s.Format = NDJSON
	out, _, _ := run(t, s, strings.TrimSuffix(line.String(), "}")+`,"id":"file"}`+"\n")
	var got struct {
		ID      string
		Flexion float64 `json:"limit_flexion_deg"`
	}
	if err := json.Unmarshal([]byte(out), &got); err != nil {
		t.Fatal(err)
	}
	want := kinematics.NewJoint(c.Hip, c.Designs[0]).Answers(c.Hip)[0].Reading.Degrees()
	if got.ID != "file" || math.Abs(got.Flexion-want) > 1e-5 {
		t.Errorf("%s answers %+v, want flexion %.5f", line.String(), got, want)
	}
}

func TestSeveralDesignsAreAnsweredSideBySide(t *testing.T) {
	s := settings()
	s.Base.Count = 2
	s.Criteria = "ordinary"
	out, _, _ := run(t, s, "id,head_diameter_mm,B.head_diameter_mm,neck_diameter_mm\nx,28,40,12\ny,28,,12\n")
	got := rows(t, out)
	one, _, _ := run(t, settings(), "head_diameter_mm\n28\n40\n")
	want := rows(t, one)
	if got[0]["A.limit_flexion_deg"] != want[0]["limit_flexion_deg"] || got[0]["B.limit_flexion_deg"] != want[1]["limit_flexion_deg"] {
		t.Errorf("A %s, B %s, want %s and %s", got[0]["A.limit_flexion_deg"], got[0]["B.limit_flexion_deg"], want[0]["limit_flexion_deg"], want[1]["limit_flexion_deg"])
	}
	if got[1]["A.limit_flexion_deg"] != got[1]["B.limit_flexion_deg"] || got[1]["B.serves"] == "" {
		t.Errorf("an empty cell of B: %v", got[1])
	}
}

func TestCarriedTextComesThroughHarmless(t *testing.T) {
	s := settings()
	s.Carry = []string{"note"}
	s.Harmless = func(text string) string {
		if text[0] == '=' {
			return "'" + text
		}
		return text
	}
	out, _, _ := run(t, s, "id,note\n=1+1,\"a \"\"b\"\", c\"\nx,=cmd\n,-5\n")
	got := rows(t, out)
	for i, want := range [][2]string{{"'=1+1", `a "b", c`}, {"x", "'=cmd"}, {"", "-5"}} {
		if got[i]["id"] != want[0] || got[i]["note"] != want[1] {
			t.Errorf("%q, %q, want %q", got[i]["id"], got[i]["note"], want)
		}
	}
}

func TestVerdictsAndTargetsAreThoseOfASingleCase(t *testing.T) {
	s := settings()
	s.Criteria, s.Motions, s.Target = "severe", []string{"low_chair", "stride_behind"}, true
	in := "cup_inclination_deg,cup_anteversion_deg,tilt_standing_deg,lip_height_deg,lip_plateau_deg,lip_ramp_deg\n45,20,5,,,\n40,0,-10,,,\n50,10,0,10,60,20\n"
	out, _, _ := run(t, s, in)
	_, cases := cohortOf([]map[string]float64{
		{"cup_inclination_deg": 45, "cup_anteversion_deg": 20, "tilt_standing_deg": 5},
		{"cup_inclination_deg": 40, "cup_anteversion_deg": 0, "tilt_standing_deg": -10},
		{"cup_inclination_deg": 50, "cup_anteversion_deg": 10, "tilt_standing_deg": 0, "lip_height_deg": 10, "lip_plateau_deg": 60, "lip_ramp_deg": 20},
	})
	for i, got := range rows(t, out) {
		c := cases[i]
		w := newWorker(&s, s.everyColumn(), dialect{',', '.'})
		list, _ := s.required(w.motions, &c)
		j := kinematics.NewJoint(c.Hip, c.Designs[0])
		v := j.Judge(list, c.Goal.Closeness)
		serves := map[bool]string{true: "yes", false: "no"}[v.Serves()]
		if got["serves"] != serves || got["least_motion"] != w.out.keys[v.First] {
			t.Errorf("case %d: serves %s by %s, want %s by %s", i, got["serves"], got["least_motion"], serves, w.out.keys[v.First])
		}
		for k, o := range v.Outcomes {
			key := w.out.keys[k]
			x, _ := strconv.ParseFloat(got["margin_"+key+"_deg"], 64)
			if got["verdict_"+key] != o.Standing.Key() || math.Abs(x-o.Least.Margin.Degrees()) > 1e-5 {
				t.Errorf("case %d: %s %s %v, want %s %v", i, key, got["verdict_"+key], x, o.Standing.Key(), o.Least.Margin.Degrees())
			}
		}
		target, _ := kinematics.FindTarget(context.Background(), kinematics.Search{Hip: c.Hip, Design: c.Designs[0], Required: list, Bounds: c.Goal.Bounds(c.Hip, c.Designs[0])})
		x, _ := strconv.ParseFloat(got["target_margin_deg"], 64)
		if math.Abs(x-target.Constrained.Margin.Degrees()) > 1e-5 || (got["target"] == targetServes) != target.Serves() {
			t.Errorf("case %d: target %s %v, want %v", i, got["target"], x, target.Constrained.Margin.Degrees())
		}
	}
}
