// Package tabletest lets the tests of the rooms of kinematics read the
// published tables and compare with them.
package tabletest

import (
	"strconv"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics/unit"
)

// Published returns the rows of a table of assets/published; the table's head
// names the source.
func Published(t testing.TB, name string) []assets.Row {
	t.Helper()
	_, rows, err := assets.Published(name)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// Number reads a cell.
func Number(t testing.TB, row assets.Row, column string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatalf("column %s: %v", column, err)
	}
	return x
}

// Angle reads a cell of degrees.
func Angle(t testing.TB, row assets.Row, column string) unit.Angle {
	t.Helper()
	return unit.Angle(Number(t, row, column)) * unit.Degree
}

// CloseTo reports an angle that is not within a tolerance in degrees of the one
// wanted.
func CloseTo(t testing.TB, what string, got, want unit.Angle, tolerance float64) {
	t.Helper()
	if d := (got - want).Degrees(); !(d <= tolerance && d >= -tolerance) {
		t.Errorf("%s = %.6f°, want %.6f° within %g°", what, got.Degrees(), want.Degrees(), tolerance)
	}
}
