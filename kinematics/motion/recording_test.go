package motion

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

const invented = "../../testdata/recordings/"

func openTable(t testing.TB, path string) Table {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := ReadTable(f)
	if err != nil {
		t.Fatalf("%s: %v", path, err)
	}
	return table
}

func TestAPlainTableIsReadWithoutHelp(t *testing.T) {
	table := openTable(t, invented+"invented_walk.csv")
	g := table.Guess(hip.Right)
	if !g.Complete || !g.UnitStated || g.Unit != InDegrees || g.Time.Unit != InSeconds {
		t.Errorf("guess %+v", g)
	}
	r, err := table.Recording(g.Mapping)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Times) != 111 || math.Abs(r.Duration()-2.2) > 1e-9 {
		t.Errorf("%d samples over %g s", len(r.Times), r.Duration())
	}
	if want := posture(21.32, -0.76, -6.92); !near(r.Postures[0], want) {
		t.Errorf("first posture %v, want %v", r.Postures[0], want)
	}
	if r.Zero.Converted() {
		t.Error("a recording's own zero counts as converted")
	}
}

// chair is what the invented chair needs declared.
func chair() Mapping {
	return Mapping{
		Time: TimeColumn{Column: "Zeit (ms)", Unit: InMilliseconds},
		Unit: InRadians,
		Channels: [3]Channel{
			{Column: "Hüfte: Flexion re (rad)"},
			{Column: "Abduktion", Negative: true},
			{Column: "Außenrotation", Negative: true},
		},
	}
}

func TestSemicolonsDecimalCommasRadiansAndTurnedSignsAreRead(t *testing.T) {
	table := openTable(t, invented+"invented_chair.csv")
	if table.Between != ';' || !table.Comma || len(table.Rows) != 241 || table.Lines[0] != 2 {
		t.Errorf("between %q, comma %v, %d rows from line %d", table.Between, table.Comma, len(table.Rows), table.Lines[0])
	}
	r, err := table.Recording(chair())
	if err != nil {
		t.Fatal(err)
	}
	first := r.Postures[0]
	for what, pair := range map[string][2]float64{
		"flexion":   {first.Flexion.Degrees(), 84},
		"adduction": {first.Adduction.Degrees(), -14},
		"rotation":  {first.InternalRotation.Degrees(), 7},
		"duration":  {r.Duration(), 4.8},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-3 {
			t.Errorf("%s = %g, want %g", what, pair[0], pair[1])
		}
	}
	if _, peak := r.Peak(hip.Flexion); !(peak > 90*unit.Degree && peak < 115*unit.Degree) {
		t.Errorf("peak flexion %g°", peak.Degrees())
	}
}

// walk is a small table in one of many layouts.
func walk(between, point, end, heading string) string {
	var b strings.Builder
	b.WriteString(heading + end)
	for i := range 5 {
		row := []string{fmt.Sprintf("%.2f", float64(i)/10), fmt.Sprintf("%.1f", 20-float64(i)), fmt.Sprintf("%.1f", -1.5+float64(i)), "3.5"}
		b.WriteString(strings.ReplaceAll(strings.Join(row, between), ".", point) + end)
	}
	return b.String()
}

func TestEveryCommonLayoutGivesTheSameRecording(t *testing.T) {
	names := func(between string) string {
		return strings.Join([]string{"time", "hip_flexion_r", "hip_adduction_r", "hip_rotation_r"}, between)
	}
	var want Recording
	for i, file := range []string{
		walk(",", ".", "\n", names(",")),
		"\ufeff" + walk(";", ",", "\r\n", names(";")),
		walk("\t", ",", "\r", names("\t")),
		walk("\t", ".", "\n", "Coordinates\nversion=1\nnRows=5\ninDegrees=yes\nendheader\n"+names("\t")),
		walk("   ", ".", "\n", "  "+names("  ")),
		walk(";", ".", "\n\n", `"time";"hip_flexion_r";"hip_adduction_r";"hip_rotation_r"`),
		walk(",", ".", "\n", "# two lines of remarks,\n# and headings\n#"+names(",")),
	} {
		table, err := ReadTable(strings.NewReader(file))
		if err != nil {
			t.Errorf("layout %d: %v", i, err)
			continue
		}
		g := table.Guess(hip.Right)
		r, err := table.Recording(g.Mapping)
		if err != nil || !g.Complete {
			t.Errorf("layout %d: complete %v, %v", i, g.Complete, err)
			continue
		}
		if i == 0 {
			want = r
			if len(r.Times) != 5 || math.Abs(r.Postures[4].Flexion.Degrees()-16) > 1e-9 {
				t.Fatalf("recording %+v", r)
			}
			continue
		}
		if fmt.Sprint(r) != fmt.Sprint(want) {
			t.Errorf("layout %d gives\n%v, want\n%v", i, r, want)
		}
	}
}

func TestHeadingsTellJointSideAndDirection(t *testing.T) {
	for name, want := range map[string]heading{
		"hip_flexion_l_deg":      {joint: 0, hip: true, sided: true, side: hip.Left},
		"Right Hip Ext Rot (°)":  {joint: 2, negative: true, hip: true, sided: true},
		"hip abduction":          {joint: 1, negative: true, hip: true},
		"R_HIP_EXTENSION":        {joint: 0, negative: true, hip: true, sided: true},
		"knee_flexion_r":         {joint: 0, elsewhere: true, sided: true},
		"pelvis_list_deg":        {joint: -1, elsewhere: true},
		"Internal rotation":      {joint: 2},
		"Innenrotation (°)":      {joint: 2},
		"Außenrotation Hüfte":    {joint: 2, negative: true, hip: true},
		"Hüfte rechts Adduktion": {joint: 1, hip: true, sided: true},
		"Abduktion links":        {joint: 1, negative: true, sided: true, side: hip.Left},
		"Knie Flexion":           {joint: 0, elsewhere: true},
	} {
		if got := heard(name); got != want {
			t.Errorf("heard(%q) = %+v, want %+v", name, got, want)
		}
	}
}

// A limit of 60° is held in radians, and 60° is what a reader must be told.
func TestABreakInARecordingIsToldInWholeDegrees(t *testing.T) {
	table, err := ReadTable(strings.NewReader("time,hip_flexion_r,hip_adduction_r,hip_rotation_r\n0,1,3,4\n1,99,3,4\n2,200,3,4\n"))
	if err != nil {
		t.Fatal(err)
	}
	_, err = table.Recording(table.Guess(hip.Right).Mapping)
	if err == nil || !strings.Contains(err.Error(), "more than 60 is a break") || !strings.Contains(err.Error(), "from -180 to 180 degrees") {
		t.Errorf("a jump of 98° and an angle of 200° are told as %v", err)
	}
}

func TestKneesAreNotTakenForHips(t *testing.T) {
	table, err := ReadTable(strings.NewReader("time,knee_flexion_r,flexion_r,hip_flexion_r,hip_adduction_r,hip_rotation_r\n0,1,2,3,4,5\n1,1,2,3,4,5\n"))
	if err != nil {
		t.Fatal(err)
	}
	if got := table.Guess(hip.Right).Channels[0].Column; got != "hip_flexion_r" {
		t.Errorf("flexion is read from %q", got)
	}
}

func TestValuesThatCanOnlyBeRadiansAreGuessedToBe(t *testing.T) {
	table, err := ReadTable(strings.NewReader("time,flexion,adduction,rotation\n0,1.5,-0.2,0.1\n0.1,1.6,-0.1,0.1\n"))
	if err != nil {
		t.Fatal(err)
	}
	if g := table.Guess(hip.Right); g.Unit != InRadians || g.UnitStated {
		t.Errorf("unit %v, stated %v", g.Unit, g.UnitStated)
	}
}

func TestAnOffsetAndAMissingChannelAreHeld(t *testing.T) {
	table, err := ReadTable(strings.NewReader("1 20\n2 30\n"))
	if err != nil {
		t.Fatal(err)
	}
	r, err := table.Recording(Mapping{
		Time:     TimeColumn{Column: "1", Unit: InSamples, Rate: 50},
		Channels: [3]Channel{{Column: "2", Offset: -12 * unit.Degree}, {Offset: 5 * unit.Degree}, {}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if want := posture(18, 5, 0); !near(r.Postures[1], want) || math.Abs(r.Duration()-0.02) > 1e-12 {
		t.Errorf("second posture %v after %g s, want %v after 0.02 s", r.Postures[1], r.Duration(), want)
	}
}

func TestEveryWrongCellIsNamedByLineColumnAndValue(t *testing.T) {
	head := "time,flexion_deg,adduction_deg,rotation_deg\n"
	for _, c := range []struct{ rows, want string }{
		{"0,1,2,3\n1,1,abc,3\n", "line 3: adduction_deg: abc: must be a number with a decimal point"},
		{"0,1,2,3\n1,1,,3\n", "line 3: adduction_deg: nothing: must be a number"},
		{"0,1,2,3\n1,NaN,2,3\n", "line 3: flexion_deg: NaN: must be a number"},
		{"0,1,2,3\n1,1e400,2,3\n", "line 3: flexion_deg: 1e400: must be a number"},
		{"0,1,2,3\n1,1,2\n", "line 3: 3: must have 4 columns"},
		{"0,1,2,3\n0,1,2,3\n", "line 3: time: 0: must be later than in the row before"},
		{"0,1,2,3\n1,200,2,3\n", "line 3: flexion_deg: 200: must be from -180 to 180 degrees"},
		{"0,1,89.5,3\n1,1,2,3\n", "line 2: adduction_deg: 89.5: must be from -89 to 89"},
		{"0,1,2,3\n1,70,2,3\n", "line 3: flexion_deg: 70: is 69.0 degrees from the row before"},
		{"0,1,2,3\n", "at least two rows"},
		{"a,b,c,d\n", "no row of numbers"},
	} {
		table, err := ReadTable(strings.NewReader(head + c.rows))
		if err == nil {
			_, err = table.Recording(table.Guess(hip.Right).Mapping)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("rows %q: %v, want an error with %q", c.rows, err, c.want)
		}
	}
}

func TestAMappingThatDoesNotFitTheTableIsRefused(t *testing.T) {
	table, err := ReadTable(strings.NewReader("t,a,a\n0,1,2\n1,1,2\n"))
	if err != nil {
		t.Fatal(err)
	}
	for want, m := range map[string]Mapping{
		"b: there is no such column":        {Time: TimeColumn{Column: "t"}, Channels: [3]Channel{{Column: "b"}}},
		"a: stands over two columns":        {Time: TimeColumn{Column: "t"}, Channels: [3]Channel{{Column: "a"}}},
		"at least one joint angle":          {Time: TimeColumn{Column: "t"}},
		"samples per second must be above":  {Channels: [3]Channel{{Column: "t"}}},
		"an offset must be from -89 to 89":  {Time: TimeColumn{Column: "t"}, Channels: [3]Channel{{}, {Column: "t", Offset: 2}}},
		"must be at most 32 MB":             {},
		"must be a table in plain text, in": {},
	} {
		_, err := table.Recording(m)
		switch {
		case strings.Contains(want, "MB"):
			_, err = ReadTable(bytes.NewReader(make([]byte, mostTableBytes+1)))
		case strings.Contains(want, "plain"):
			_, err = ReadTable(strings.NewReader("PK\x03\x04\x00\x00"))
		}
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want %q", err, want)
		}
	}
}

func TestProblemsStopAtTwenty(t *testing.T) {
	table, err := ReadTable(strings.NewReader("0,1,2,3\n1,1,2,3\n" + strings.Repeat("5,x,x,x\n", 100)))
	if err != nil {
		t.Fatal(err)
	}
	_, err = table.Recording(Mapping{Time: TimeColumn{Column: "1"}, Channels: [3]Channel{{Column: "2"}}})
	if n := strings.Count(err.Error(), "\n") + 1; n != mostProblems {
		t.Errorf("%d problems, want %d", n, mostProblems)
	}
}

func TestAPlaceOnTheWayHasItsTimeAndBack(t *testing.T) {
	r := Recording{Times: []float64{2, 2.5, 4}, Postures: []hip.Posture{{}, posture(10, 0, 0), posture(40, 0, 0)}}
	for at, want := range map[float64]float64{-1: 0, 0: 0, 0.25: 5, 0.5: 10, 1: 20, 2: 40, 9: 40} {
		if got := r.At(at).Flexion.Degrees(); math.Abs(got-want) > 1e-12 {
			t.Errorf("flexion after %g s = %g°, want %g", at, got, want)
		}
		if back := r.Time(r.Place(at)); at >= 0 && at <= 2 && math.Abs(back-at) > 1e-12 {
			t.Errorf("time of the place after %g s = %g", at, back)
		}
	}
}

// recordings returns the folder of open recordings, or skips.
func recordings(t testing.TB) []string {
	t.Helper()
	folder := os.Getenv("RIMCLEAR_RECORDINGS")
	if folder == "" {
		t.Skip("RIMCLEAR_RECORDINGS names no folder of recordings")
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no *.csv in RIMCLEAR_RECORDINGS (%v)", err)
	}
	return files
}

func TestOpenRecordingsAreReadOnBothSidesWithoutHelp(t *testing.T) {
	for _, file := range recordings(t) {
		table := openTable(t, file)
		if sides := table.Sides(); len(sides) != 2 {
			t.Errorf("%s: sides %v", filepath.Base(file), sides)
		}
		for _, side := range []hip.Side{hip.Right, hip.Left} {
			g := table.Guess(side)
			r, err := table.Recording(g.Mapping)
			if err != nil || !g.Complete || !g.UnitStated {
				t.Errorf("%s: complete %v, stated %v: %v", filepath.Base(file), g.Complete, g.UnitStated, err)
				continue
			}
			if len(r.Times) != len(table.Rows) {
				t.Errorf("%s: %d samples of %d rows", filepath.Base(file), len(r.Times), len(table.Rows))
			}
			if _, peak := r.Peak(hip.Flexion); strings.HasPrefix(filepath.Base(file), "sit_to_stand") &&
				(peak < 100*unit.Degree || peak > 112*unit.Degree) {
				t.Errorf("%s: peak flexion %g°, want 103 to 106 as published with the recordings", filepath.Base(file), peak.Degrees())
			}
		}
	}
}

func FuzzReadTable(f *testing.F) {
	for _, name := range []string{"invented_walk.csv", "invented_chair.csv"} {
		data, err := os.ReadFile(invented + name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data[:2000])
	}
	f.Add([]byte("1 2\n3 4\n"))
	f.Add([]byte("a;b\n1,5;2\n\n3;4,5"))
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := ReadTable(bytes.NewReader(data))
		if err != nil {
			return
		}
		if len(table.Rows) != len(table.Lines) || len(table.Rows) == 0 {
			t.Fatalf("%d rows, %d lines", len(table.Rows), len(table.Lines))
		}
		for _, row := range table.Rows {
			if len(row) != len(table.Columns) {
				t.Fatalf("row of %d in %d columns", len(row), len(table.Columns))
			}
		}
		m := table.Guess(hip.Left).Mapping
		if m.Channels[0].Column == "" {
			m.Channels[0].Column = table.Columns[len(table.Columns)-1]
		}
		r, err := table.Recording(m)
		if err != nil {
			return
		}
		for i, p := range r.Postures {
			if !p.Flexion.Finite() || p.Flexion.Abs() > 180*unit.Degree || i > 0 && !(r.Times[i] > r.Times[i-1]) {
				t.Fatalf("sample %d: %v at %g", i, p, r.Times[i])
			}
		}
	})
}
