package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"time"
)

// page measures the gauges, with the peers before and after, prints the speed
// page and writes it to out/speed.md.
func (b *bencher) page(ctx context.Context, only, folder string) error {
	match, err := regexp.Compile(only)
	if err != nil {
		return err
	}
	chosen := slices.DeleteFunc(slices.Clone(gauges), func(g gauge) bool { return !match.MatchString(g.bench) })
	s := speed{gauges: chosen, load: [2]string{loadAverage(), ""}, began: time.Now()}
	if folder != "" {
		s.peers = append(s.peers, b.runPeers(ctx, folder))
	}
	b.measure(ctx, chosen)
	if folder != "" {
		s.peers = append(s.peers, b.runPeers(ctx, folder))
	}
	s.load[1] = loadAverage()
	s.results = results(b.seen.String())
	page := s.markdown()
	fmt.Fprintln(b.out, page)
	path := filepath.Join(b.root, "out", "speed.md")
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(path, []byte(page), 0o644); err != nil {
		return err
	}
	fmt.Fprintln(b.out, "written to", filepath.Join("out", "speed.md"))
	if err := s.verify(); err != nil {
		return err
	}
	if b.failed > 0 {
		return errors.New("some benchmarks failed")
	}
	return nil
}

// measure runs what the gauges name, room by room.
func (b *bencher) measure(ctx context.Context, chosen []gauge) {
	var rooms []string
	names := map[string][]string{}
	for _, g := range chosen {
		top, _, _ := strings.Cut(g.bench, "/")
		if !slices.Contains(rooms, g.room) {
			rooms = append(rooms, g.room)
		}
		if !slices.Contains(names[g.room], top) {
			names[g.room] = append(names[g.room], top)
		}
	}
	for _, room := range rooms {
		which := "^Benchmark(" + strings.Join(names[room], "|") + ")$"
		switch room {
		case "app/e2e":
			b.measureWindow(ctx, which)
		case "app/view":
			if b.hasHeaders(ctx) {
				b.run(ctx, secluded(cgo), nil, which, b.length.String(), []string{"-tags", uiTags}, "./"+room)
			}
		default:
			b.run(ctx, secluded(pure), nil, which, b.length.String(), nil, "./"+room)
		}
	}
}

// measureWindow measures the built program on a display of its own, as
// realWindow tests it.
func (b *bencher) measureWindow(ctx context.Context, which string) {
	if runtime.GOOS != "linux" || !b.hasHeaders(ctx) {
		fmt.Fprintln(b.out, "the built window is not measured: it needs Linux, a compiler and headers")
		return
	}
	program, err := b.buildWindow(ctx)
	if err != nil {
		fmt.Fprintln(b.out, err)
		b.failed++
		return
	}
	env := secluded(pure, "RIMCLEAR_E2E=1", "RIMCLEAR_BINARY="+program)
	b.run(ctx, env, []string{"dbus-run-session", "--"}, which, "1x", nil, "./app/e2e")
}

// runPeers runs the peers' script, if the folder has one, and returns its
// lines. A peer that cannot run leaves gaps and no error.
func (b *bencher) runPeers(ctx context.Context, folder string) []peerLine {
	script := filepath.Join(folder, "run.sh")
	if _, err := os.Stat(script); err != nil {
		fmt.Fprintln(b.out, "no peers:", err)
		return nil
	}
	var seen bytes.Buffer
	c := b.child(ctx, environment("SEGS=720"), "sh", script, filepath.Join(b.cache, "peers"), fmt.Sprint(b.reps))
	c.Stdout = io.MultiWriter(b.out, &seen)
	if err := c.Run(); err != nil {
		fmt.Fprintln(b.out, "the peers ended early:", err)
	}
	var lines []peerLine
	for line := range strings.Lines(seen.String()) {
		if p, ok := readPeer(strings.TrimSpace(line)); ok {
			lines = append(lines, p)
		}
	}
	return lines
}

// peerLine is what a peer prints: what it is, then names and values in turn.
type peerLine struct {
	what    string
	figures map[string]string
}

// firstFigure is where the names and values of a peer's line begin.
var firstFigure = regexp.MustCompile(`,(median_[a-z_]+|build_ms),`)

// readPeer reads a line. The version numbers of numpy and node are no part of
// what it is.
func readPeer(line string) (p peerLine, ok bool) {
	at := firstFigure.FindStringIndex(line)
	if at == nil {
		return p, false
	}
	p = peerLine{what: versions.ReplaceAllString(line[:at[0]], "$1"), figures: map[string]string{}}
	cells := strings.Split(line[at[0]+1:], ",")
	for i := 0; i+1 < len(cells); {
		if _, err := strconv.ParseFloat(cells[i+1], 64); err != nil && !strings.Contains(cells[i+1], "/") {
			i++ // a name without a value
			continue
		}
		p.figures[cells[i]] = cells[i+1]
		i += 2
	}
	return p, true
}

var versions = regexp.MustCompile(`^(numpy |three-mesh-bvh)[^,]*`)

// loadAverage is how busy the machine is, "" where it cannot be told.
func loadAverage() string {
	data, err := os.ReadFile("/proc/loadavg")
	if err != nil {
		return ""
	}
	return strings.Join(strings.Fields(string(data))[:1], "")
}
