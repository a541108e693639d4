package main

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

const golden = "../../assets/golden/contact.csv"

func table(t testing.TB, text string) []map[string]string {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil || len(lines) == 0 {
		t.Fatalf("no table: %v\n%s", err, text)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// tolerance is a golden row's own, or that of the interval bounds where no
// limit has one.
func tolerance(t testing.TB, row map[string]string) float64 {
	if row["tol_deg"] == "" {
		return 0.01
	}
	return number(t, row["tol_deg"])
}

func number(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func TestASweepOfTheGoldenFileGivesItsAnswers(t *testing.T) {
	file, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	want := table(t, string(file))
	r := calc(t, "", "sweep", golden)
	if r.code != fine || r.errs != "" {
		t.Fatalf("code %d, errors\n%s", r.code, r.errs)
	}
	header, _, _ := strings.Cut(r.out, "\n")
	if header != "id,status,limit_deg,contact_clock_deg,contact_intervals,category,limit_mesh_deg,tol_deg,slope_mm_per_deg,gap_start_mm,gap_min_mm" {
		t.Errorf("header %s", header)
	}
	got := table(t, r.out)
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	worst := 0.0
	for i, w := range want {
		g := got[i]
		for _, column := range []string{"id", "category", "tol_deg", "gap_min_mm", "status"} {
			if g[column] != w[column] {
				t.Errorf("%s: %s = %q, want %q", w["id"], column, g[column], w[column])
			}
		}
		if (g["limit_deg"] == "") != (w["limit_deg"] == "") {
			t.Errorf("%s: limit_deg = %q, want %q", w["id"], g["limit_deg"], w["limit_deg"])
		} else if g["limit_deg"] != "" {
			off := math.Abs(number(t, g["limit_deg"]) - number(t, w["limit_deg"]))
			worst = math.Max(worst, off)
			if off > tolerance(t, w) {
				t.Errorf("%s: limit_deg = %s, want %s ± %s", w["id"], g["limit_deg"], w["limit_deg"], w["tol_deg"])
			}
		}
		sameIntervals(t, w["id"], g["contact_intervals"], w["contact_intervals"], math.Max(0.05, tolerance(t, w)))
	}
	t.Logf("largest difference of a limit: %.5f°", worst)
}

func sameIntervals(t *testing.T, id, got, want string, tolerance float64) {
	t.Helper()
	bounds := func(s string) []string {
		return strings.FieldsFunc(s, func(r rune) bool { return r == ':' || r == ';' })
	}
	g, w := bounds(got), bounds(want)
	if len(g) != len(w) || strings.Count(got, ";") != strings.Count(want, ";") {
		t.Errorf("%s: contact_intervals = %q, want %q", id, got, want)
		return
	}
	for i := range w {
		if math.Abs(number(t, g[i])-number(t, w[i])) > tolerance {
			t.Errorf("%s: contact_intervals = %q, want %q", id, got, want)
		}
		if _, decimals, _ := strings.Cut(g[i], "."); len(decimals) != 5 {
			t.Errorf("%s: interval bound %q, want five decimals", id, g[i])
		}
	}
}

func TestWorkersAndTheWayInAndOutChangeNothing(t *testing.T) {
	file, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	one := calc(t, "", "sweep", "--workers", "1", golden)
	path := filepath.Join(t.TempDir(), "out.csv")
	for name, r := range map[string]result{
		"7 workers": calc(t, "", "sweep", "--workers", "7", golden),
		"-":         calc(t, string(file), "sweep", "-"),
		"pipe":      calc(t, string(file), "sweep"),
		"windows":   calc(t, "\xef\xbb\xbf"+strings.ReplaceAll(string(file), "\n", "\r\n"), "sweep", "-"),
	} {
		if r != one {
			t.Errorf("%s: code %d, errors %q, or other answers", name, r.code, r.errs)
		}
	}
	r := calc(t, "", "sweep", golden, "--out", path)
	if got, err := os.ReadFile(path); err != nil || r.code != fine || r.out != "" || string(got) != one.out {
		t.Errorf("--out: %v, code %d, out %q", err, r.code, r.out)
	}
}

const (
	header = "id,side,ri,ra,fa,ccd,head_d,neck_d,arc,wall,inset,lip_h,lip_c,lip_w,lip_r,tap_d0,tap_s0,tap_d1,tap_s1,oval_a,oval_b,oval_roll,skirt_d,skirt_l,flex,add,ir,motion,end\n"
	sound1 = "ok,R,40,15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180\n"
)

func TestBadRowsAreNamedAndTheOthersAnswered(t *testing.T) {
	for _, tt := range []struct{ row, want string }{
		{"x,R,forty,15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `ri "forty": must be a number from -360 to 360 degrees`},
		{"x,R,\"40,5\",15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `ri "40,5": must be a number from -360 to 360 degrees, with a decimal point`},
		{"x,R,40,NaN,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `ra "NaN": must be a number`},
		{"x,R,40,15,Inf,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `fa "Inf": must be a number`},
		{"x,R,40,15,15,1e999,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `ccd "1e999": must be a number from 0 to 180 degrees`},
		{"x,R,40,15,15,135,0x20,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `head_d "0x20": must be a number above 0, up to 200 mm`},
		{"x,R,40,15,15,135,,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `head_d is empty: must be a number above 0`},
		{"x,R,40,15,15,135,32,32,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `neck_d "32": must be below head_d, 32 mm`},
		{"x,R,40,15,15,135,32,,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `neck_d is empty: must be a number above 0, up to 200 mm`},
		{"x,R,40,15,15,135,32,-1,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `neck_d "-1": must be a number above 0`},
		{"x,up,40,15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `side "up": must be one of R, L`},
		{"x,R,40,15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,jump,180", `motion "jump": must be one of flexion, extension, adduction, abduction, internal, external`},
		{"x,R,40,15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,", `end is empty: must be a number from -360 to 360 degrees`},
		{"x,R,40,15,15,135,32,12,180,5,,,,,,,,,,,,,,,-30,0,0,extension,20", `end "20": must be at least the start, 30 degrees counted as extension`},
		{"x,R,40,15,15,135,32,12,180,5,,,,,,11,4,14,20,,,,,,0,0,0,flexion,180", `neck_d "12": must be empty where tap_d0`},
		{"x,R,40,15,15,135,32,12,180,5,,,,,,,,,,13,11,0,,,0,0,0,flexion,180", `neck_d "12": must be empty where oval_a`},
		{"x,R,40,15,15,135,32,,180,5,,,,,,11,4,14,20,13,11,0,,,0,0,0,flexion,180", `tap_d0 "11": must be empty: an oval neck`},
		{"x,R,40,15,15,135,32,,180,5,,,,,,11,4,,20,,,,,,0,0,0,flexion,180", `tap_d1 is empty: must be a number above 0`},
		{"x,R,40,15,15,135,32,,180,5,,,,,,11,20,14,20,,,,,,0,0,0,flexion,180", `tap_s1 "20": must be above tap_s0, 20 mm`},
		{"x,R,40,15,15,135,32,,180,5,,,,,,,,,,13,,0,,,0,0,0,flexion,180", `oval_b is empty`},
		{"x,R,40,15,15,135,32,12,180,5,,,,,,,,,,,,,20,,0,0,0,flexion,180", `skirt_l is empty`},
		{"x,R,40,15,15,135,32,12,180,5,,,90,10,10,,,,,,,,,,0,0,0,flexion,180", `lip_h is empty: must be a number from -90 to 90 degrees`},
		{"x,R,40,15,15,135,32,12,180,5,,90,90,10,10,,,,,,,,,,0,0,0,flexion,180", `lip_h "90": must be below 180 - arc/2, 90 degrees`},
		{"x,R,40,15,15,135,32,12,180,5,16,,,,,,,,,,,,,,0,0,0,flexion,180", `inset "16": must be within 10 mm, half of head_d less that of the neck`},
		{"x,R,0,0,15,135,32,12,180,5,,10,90,10,10,,,,,,,,,,0,0,0,flexion,180", `ri "0": must not point the cup straight`},
		{"x,R,40", "3 cells where the header has 29"},
		{"x,R,4\"0,15,15,135,32,12,180,5,,,,,,,,,,,,,,,0,0,0,flexion,180", `no CSV at byte 6: bare "`},
	} {
		r := calc(t, header+sound1+tt.row+"\n"+sound1, "sweep", "-")
		rows := strings.Split(strings.TrimSpace(r.out), "\n")
		if r.code != failed || len(rows) != 4 || rows[2] != "x,error,,," || rows[1] != rows[3] || !strings.HasPrefix(rows[1], "ok,limit,") {
			t.Errorf("%s: code %d, answers\n%s", tt.row, r.code, r.out)
		}
		if want := "standard input: row 2 (line 3, id x): " + tt.want; !strings.Contains(r.errs, want) || !strings.Contains(r.errs, "1 of 3 rows could not") {
			t.Errorf("%s: errors\n%s\nwant %q", tt.row, r.errs, want)
		}
	}
}

func TestAnUnclosedQuotationMarkIsOneBadRow(t *testing.T) {
	r := calc(t, header+sound1+"x,\"R,40\n"+sound1, "sweep", "-")
	if rows := strings.Count(r.out, "\n"); r.code != failed || rows != 3 || !strings.Contains(r.errs, "line 3") {
		t.Errorf("code %d, answers\n%s\nerrors\n%s", r.code, r.out, r.errs)
	}
}

func TestHeadersThatCannotBeReadAnswerNothing(t *testing.T) {
	for _, tt := range []struct{ name, in, want string }{
		{"empty", "", "it is empty"},
		{"twice", "ri,ra,RI,fa,ccd,head_d,arc,motion,end\n", `column "ri" stands twice`},
		{"semicolons", strings.ReplaceAll(header, ",", ";"), "must be separated by commas"},
		{"missing", "id,ri,ra,fa,ccd,head_d,motion,end\n", "no column arc"},
		{"utf-16", "\xff\xfei\x00d\x00", "must be text in UTF-8"},
	} {
		r := calc(t, tt.in, "sweep", "-")
		if r.code != misuse || r.out != "" || !strings.Contains(r.errs, tt.want) {
			t.Errorf("%s: code %d, out %q, errors %q, want %q", tt.name, r.code, r.out, r.errs, tt.want)
		}
	}
}

func TestColumnsMayBeAbsentReorderedSpacedAndCarried(t *testing.T) {
	in := "note, END ,motion,arc,neck_d,head_d,ccd,fa,ra,ri,id,limit_deg,Note 2\n" +
		"\"a, b\", 180 , Flexion ,180,12,32,135,15,15,40, p 1 ,9,\"say \"\"x\"\"\"\n"
	r := calc(t, in, "sweep", "-")
	want := calc(t, header+sound1, "sweep", "-")
	cells := strings.Split(strings.Split(want.out, "\n")[1], ",")
	row := strings.Join(append([]string{"p 1"}, cells[1:]...), ",") + `,"a, b","say ""x"""`
	if r.code != fine || r.out != "id,status,limit_deg,contact_clock_deg,contact_intervals,note,Note 2\n"+row+"\n" {
		t.Errorf("code %d, errors %q, answers\n%s\nwant row\n%s", r.code, r.errs, r.out, row)
	}
}

func TestZeroSizesAreAbsentFeatures(t *testing.T) {
	zeros := strings.Replace(sound1, "5,,,,,,,,,,,,,,,0", "5,0,0,0,0,0,0,0,0,0,0,0,0,0,0,0", 1)
	if a, b := calc(t, header+sound1, "sweep", "-"), calc(t, header+zeros, "sweep", "-"); a != b || zeros == sound1 {
		t.Errorf("zeros: %+v, want %+v", b, a)
	}
}

func TestALeftHipAnswersAsARightOne(t *testing.T) {
	lip := "ok,R,40,15,15,135,32,12,180,5,,12,120,40,20,,,,,,,,,,0,0,0,internal,180\n"
	left := strings.Replace(lip, ",R,", ",L,", 1)
	if a, b := calc(t, header+lip, "sweep", "-"), calc(t, header+left, "sweep", "-"); a != b || a.code != fine {
		t.Errorf("left %+v, right %+v", b, a)
	}
}

func TestOrderIsKeptOverManyBatches(t *testing.T) {
	var in strings.Builder
	in.WriteString(header)
	for i := range 1000 {
		id := strconv.Itoa(i)
		if i%7 == 3 {
			in.WriteString(id + ",bad\n")
			continue
		}
		in.WriteString(strings.Replace(sound1, "ok", id, 1))
	}
	r := calc(t, in.String(), "sweep", "--workers", "4", "-")
	rows := table(t, r.out)
	if len(rows) != 1000 || r.code != failed {
		t.Fatalf("code %d, %d rows", r.code, len(rows))
	}
	for i, row := range rows {
		if row["id"] != strconv.Itoa(i) || (row["status"] == "error") != (i%7 == 3) {
			t.Fatalf("row %d is %v", i, row)
		}
	}
	if got := strings.Count(r.errs, "\n"); got != 144 {
		t.Errorf("%d messages, want 143 and a sum", got)
	}
}

func FuzzSweep(f *testing.F) {
	f.Add(header + sound1)
	f.Add(header + "l,L,40,15,15,135,36,12,190,5,1,12,120,40,20,,,,,,,,,,0,0,0,internal,180\n")
	f.Add(header + "o,R,40,15,15,135,36,,170,5,,,,,,,,,,14,11,30,20,12,0,0,10,external,180\n")
	f.Add(header + "t,R,40,15,15,135,36,,170,5,-2,,,,,11,3,16,30,,,,,,0,0,10,abduction,80\n")
	f.Add("ri,ra,fa,ccd,head_d,arc,motion,end\n1,\"2\r\n\",3\n,,,\n")
	f.Fuzz(func(t *testing.T, in string) {
		if len(in) > 4000 {
			return
		}
		one := calc(t, in, "sweep", "--workers", "1", "-")
		if two := calc(t, in, "sweep", "--workers", "3", "-"); one != two {
			t.Fatalf("1 worker: %+v\n3 workers: %+v", one, two)
		}
		switch one.code {
		case fine:
			if strings.Contains(one.out, ",error,") && one.errs != "" {
				t.Fatalf("fine with an error: %+v", one)
			}
		case failed, misuse:
			if one.errs == "" {
				t.Fatalf("code %d without a word", one.code)
			}
		default:
			t.Fatalf("code %d", one.code)
		}
		if strings.Contains(one.out, "NaN") && !strings.Contains(in, "NaN") {
			t.Fatalf("NaN in the answers of %q:\n%s", in, one.out)
		}
	})
}
