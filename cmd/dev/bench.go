package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"
	"text/tabwriter"
	"time"
)

// bench measures the lines of the speed page beside the peer programs where
// there are any, or with -every all benchmarks there are, as one table.
func bench(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev bench", flag.ContinueOnError)
	peers := f.String("peers", "", "folder of the peer programs, with run.sh; they run before and after")
	reps := f.Int("reps", 7, "how often each peer runs, before and after")
	every := f.Bool("every", false, "run every benchmark there is and write no page")
	only := f.String("only", "", "regular expression: with -every only benchmarks whose name matches; else only lines of the page whose benchmark does")
	length := f.Duration("for", time.Second, "how long each benchmark runs")
	count := f.Int("count", 1, "how often each benchmark runs")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	if f.NArg() > 0 {
		return fmt.Errorf("bench takes no arguments, not %q", f.Args())
	}
	b := bencher{workshop: w, length: *length, count: *count, reps: *reps}
	if *every {
		return b.every(ctx, *only)
	}
	folder := *peers
	if folder != "" && !filepath.IsAbs(folder) {
		folder = filepath.Join(w.here, folder)
	}
	return b.page(ctx, *only, folder)
}

// bencher runs benchmarks; seen is what they wrote.
type bencher struct {
	*workshop
	length time.Duration
	count  int
	reps   int // of the peers
	seen   bytes.Buffer
	failed int
}

// run runs the benchmarks of rooms that match. What prefix names runs the go
// command, or nothing.
func (b *bencher) run(ctx context.Context, env, prefix []string, match string, length string, flags []string, rooms ...string) {
	if len(rooms) == 0 {
		return
	}
	line := append(slices.Clone(prefix), "go", "test", "-run", "^$", "-bench", match, "-benchmem",
		"-benchtime", length, "-count", fmt.Sprint(b.count), "-p", "1", "-timeout", "60m")
	line = append(append(line, flags...), rooms...)
	c := b.child(ctx, env, line[0], line[1:]...)
	c.Stdout = io.MultiWriter(b.out, &b.seen)
	if c.Run() != nil {
		b.failed++
	}
}

// every runs the benchmarks of the rooms free of Fyne without cgo, then those of
// the window's rooms with it.
func (b *bencher) every(ctx context.Context, only string) error {
	if only == "" {
		only = "."
	}
	h, err := survey(b.root)
	if err != nil {
		return err
	}
	b.run(ctx, secluded(pure), nil, only, b.length.String(), nil,
		h.choose(func(r *room) bool { return r.benchmarks && !h.needsFyne(r.path) })...)
	window := h.choose(func(r *room) bool { return r.benchmarks && h.needsFyne(r.path) })
	if b.hasHeaders(ctx) {
		b.run(ctx, secluded(cgo), nil, only, b.length.String(), []string{"-tags", uiTags}, window...)
	} else {
		fmt.Fprintln(b.out, "not measured, a compiler or headers are missing:", strings.Join(window, " "))
	}
	table(b.out, b.seen.String())
	if b.failed > 0 {
		return exitCode(1)
	}
	return nil
}

func (b *bencher) hasHeaders(ctx context.Context) bool {
	missing, err := absent(ctx, headers)
	return err == nil && len(missing) == 0
}

// result is a benchmark line of `go test`.
type result struct {
	room, name, runs string
	figures          []string // value and unit in turn
}

// results reads the benchmark lines of `go test` with the room each is from.
func results(output string) (list []result) {
	var in string
	for line := range strings.Lines(output) {
		fields := strings.Fields(line)
		switch {
		case len(fields) == 2 && fields[0] == "pkg:":
			in = below(fields[1])
		case len(fields) >= 4 && strings.HasPrefix(fields[0], "Benchmark"):
			list = append(list, result{in, strings.TrimPrefix(fields[0], "Benchmark"), fields[1], fields[2:]})
		}
	}
	return list
}

// table writes all results.
func table(out io.Writer, output string) {
	columns := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprint(columns, "\nroom\tbenchmark\truns\tfigures\n")
	for _, r := range results(output) {
		fmt.Fprintf(columns, "%s\t%s\t%s\t%s\n", r.room, r.name, r.runs, figures(r.figures))
	}
	columns.Flush()
}

// figures joins value and unit pairs.
func figures(fields []string) string {
	var pairs []string
	for ; len(fields) >= 2; fields = fields[2:] {
		pairs = append(pairs, fields[0]+" "+fields[1])
	}
	return strings.Join(pairs, ", ")
}
