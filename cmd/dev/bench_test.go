package main

import (
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
