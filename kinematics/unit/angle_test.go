package unit

import (
	"math"
	"testing"
)

func TestAHalfTurnIsPiRadians(t *testing.T) {
	if got := (180 * Degree).Radians(); math.Abs(got-math.Pi) > 1e-15 {
		t.Errorf("(180°).Radians() = %v, want π", got)
	}
}

func TestWrappedStaysInOneTurnAndKeepsTheDirection(t *testing.T) {
	for d := -1000.0; d <= 1000; d += 7.5 {
		a := Angle(d) * Degree
		w := a.Wrapped()
		if w <= -math.Pi || w > math.Pi {
			t.Errorf("(%v°).Wrapped() = %v°, want within (-180°, 180°]", d, w.Degrees())
		}
		if math.Abs(w.Sin()-a.Sin()) > 1e-12 || math.Abs(w.Cos()-a.Cos()) > 1e-12 {
			t.Errorf("(%v°).Wrapped() = %v° points elsewhere", d, w.Degrees())
		}
	}
}
