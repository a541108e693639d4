package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

func TestBenchmarkLinesCarryTheirRoom(t *testing.T) {
	var out strings.Builder
	table(&out, "goos: linux\npkg: rimclear/kinematics/hip\nBenchmarkAxis-2 \t 1000\t 12.5 ns/op\t 0 B/op\t 0 allocs/op\nPASS\npkg: rimclear/app/scene\nBenchmarkDraw-2 5 2.0 ms/op\nok\trimclear/app/scene\n")
	var rows []string
	for line := range strings.Lines(out.String()) {
		rows = append(rows, strings.Join(strings.Fields(line), " "))
	}
	want := []string{"", "room benchmark runs figures", "kinematics/hip Axis-2 1000 12.5 ns/op, 0 B/op, 0 allocs/op", "app/scene Draw-2 5 2.0 ms/op"}
	if !slices.Equal(rows, want) {
		t.Errorf("table = %q, want %q", rows, want)
	}
}

func TestFuzzTestsBecomeStages(t *testing.T) {
	w, _ := sketch(t, map[string]string{
		"r/r_test.go": "package r\n\nimport \"testing\"\n\nfunc FuzzOne(f *testing.F) {}\n\nfunc FuzzTwo(f *testing.F) {}\n\nfunc BenchmarkX(b *testing.B) {}\n",
		"s/s.go":      "package s\n\nfunc FuzzNot() {}\n\nfunc f() { go f() }\n",
	})
	h, err := survey(w.root)
	if err != nil {
		t.Fatal(err)
	}
	if got := h.fuzzStages(time.Second, regexp.MustCompile("")); len(got) != 2 || got[0].name != "FuzzOne in r" {
		t.Errorf("fuzzStages(all) = %v, want FuzzOne and FuzzTwo", got)
	}
	if got := h.fuzzStages(time.Second, regexp.MustCompile("Two")); len(got) != 1 {
		t.Errorf("fuzzStages(Two) has %d stages, want 1", len(got))
	}
	if !h["r"].benchmarks || h["s"].benchmarks || h["r"].concurrent || !h["s"].concurrent {
		t.Errorf("the survey reads %+v and %+v", h["r"], h["s"])
	}
}

func TestASpeedPageHoldsPeersAgainstOurFiguresAndChecksTheSums(t *testing.T) {
	line, ok := readPeer("grid.cpp -O3 native,exact limit angle, closed-form root,median_ms,0.8,min_ms,0.7,checksum,3666522,free_orientations,976")
	if !ok || line.figures["checksum"] != "3666522" || line.figures["median_ms"] != "0.8" {
		t.Fatalf("read %+v", line)
	}
	if l, _ := readPeer("numpy 9.9 auto kernel,vectorised cos test float64,median_ms,5.2,min_ms,5"); l.what != "numpy ,vectorised cos test float64" {
		t.Errorf("numpy's line is known as %q", l.what)
	}
	if l, _ := readPeer("three-mesh-bvh (node v1),tri cup 28800 neck 10080,build_ms,7,median_us_per_pose,50.5,free,1"); l.figures["median_us_per_pose"] != "50.5" {
		t.Errorf("three-mesh-bvh's line reads %+v", l)
	}
	after := line
	after.figures = map[string]string{"median_ms": "1.0"}
	s := speed{
		gauges:  gauges[:1],
		results: results("pkg: rimclear/kinematics\nBenchmarkStandardGrid-2 100 450000 ns/op 976 free 3666522 checksum\n"),
		peers:   [][]peerLine{{line}, {after}},
	}
	if page := s.markdown(); !strings.Contains(page, "| 0.45 ms | C++ -O3 native, closed-form root | 0.8 ms | 1 ms | 1.78 |") || !strings.Contains(page, "| StandardGrid | 3666522 | 976 |") {
		t.Errorf("page:\n%s", page)
	}
	if err := s.verify(); err != nil {
		t.Error(err)
	}
	for _, off := range []string{"BenchmarkStandardGrid-2 100 450000 ns/op 976 free 3666521 checksum", "BenchmarkOther 1 1 ns/op"} {
		s.results = results("pkg: rimclear/kinematics\n" + off + "\n")
		if s.verify() == nil {
			t.Errorf("%q passes", off)
		}
	}
}

func TestEveryGaugeNamesABenchmarkThereIs(t *testing.T) {
	for _, g := range gauges {
		top, _, _ := strings.Cut(g.bench, "/")
		files, _ := filepath.Glob(filepath.Join("..", "..", g.room, "*_test.go"))
		found := false
		for _, name := range files {
			source, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			found = found || strings.Contains(string(source), "func Benchmark"+top+"(b *testing.B)")
		}
		if !found || g.bound == "" {
			t.Errorf("%s: no benchmark %s in %s, or nothing bounds it", g.what, top, g.room)
		}
	}
}
