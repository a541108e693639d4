package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
	"time"
)

// bench runs the benchmarks of the rooms free of Fyne without cgo, then those
// of the window's rooms with it, and ends with one table of all.
func bench(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev bench", flag.ContinueOnError)
	only := f.String("only", ".", "regular expression: only benchmarks whose name matches")
	length := f.Duration("for", time.Second, "how long each benchmark runs")
	count := f.Int("count", 1, "how often each benchmark runs")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	h, err := survey(w.root)
	if err != nil {
		return err
	}
	measure := []string{
		"test", "-run", "^$", "-bench", *only, "-benchmem", "-benchtime", length.String(), "-count", fmt.Sprint(*count), "-p", "1",
	}
	var seen bytes.Buffer
	out := io.MultiWriter(w.out, &seen)
	bare := h.choose(func(r *room) bool { return r.benchmarks && !h.needsFyne(r.path) })
	failed := w.measure(ctx, out, secluded(pure), measure, bare)
	window := h.choose(func(r *room) bool { return r.benchmarks && h.needsFyne(r.path) })
	if missing, err := absent(ctx, headers); err != nil || len(missing) > 0 {
		fmt.Fprintln(out, "not measured, a compiler or headers are missing:", strings.Join(window, " "))
	} else {
		failed += w.measure(ctx, out, secluded(cgo), append(measure, "-tags", uiTags), window)
	}
	table(w.out, seen.String())
	if failed > 0 {
		return exitCode(1)
	}
	return nil
}

// measure runs the benchmarks of the rooms and returns how many runs failed.
func (w *workshop) measure(ctx context.Context, out io.Writer, env, line, rooms []string) int {
	if len(rooms) == 0 {
		return 0
	}
	c := w.child(ctx, env, "go", append(line, rooms...)...)
	c.Stdout = out
	if c.Run() != nil {
		return 1
	}
	return 0
}

// table writes the benchmark lines of `go test` with the room each is from.
func table(out io.Writer, output string) {
	columns := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprint(columns, "\nroom\tbenchmark\truns\tfigures\n")
	var in string
	for line := range strings.Lines(output) {
		fields := strings.Fields(line)
		switch {
		case len(fields) == 2 && fields[0] == "pkg:":
			in = below(fields[1])
		case len(fields) >= 4 && strings.HasPrefix(fields[0], "Benchmark"):
			fmt.Fprintf(columns, "%s\t%s\t%s\t%s\n", in, strings.TrimPrefix(fields[0], "Benchmark"), fields[1], figures(fields[2:]))
		}
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
