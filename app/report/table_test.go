package report

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"rimclear/app/session"
	"rimclear/kinematics/unit"
)

const hipDegree = unit.Degree

func motionKeys() (keys []string) {
	for _, a := range session.BuiltIn().Activities {
		keys = append(keys, a.Key)
	}
	return keys
}

func TestEveryTableSaysTheSameAsCSVAndAsJSON(t *testing.T) {
	f := worked(t, 2)
	for _, table := range f.Tables() {
		var c, j bytes.Buffer
		if err := table.WriteCSV(&c); err != nil {
			t.Fatal(err)
		}
		if err := table.WriteJSON(&j); err != nil {
			t.Fatal(err)
		}
		lines, err := csv.NewReader(&c).ReadAll()
		if err != nil {
			t.Fatalf("%s: %v", table.Key, err)
		}
		var object struct {
			Format, Table, Caution string
			Fingerprint            string `json:"case_sha256"`
			Rows                   []map[string]any
		}
		if err := json.Unmarshal(j.Bytes(), &object); err != nil {
			t.Fatalf("%s: %v", table.Key, err)
		}
		if len(lines)-1 != len(object.Rows) || len(object.Rows) == 0 {
			t.Errorf("%s has %d rows as CSV and %d as JSON", table.Key, len(lines)-1, len(object.Rows))
		}
		if object.Format != TableFormat || object.Fingerprint != f.Fingerprint || object.Caution != f.Words.Caution() {
			t.Errorf("%s does not say what it is: %+v", table.Key, object)
		}
		for i, row := range object.Rows {
			for k, column := range table.Columns {
				if text, isText := row[column].(string); isText && strings.TrimPrefix(lines[i+1][k], "'") != text {
					t.Errorf("%s row %d %s: CSV %q, JSON %q", table.Key, i+1, column, lines[i+1][k], text)
				}
			}
		}
	}
}

func TestALimitPastTheNativeRangeIsMarkedInItsTable(t *testing.T) {
	f := worked(t, 1)
	for _, table := range f.Tables() {
		if table.Key != "limits" {
			continue
		}
		at := map[string]int{}
		for i, c := range table.Columns {
			at[c] = i
		}
		n := 0
		for _, row := range table.Rows {
			limit, isLimit := row[at["limit_deg"]].(float64)
			native, known := row[at["native_range_deg"]].(float64)
			if !isLimit || !known {
				continue
			}
			n++
			reading := row[at["reading"]].(string)
			if (limit > native) != row[at["beyond_native"]].(bool) || (limit > native) != strings.HasPrefix(reading, "beyond") {
				t.Errorf("%v: limit %.1f, native %.1f, reading %q", row[at["question"]], limit, native, reading)
			}
		}
		if n < 5 {
			t.Errorf("only %d limits were compared", n)
		}
	}
}

func TestTextThatCouldBeAFormulaIsMadeHarmless(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+A1": "'+A1", "-A1": "'-A1", "@x": "'@x", "＝1": "'＝1", "-5.2": "-5.2", "plain": "plain", "": "", "a=b": "a=b",
	} {
		if got := plainText(in); got != want {
			t.Errorf("plainText(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestWhatIsNoNumberIsNullInJSON(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1)} {
		if got := jsonText(x); got != "null" {
			t.Errorf("%v is %s", x, got)
		}
	}
	if got := jsonText(-0.000001); got != "0" {
		t.Errorf("a tiny negative number is %s, want 0", got)
	}
}
