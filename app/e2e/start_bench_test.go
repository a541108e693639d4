package e2e

import (
	"os"
	"slices"
	"testing"
	"time"
)

// BenchmarkStart starts the built program on a display of its own and reports
// the time to its first picture, its memory then, and the most it has held: a
// start in a new home, and a start in one that it knows.
func BenchmarkStart(b *testing.B) {
	d := display(b, 1280, 800)
	known := b.TempDir()
	for _, which := range []string{"new", "known"} {
		b.Run(which, func(b *testing.B) {
			if which == "known" {
				started(b, d, known).Kill()
			}
			var took []float64
			var now, most float64
			for range max(b.N, 3) {
				home := known
				if which == "new" {
					home = b.TempDir()
				}
				start := time.Now()
				p := started(b, d, home)
				took = append(took, float64(time.Since(start).Microseconds())/1e3)
				now, most = memory(b, p.PID(), "VmRSS"), max(most, memory(b, p.PID(), "VmHWM"))
				p.Kill()
			}
			slices.Sort(took)
			b.ReportMetric(took[len(took)/2], "ms-ready")
			b.ReportMetric(now, "MB")
			b.ReportMetric(most, "MB-most")
		})
	}
}

// started starts the program and waits for its first picture; it ends with the
// benchmark, if not before.
func started(b *testing.B, d *Display, home string) *Program {
	p, err := StartProgram(d, os.Getenv("RIMCLEAR_BINARY"), home)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(p.Kill)
	if _, err := p.Await("ready", stay, func(s State) bool { return s.Ready }); err != nil {
		b.Fatal(err)
	}
	return p
}

// memory reads a figure of a process's status, in MB.
func memory(b *testing.B, pid int, name string) float64 {
	mb, err := Resident(pid, name)
	if err != nil {
		b.Fatal(err)
	}
	return mb
}
