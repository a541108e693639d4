package hip

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"rimclear/kinematics/unit"
)

// published reads a table of testdata/published; its head names the source.
func published(t testing.TB, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	table, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range table[1:] {
		row := map[string]string{}
		for i, column := range table[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return rows
}

// number reads a cell.
func number(t testing.TB, row map[string]string, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return x
}

func angle(t testing.TB, row map[string]string, column string) unit.Angle {
	t.Helper()
	return unit.Angle(number(t, row, column)) * unit.Degree
}

// closeTo reports an angle that is not within a tolerance in degrees of the one
// wanted.
func closeTo(t testing.TB, what string, got, want unit.Angle, tolerance float64) {
	t.Helper()
	if d := (got - want).Degrees(); !(d <= tolerance && d >= -tolerance) {
		t.Errorf("%s = %.6f°, want %.6f° within %g°", what, got.Degrees(), want.Degrees(), tolerance)
	}
}
