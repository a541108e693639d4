package cohort

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// spoilt returns a cohort in which every so many-th line is at fault.
func spoilt(count, every int) string {
	lines := strings.SplitAfter(sample(count, false), "\n")
	for i := every; i < len(lines)-1; i += every {
		lines[i] = "bad-" + lines[i][5:11] + ",right,wide,12,40,15,15,135,0\n"
	}
	return strings.Join(lines, "")
}

// place writes a cohort and returns its path and that of an output beside it.
func place(t testing.TB, in string) (input, output string) {
	t.Helper()
	dir := t.TempDir()
	input, output = filepath.Join(dir, "cohort.csv"), filepath.Join(dir, "results.csv")
	if err := os.WriteFile(input, []byte(in), 0o644); err != nil {
		t.Fatal(err)
	}
	return input, output
}

func read(t testing.TB, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestARunCutOffAnywhereGoesOnToTheSameResults(t *testing.T) {
	for _, f := range []Format{CSV, NDJSON} {
		text := spoilt(300, 17)
		if f == NDJSON {
			text = objects(sample(300, false)) + "{\"head_diameter_mm\":1}\n\n{\"side\":\"left\"}"
		}
		s := settings()
		s.Format = f
		want, whole, _ := run(t, s, text)
		input, output := place(t, text)
		if got, resumed, err := File(context.Background(), s, "test", input, output, Report{}); err != nil || got != whole || resumed != 0 || read(t, output) != want {
			t.Fatalf("unbroken: %+v, %d, %v", got, resumed, err)
		}
		state, _ := readState(output)
		state.Done = false
		r := rand.New(rand.NewPCG(41, 42))
		for range 24 {
			cut := r.IntN(len(want) + 1)
			torn := want[:cut]
			if r.IntN(3) == 0 {
				torn += "\x00\x00\x00\n\x00"
			}
			if err := errors.Join(os.WriteFile(output, []byte(torn), 0o644), state.write(output)); err != nil {
				t.Fatal(err)
			}
			got, resumed, err := File(context.Background(), s, "test", input, output, Report{})
			kept := max(0, strings.Count(want[:cut], "\n")-len(strings.Fields(s.Header())))
			if err != nil || got != whole || resumed != kept || read(t, output) != want {
				t.Fatalf("cut at byte %d: %+v (want %+v), %d kept (want %d), %v", cut, got, whole, resumed, kept, err)
			}
		}
		if after, err := readState(output); err != nil || !after.Done || after.Rows != whole.Answered || after.Faults != whole.Faults {
			t.Errorf("state at the end %+v, %v", after, err)
		}
	}
}

func TestAnInterruptedRunKeepsWholeLinesOnly(t *testing.T) {
	text := spoilt(4000, 50)
	want, whole, _ := run(t, settings(), text)
	input, output := place(t, text)
	ctx, stop := context.WithCancel(context.Background())
	seen := 0
	_, _, err := File(ctx, settings(), "test", input, output, Report{Read: func(int64) {
		if seen++; seen == 3 {
			stop()
		}
	}})
	if !errors.Is(err, context.Canceled) {
		t.Fatalf("interrupted: %v", err)
	}
	part := read(t, output)
	if !strings.HasPrefix(want, part) || !strings.HasSuffix(part, "\n") || len(part) == len(want) {
		t.Errorf("%d of %d bytes stand there, ending in %q", len(part), len(want), part[max(0, len(part)-20):])
	}
	got, resumed, err := File(context.Background(), settings(), "test", input, output, Report{})
	if err != nil || got != whole || resumed == 0 || read(t, output) != want {
		t.Errorf("taken up: %+v, %d, %v", got, resumed, err)
	}
}

func TestARunIsNotTakenUpWithOtherInputOrSettings(t *testing.T) {
	text := spoilt(30, 7)
	input, output := place(t, text)
	if _, _, err := File(context.Background(), settings(), "1", input, output, Report{}); err != nil {
		t.Fatal(err)
	}
	want := read(t, output)
	changed, _ := place(t, strings.Replace(text, "right", "left", 1))
	for _, tt := range []struct {
		name, input, program string
		change               func(*Settings)
		says                 string
	}{
		{"input", changed, "1", func(*Settings) {}, "the input"},
		{"program", input, "2", func(*Settings) {}, "version"},
		{"base", input, "1", func(s *Settings) { s.Base.Hip.Tilts.Standing = 0.1 }, "base case"},
		{"designs", input, "1", func(s *Settings) { s.Base.Count = 2 }, "base case"},
		{"criteria", input, "1", func(s *Settings) { s.Criteria = "severe" }, "--criteria"},
		{"motions", input, "1", func(s *Settings) { s.Motions = []string{"low_chair"} }, "--motion"},
		{"shards", input, "1", func(s *Settings) { s.Shard, s.Shards = 1, 2 }, "shards"},
	} {
		s := settings()
		tt.change(&s)
		_, _, err := File(context.Background(), s, tt.program, tt.input, output, Report{})
		if !errors.Is(err, ErrOther) || !strings.Contains(err.Error(), tt.says) || read(t, output) != want {
			t.Errorf("another %s: %v, want %q, and the output as it was", tt.name, err, tt.says)
		}
	}
	_, stray := place(t, "")
	if err := os.WriteFile(stray, []byte("mine\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, _, err := File(context.Background(), settings(), "1", input, stray, Report{}); !errors.Is(err, ErrOther) || read(t, stray) != "mine\n" {
		t.Errorf("a file of another kind: %v", err)
	}
}

func TestMergedShardsAreOneRun(t *testing.T) {
	for _, f := range []Format{CSV, NDJSON} {
		text := strings.Replace(spoilt(37, 12), "case-000020", "\n\ncase-000020", 1)
		if f == NDJSON {
			text = objects(sample(37, false)) + "\n\n{}\n"
		}
		s := settings()
		s.Format = f
		want, whole, _ := run(t, s, text)
		for _, n := range []int{1, 2, 5, 40} {
			input, _ := place(t, text)
			var parts []string
			for i := n; i >= 1; i-- { // in any order
				s.Shard, s.Shards = i, n
				part := filepath.Join(filepath.Dir(input), fmt.Sprintf("part-%d", i))
				if _, _, err := File(context.Background(), s, "test", input, part, Report{}); err != nil {
					t.Fatal(err)
				}
				parts = append(parts, part)
			}
			var out bytes.Buffer
			if tally, err := Merge(parts, &out); err != nil || tally != whole || out.String() != want {
				t.Errorf("%d shards: %+v (want %+v), %v, the same: %v", n, tally, whole, err, out.String() == want)
			}
		}
	}
}

func TestShardsThatDoNotBelongTogetherAreNotMerged(t *testing.T) {
	text := spoilt(40, 9)
	input, _ := place(t, text)
	shard := func(name string, i, n int, change func(*Settings)) string {
		s := settings()
		s.Shard, s.Shards = i, n
		change(&s)
		path := filepath.Join(filepath.Dir(input), name)
		if _, _, err := File(context.Background(), s, "test", input, path, Report{}); err != nil {
			t.Fatal(err)
		}
		return path
	}
	same := func(*Settings) {}
	a, b, twin := shard("a", 1, 2, same), shard("b", 2, 2, same), shard("twin", 1, 2, same)
	other := shard("other", 2, 2, func(s *Settings) { s.Criteria = "severe" })
	third := shard("third", 2, 3, same)
	unfinished := shard("unfinished", 2, 2, same)
	state, _ := readState(unfinished)
	state.Done = false
	if err := state.write(unfinished); err != nil {
		t.Fatal(err)
	}
	short := shard("short", 2, 2, same)
	if err := os.WriteFile(short, []byte(strings.Join(strings.SplitAfter(read(t, short), "\n")[:10], "")), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		list []string
		want string
	}{
		{nil, "no shards"}, {[]string{a}, "2/2 is missing"}, {[]string{a, twin}, "both shard 1"}, {[]string{a, other}, "--criteria"},
		{[]string{a, third}, "number of shards"}, {[]string{a, unfinished}, "not finished"}, {[]string{a, short}, "ended with"},
		{[]string{a, b, twin}, "both shard 1"}, {[]string{a, input}, "run.json"},
	} {
		if _, err := Merge(tt.list, &bytes.Buffer{}); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v: %v, want %q", tt.list, err, tt.want)
		}
	}
}

func TestTwoRunsDoNotWriteOneFile(t *testing.T) {
	input, output := place(t, spoilt(30, 7))
	if _, _, err := File(context.Background(), settings(), "1", input, output, Report{}); err != nil {
		t.Fatal(err)
	}
	f, err := os.OpenFile(output, os.O_RDWR, 0)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := lock(f); err != nil {
		t.Skipf("no locks here: %v", err)
	}
	if _, _, err := File(context.Background(), settings(), "1", input, output, Report{}); err == nil || !strings.Contains(err.Error(), "another run") {
		t.Errorf("a second run: %v", err)
	}
}

func TestAnOutputThatCannotBeWrittenEndsTheRun(t *testing.T) {
	_, err := Run(context.Background(), settings(), strings.NewReader(sample(20000, false)), &full{room: 100000}, Report{})
	if !errors.Is(err, errFull) {
		t.Errorf("a full disk: %v", err)
	}
}

// full is a disk with so much room.
type full struct{ room int }

var errFull = errors.New("no space left")

func (f *full) Write(p []byte) (int, error) {
	if f.room -= len(p); f.room < 0 {
		return 0, errFull
	}
	return len(p), nil
}

func TestWorkersChangeNothing(t *testing.T) {
	text := spoilt(3000, 31)
	s := settings()
	s.Workers = 1
	want, whole, faults := run(t, s, text)
	for _, n := range []int{2, 3, 16} {
		s.Workers = n
		got, tally, told := run(t, s, text)
		if got != want || tally != whole || fmt.Sprint(told) != fmt.Sprint(faults) {
			t.Errorf("%d workers: %+v, want %+v", n, tally, whole)
		}
	}
}
