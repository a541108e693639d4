package e2e

import (
	"fmt"
	"io"
	"os"
	"strings"
	"text/tabwriter"
	"time"
)

// Resident reads a figure of a process's memory from its status, in MB: VmRSS is
// what it holds now, VmHWM the most it has held.
func Resident(pid int, name string) (float64, error) {
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		return 0, err
	}
	for line := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(line, name+":"); ok {
			var kB float64
			_, err := fmt.Sscan(rest, &kB)
			return kB / 1024, err
		}
	}
	return 0, fmt.Errorf("no %s in the status of process %d", name, pid)
}

// Sample is what a program held at one moment of a long session.
type Sample struct {
	At         time.Duration // since the first sample
	Memory     float64       // resident, MB
	Goroutines int
}

// Growth is the samples of a long session, in order.
type Growth []Sample

// What a long session may come to. Samples are taken while the program works,
// so a few goroutines come and go.
const (
	MostMemory     = 250.0 // MB, in a window of 1280×800
	MostPerMinute  = 1.0   // MB
	MostGoroutines = 5.0   // more at the end than at the beginning
)

// settled returns the last three quarters: what is kept for good fills at the
// beginning.
func (g Growth) settled() Growth { return g[len(g)/4:] }

// slope returns the rise of a value per minute by least squares.
func (g Growth) slope(value func(Sample) float64) float64 {
	var n, t, v, tt, tv float64
	for _, s := range g {
		x, y := s.At.Minutes(), value(s)
		n, t, v, tt, tv = n+1, t+x, v+y, tt+x*x, tv+x*y
	}
	if spread := n*tt - t*t; spread > 0 {
		return (n*tv - t*v) / spread
	}
	return 0
}

// MemoryPerMinute returns the growth of memory over the last three quarters, in
// MB a minute.
func (g Growth) MemoryPerMinute() float64 {
	return g.settled().slope(func(s Sample) float64 { return s.Memory })
}

// NewGoroutines returns by how many the goroutines have grown over the last
// three quarters, on the fitted line.
func (g Growth) NewGoroutines() float64 {
	s := g.settled()
	if len(s) == 0 {
		return 0
	}
	return s.slope(func(s Sample) float64 { return float64(s.Goroutines) }) * (s[len(s)-1].At - s[0].At).Minutes()
}

// Most returns the most memory of any sample, in MB.
func (g Growth) Most() float64 {
	most := 0.0
	for _, s := range g {
		most = max(most, s.Memory)
	}
	return most
}

// Faults returns what is too much, in words; nothing where all is well.
func (g Growth) Faults() []string {
	var list []string
	if v := g.MemoryPerMinute(); !(v <= MostPerMinute) {
		list = append(list, fmt.Sprintf("memory grows by %.2f MB a minute, at most %.2f are allowed", v, MostPerMinute))
	}
	if v := g.NewGoroutines(); !(v <= MostGoroutines) {
		list = append(list, fmt.Sprintf("there are %.1f more goroutines at the end, at most %.0f are allowed", v, MostGoroutines))
	}
	if v := g.Most(); !(v <= MostMemory) {
		list = append(list, fmt.Sprintf("the program held %.1f MB, at most %.0f are allowed", v, MostMemory))
	}
	return list
}

// Write writes the samples as a table, and the figures that are judged.
func (g Growth) Write(to io.Writer) error {
	table := tabwriter.NewWriter(to, 0, 0, 2, ' ', tabwriter.AlignRight)
	fmt.Fprintln(table, "s\tMB\tgoroutines\t")
	for _, s := range g {
		fmt.Fprintf(table, "%.0f\t%.1f\t%d\t\n", s.At.Seconds(), s.Memory, s.Goroutines)
	}
	if err := table.Flush(); err != nil {
		return err
	}
	_, err := fmt.Fprintf(to, "most %.1f MB; over the last three quarters %+.3f MB a minute, %+.1f goroutines\n",
		g.Most(), g.MemoryPerMinute(), g.NewGoroutines())
	return err
}
