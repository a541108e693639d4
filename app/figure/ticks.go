package figure

import (
	"math"
	"strconv"
	"strings"
)

// Tick is a marked value on an axis.
type Tick struct {
	At    float64
	Label string
}

// TickStep returns the distance of about n marks over a span: one, two or five
// times a power of ten (Heckbert, "Nice numbers for graph labels", Graphics
// Gems, 1990). For angles in degrees it is 1, 2, 5, 10, 15, 30, 45, 90 or 180,
// and as before below one.
func TickStep(span float64, n int, angle bool) float64 {
	if !(span > 0) || math.IsInf(span, 0) {
		return 1
	}
	raw := span / float64(max(n, 1))
	if angle && raw > 0.75 {
		for _, step := range []float64{1, 2, 5, 10, 15, 30, 45, 90} {
			if raw <= step*1.25 {
				return step
			}
		}
		return 180
	}
	power := math.Pow(10, math.Floor(math.Log10(raw)))
	switch f := raw / power; {
	case f < 1.5:
		return power
	case f < 3.5:
		return 2 * power
	case f < 7.5:
		return 5 * power
	}
	return 10 * power
}

// Ticks returns the multiples of step from lo to hi, both included, with their
// labels. At most a thousand come back.
func Ticks(lo, hi, step float64, unit string) []Tick {
	if !(step > 0) || !(hi >= lo) || (hi-lo)/step > 1000 {
		return nil
	}
	slack := step * 1e-9
	var out []Tick
	for k := math.Ceil((lo - slack) / step); k*step <= hi+slack; k++ {
		out = append(out, Tick{k * step, Number(k*step, Decimals(step)) + unit})
	}
	return out
}

// Decimals returns how many decimals tell multiples of step apart.
func Decimals(step float64) int {
	for n := range 6 {
		v := step * math.Pow10(n)
		if math.Abs(v-math.Round(v)) < 1e-6*v {
			return n
		}
	}
	return 6
}

// Number returns v with n decimals and a true minus sign; what rounds to zero
// has no sign.
func Number(v float64, n int) string {
	s := strconv.FormatFloat(v, 'f', n, 64)
	if !strings.HasPrefix(s, "-") {
		return s
	}
	if strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return "−" + s[1:]
}
