package main

import (
	"fmt"
	"os"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// speed is what was measured.
type speed struct {
	gauges  []gauge
	results []result
	peers   [][]peerLine // before and after
	load    [2]string
	began   time.Time
}

// figure returns a gauge's figure: the median of what was measured, in its
// unit.
func (s speed) figure(bench, room, unit string) (float64, bool) {
	var all []float64
	for _, r := range s.results {
		if r.room != room || unnumbered(r.name) != bench {
			continue
		}
		for i := 0; i+1 < len(r.figures); i += 2 {
			if x, err := strconv.ParseFloat(r.figures[i], 64); err == nil && r.figures[i+1] == unit {
				all = append(all, x)
			}
		}
	}
	if len(all) == 0 {
		return 0, false
	}
	return median(all), true
}

// unnumbered is a benchmark's name without the number of processors.
func unnumbered(name string) string {
	at := strings.LastIndex(name, "-")
	if at < 0 {
		return name
	}
	if _, err := strconv.Atoi(name[at+1:]); err != nil {
		return name
	}
	return name[:at]
}

// of returns what a peer measured, before and after, in the gauge's unit.
func (s speed) of(p peer) (list []float64) {
	for _, run := range s.peers {
		for _, l := range run {
			if !strings.HasPrefix(l.what+",", p.line) {
				continue
			}
			if x, err := strconv.ParseFloat(l.figures[p.figure], 64); err == nil {
				list = append(list, x*p.scale)
				break
			}
		}
	}
	return list
}

// markdown is the speed page.
func (s speed) markdown() string {
	var b strings.Builder
	fmt.Fprintf(&b, "# Speed\n\nWritten by `go run ./cmd/dev bench` on %s. %s, %s, %d processors; load %s before and %s after (above 0.3 before, another program ran and no figure is to be quoted).\n",
		s.began.UTC().Format("2006-01-02 15:04 UTC"), runtime.Version(), processor(), runtime.NumCPU(), s.load[0], s.load[1])
	fmt.Fprint(&b, "\n## What it takes, and what bounds it\n\n| what | figure | bound by |\n|---|---|---|\n")
	for _, g := range s.gauges {
		fmt.Fprintf(&b, "| %s | %s | %s |\n", g.what, s.shown(g), g.bound)
	}
	fmt.Fprint(&b, "\n## Beside general-purpose programs\n\n")
	if len(s.peers) == 0 {
		fmt.Fprint(&b, "Not measured: name the folder of the peer programs with `-peers`.\n")
	} else {
		fmt.Fprint(&b, "Each peer ran before and after our benchmarks in this run; the ratio is the faster of both over our figure, so above 1 we are faster.\n\n")
		fmt.Fprint(&b, "| what | ours | peer | before | after | ratio |\n|---|---|---|---|---|---|\n")
		for _, g := range s.gauges {
			s.compare(&b, g)
		}
	}
	fmt.Fprint(&b, "\n## Checksums of the two grids in this run\n\n| grid | checksum | free in all motions | wanted |\n|---|---|---|---|\n")
	for _, name := range []string{"StandardGrid", "LipGrid"} {
		sum, _ := s.figure(name, "kinematics", "checksum")
		free, _ := s.figure(name, "kinematics", "free")
		fmt.Fprintf(&b, "| %s | %.0f | %.0f | %.0f, %.0f |\n", name, sum, free, checksums[name][0], checksums[name][1])
	}
	for _, run := range s.peers[:min(1, len(s.peers))] {
		for _, l := range run {
			if sum := l.figures["checksum"]; sum != "" {
				fmt.Fprintf(&b, "| %s | %s | %s | |\n", l.what, sum, l.figures["free_orientations"])
			}
		}
	}
	return b.String()
}

func (s speed) shown(g gauge) string {
	x, ok := s.figure(g.bench, g.room, g.unit)
	if !ok {
		return "not measured"
	}
	return quantity(x*g.scale) + " " + g.shown
}

func (s speed) compare(b *strings.Builder, g gauge) {
	ours, ok := s.figure(g.bench, g.room, g.unit)
	for _, p := range g.peers {
		theirs := s.of(p)
		if !ok || len(theirs) == 0 {
			fmt.Fprintf(b, "| %s | %s | %s | not measured | | |\n", g.what, s.shown(g), p.name)
			continue
		}
		after := ""
		if len(theirs) > 1 {
			after = quantity(theirs[1]) + " " + g.shown
		}
		fmt.Fprintf(b, "| %s | %s | %s | %s %s | %s | %s |\n", g.what, s.shown(g), p.name, quantity(theirs[0]), g.shown, after, quantity(slices.Min(theirs)/(ours*g.scale)))
	}
}

// quantity is a number to three digits.
func quantity(x float64) string {
	if x >= 1000 {
		return strconv.FormatFloat(x, 'f', 0, 64)
	}
	return strconv.FormatFloat(x, 'g', 3, 64)
}

// verify reports a grid that was measured and came to another sum.
func (s speed) verify() error {
	for name, want := range checksums {
		sum, ok := s.figure(name, "kinematics", "checksum")
		free, _ := s.figure(name, "kinematics", "free")
		if ok && (sum != want[0] || free != want[1]) {
			return fmt.Errorf("%s came to %.0f with %.0f free, want %.0f with %.0f", name, sum, free, want[0], want[1])
		}
		for _, g := range s.gauges {
			if g.bench == name && !ok {
				return fmt.Errorf("%s was not measured", name)
			}
		}
	}
	return nil
}

// processor names the machine's processor.
func processor() string {
	data, _ := os.ReadFile("/proc/cpuinfo")
	for line := range strings.Lines(string(data)) {
		if name, value, ok := strings.Cut(line, ":"); ok && strings.TrimSpace(name) == "model name" {
			return strings.TrimSpace(value)
		}
	}
	return runtime.GOARCH
}

// median returns the middle of the values.
func median(all []float64) float64 {
	all = slices.Sorted(slices.Values(all))
	return all[len(all)/2]
}
