package main

import (
	"context"
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"github.com/urfave/cli/v3"

	"rimclear/app/chart"
	"rimclear/app/cohort"
	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/store"
)

func (t *terminal) summary() *cli.Command {
	return &cli.Command{
		Name:      "summary",
		Usage:     "what the results of a cohort come to: how limits are spread, who is served",
		UsageText: "rimcalc summary [FILE | -] [--json | --csv] [--limits FILE] [--served FILE]",
		Description: described(
			"Reads what \"rimcalc cohort\" writes, CSV or NDJSON, of any length in constant memory. Quantiles are",
			"exact to 0.005°, the least and the greatest to the last digit. Lines at fault count nowhere but as such.",
			"",
			"rimcalc summary results.csv",
			"rimcalc summary results.csv --limits limits.svg --served served.png",
			"rimcalc cohort --in cohort.csv --criteria severe | rimcalc summary --json",
		),
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "json", Usage: "write JSON"},
			&cli.BoolFlag{Name: "csv", Usage: "write CSV"},
			&cli.StringFlag{Name: "limits", Usage: "draw how the limits are spread to `FILE`: .svg, .png or .pdf"},
			&cli.StringFlag{Name: "served", Usage: "draw who is served to `FILE`: .svg, .png or .pdf"},
			&cli.BoolFlag{Name: "dark", Usage: "draw on dark ground"},
		},
		Action: t.runSummary,
	}
}

func (t *terminal) runSummary(_ context.Context, cmd *cli.Command) error {
	if cmd.Bool("json") && cmd.Bool("csv") {
		return misused("--json and --csv exclude each other")
	}
	name := "-"
	switch args := cmd.Args().Slice(); {
	case len(args) > 1:
		return misused("%q: only one file is read", args[1])
	case len(args) == 1:
		name = args[0]
	case isTerminalIn(t.in):
		return misused("name the results of a cohort, or - for the standard input")
	}
	in, done, err := t.open(name)
	if err != nil {
		return err
	}
	defer done()
	s, err := cohort.Summarise(in)
	if err != nil {
		return usageError{fmt.Errorf("%s: %w", title(name), err)}
	}
	if err := drawSummary(cmd, s); err != nil {
		return err
	}
	return t.write(cmd, &summaryReply{s})
}

// drawSummary writes the pictures that are asked for.
func drawSummary(cmd *cli.Command, s *cohort.Summary) error {
	palette := figure.Light()
	if cmd.Bool("dark") {
		palette = figure.Dark()
	}
	w := present.English()
	if path := cmd.String("limits"); path != "" {
		c := s.LimitsChart(w)
		if err := savePicture(path, c.Draw(chart.Look{Size: summarySize(len(c.Rows), len(s.Designs)), Palette: palette})); err != nil {
			return err
		}
	}
	if path := cmd.String("served"); path != "" {
		c := s.StandingsChart(w)
		if len(c.Rows) == 0 {
			return misused("--served: the cohort was held to nothing; run it with --criteria or --motion")
		}
		return savePicture(path, c.Draw(chart.Look{Size: summarySize(len(c.Rows), len(s.Designs)), Palette: palette}))
	}
	return nil
}

// summarySize is the size of a picture with so many rows of bars, in points.
func summarySize(rows, designs int) figure.Point {
	return figure.Pt(640, 92+float64(rows)*(9.3+19.4*float64(designs)))
}

// savePicture writes a figure in the format that the file's name asks for.
func savePicture(path string, f figure.Figure) error {
	format, err := formatOf(path, "")
	if err != nil {
		return misused("%q: the name must end in .svg, .png or .pdf", path)
	}
	return store.WriteFrom(path, writerOf(f, format, 72*pixels))
}

// summaryReply is a summary as text, CSV or JSON.
type summaryReply struct{ *cohort.Summary }

var quantiles = [5]float64{0.05, 0.25, 0.5, 0.75, 0.95}

func (r *summaryReply) text(p *printer, w *present.Words) {
	p.line(w.Phrase("cohort_counts", "answered", fmt.Sprint(r.Answered), "faults", fmt.Sprint(r.Faults)))
	for _, name := range r.FieldNames() {
		shown := name
		if name == "" {
			shown = w.Phrase("cohort_whole_line")
		}
		p.line("   " + w.Phrase("cohort_fault_field", "field", shown, "count", fmt.Sprint(r.Fields[name])))
	}
	for i := range r.Designs {
		d := &r.Designs[i]
		p.line("")
		if d.Letter != "" {
			p.line(w.Phrase("cohort_design", "letter", d.Letter))
		}
		p.numbers(r.spreadLines(w, d))
		if len(d.Criteria) > 0 {
			p.line("")
			p.numbers(r.servedLines(w, d))
		}
	}
	p.line("")
	p.line(w.Phrase("cohort_quantiles"))
	p.line(w.Caution())
}

// spreadLines returns the table of quantiles.
func (r *summaryReply) spreadLines(w *present.Words, d *cohort.DesignSummary) [][]string {
	lines := [][]string{{w.Phrase("cohort_movement"), "5 %", "25 %", "50 %", "75 %", "95 %", "min", "max", w.Phrase("cohort_free"), w.Phrase("cohort_not_begun")}}
	add := func(name string, s *cohort.Spread) {
		line := []string{name}
		for _, q := range quantiles {
			line = append(line, r.quantile(w, s.Quantile(q)))
		}
		least, most := "", ""
		if a, b, ok := s.Extremes(); ok {
			least, most = present.Digits(a, 1), present.Digits(b, 1)
		}
		lines = append(lines, append(line, least, most, fmt.Sprint(s.Free()), fmt.Sprint(s.NotBegun())))
	}
	for i := range d.Limits {
		add(cohort.LimitName(w, d.Limits[i].Key), &d.Limits[i])
	}
	for i := range d.Margins {
		add(w.Phrase("cohort_margin", "name", cohort.RequiredName(w, d.Margins[i].Key)), &d.Margins[i])
	}
	return lines
}

func (r *summaryReply) quantile(w *present.Words, x float64) string {
	switch {
	case math.IsNaN(x):
		return ""
	case math.IsInf(x, 1):
		return w.Phrase("cohort_free")
	case math.IsInf(x, -1):
		return w.Phrase("cohort_not_begun")
	}
	return present.Digits(x, 1)
}

// servedLines returns the table of who is served.
func (r *summaryReply) servedLines(w *present.Words, d *cohort.DesignSummary) [][]string {
	lines := [][]string{{w.Phrase("cohort_required"), w.Phrase("cohort_served"), w.Phrase("chart_standings_met"),
		w.Phrase("chart_standings_close"), w.Phrase("chart_standings_short"), w.Phrase("cohort_least_often")}}
	for _, c := range append([]cohort.Share{d.Serves}, d.Criteria...) {
		least := ""
		if c.Key != "" {
			least = fmt.Sprint(d.Least[c.Key])
		}
		lines = append(lines, []string{cohort.RequiredName(w, c.Key), w.Percent(c.Served(), 2),
			fmt.Sprint(c.Count[0]), fmt.Sprint(c.Count[1]), fmt.Sprint(c.Count[2]), least})
	}
	return lines
}

// numbers writes lines of cells under each other; the first column is words,
// set to the left, the others are set to the right.
func (p *printer) numbers(lines [][]string) {
	width := columnWidths(lines)
	for _, cells := range lines {
		var b strings.Builder
		for i, c := range cells {
			gap := strings.Repeat(" ", width[i]-utf8.RuneCountInString(c))
			if i == 0 {
				b.WriteString(c + gap)
			} else {
				b.WriteString("  " + gap + c)
			}
		}
		p.line(b.String())
	}
}
