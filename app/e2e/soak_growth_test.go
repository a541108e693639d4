package e2e

import (
	"bytes"
	"math"
	"os"
	"strings"
	"testing"
	"time"
)

// session makes the samples of twenty minutes, one every ten seconds.
func session(memory func(minute float64) float64, goroutines func(minute float64) int) Growth {
	var g Growth
	for i := range 121 {
		at := time.Duration(i) * 10 * time.Second
		g = append(g, Sample{At: at, Memory: memory(at.Minutes()), Goroutines: goroutines(at.Minutes())})
	}
	return g
}

func steady(n int) func(float64) int { return func(float64) int { return n } }

func TestMemoryThatFillsAtTheBeginningAndThenHoldsIsWell(t *testing.T) {
	g := session(func(m float64) float64 { return 200 + 30*math.Min(m, 4)/4 + 3*math.Sin(40*m) }, steady(30))
	if f := g.Faults(); len(f) > 0 {
		t.Errorf("faults %q", f)
	}
}

func TestWhatGrowsInALongSessionIsNamed(t *testing.T) {
	flat := func(float64) float64 { return 200 }
	for word, g := range map[string]Growth{
		"a minute":   session(func(m float64) float64 { return 200 + 1.1*m + 3*math.Sin(40*m) }, steady(30)),
		"goroutines": session(flat, func(m float64) int { return 30 + int(m/2) }),
		"held":       append(session(flat, steady(30)), Sample{At: 21 * time.Minute, Memory: 251, Goroutines: 30}),
	} {
		if f := g.Faults(); len(f) != 1 || !strings.Contains(f[0], word) {
			t.Errorf("faults %q, want one with %q", f, word)
		}
	}
}

func TestTheSlopeOfALineIsThatOfTheLine(t *testing.T) {
	g := session(func(m float64) float64 { return 180 + 0.25*m }, steady(12))
	if got := g.MemoryPerMinute(); math.Abs(got-0.25) > 1e-9 {
		t.Errorf("MemoryPerMinute = %v, want 0.25", got)
	}
	if got := g.NewGoroutines(); math.Abs(got) > 1e-9 {
		t.Errorf("NewGoroutines = %v, want 0", got)
	}
	var out bytes.Buffer
	if err := g.Write(&out); err != nil || strings.Count(out.String(), "\n") != len(g)+2 || !strings.Contains(out.String(), "+0.250 MB a minute") {
		t.Errorf("Write: %v\n%s", err, out.String())
	}
}

func TestASessionOfNoSamplesHasNoFigures(t *testing.T) {
	for _, g := range []Growth{nil, {{Memory: 100, Goroutines: 9}}} {
		if g.MemoryPerMinute() != 0 || g.NewGoroutines() != 0 {
			t.Errorf("%d samples grow by %v MB a minute and %v goroutines", len(g), g.MemoryPerMinute(), g.NewGoroutines())
		}
	}
}

func TestThisProcessHoldsMemory(t *testing.T) {
	if _, err := os.Stat("/proc/self/status"); err != nil {
		t.Skip("no /proc here")
	}
	if mb, err := Resident(os.Getpid(), "VmRSS"); err != nil || mb < 1 || mb > 1e5 {
		t.Errorf("Resident = %v MB, %v", mb, err)
	}
	if _, err := Resident(os.Getpid(), "NoSuchFigure"); err == nil {
		t.Error("a figure that is not there has no error")
	}
}
