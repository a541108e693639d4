package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/app/report"
	"rimclear/app/store"
	"rimclear/kinematics"
)

const usualDPI = 300

// Bounds of a figure: what paper and memory have room for.
const (
	leastDPI, mostDPI   = 30, 2400
	leastSide, mostSide = 30, 1000 // mm
	mostPixels          = 200e6
	pointsPerMillimetre = 72 / 25.4
)

func (t *terminal) figure() *cli.Command {
	return &cli.Command{
		Name:      "figure",
		Usage:     "write one figure of a case as SVG, PNG or PDF",
		UsageText: "rimcalc figure KEY CASE --out FILE.svg|FILE.png|FILE.pdf\n   rimcalc figure --list [CASE]",
		Description: described(
			"KEY is one of those that --list shows; CASE is a case file, or - for the standard input.",
			"",
			"rimcalc figure rim_clock hip.rimclear.json --out rim.png --dpi 600 --width 85 --height 85",
			"rimcalc figure target_map-B hip.rimclear.json --out - --format pdf > map.pdf",
		),
		Flags: slices.Concat(reportFlags(), []cli.Flag{
			&cli.StringFlag{Name: "out", Usage: "`FILE` to write, or - for the standard output"},
			&cli.StringFlag{Name: "format", Usage: "svg, png or pdf, where the file's name does not say so"},
			&cli.FloatFlag{Name: "dpi", Value: usualDPI, Usage: "`DOTS` to the inch of a PNG"},
			&cli.FloatFlag{Name: "width", Usage: "width in `MM`"},
			&cli.FloatFlag{Name: "height", Usage: "height in `MM`"},
			&cli.BoolFlag{Name: "list", Usage: "list the figures there are"},
			&cli.BoolFlag{Name: "json", Usage: "list them as JSON"},
		}, parameterFlags()),
		Action: func(ctx context.Context, cmd *cli.Command) error {
			if cmd.Bool("list") {
				return t.listFigures(cmd)
			}
			return t.writeFigure(ctx, cmd)
		},
	}
}

func (t *terminal) listFigures(cmd *cli.Command) error {
	if cmd.Args().Len() > 1 {
		return misused("figure --list wants one case file at most")
	}
	q := report.Question{Case: kinematics.Default()}
	if cmd.Args().Present() || cmd.IsSet("case") || cmd.IsSet("sample") {
		s, err := t.reported(cmd, cmd.Args().First())
		if err != nil {
			return err
		}
		q.Case = s.c
	}
	drawings := report.Index(q)
	if cmd.Bool("json") {
		list := report.Table{Key: "figures", Title: present.English().Phrase("report_figures"), Columns: []string{"figure", "title"}}
		for _, d := range drawings {
			list.Rows = append(list.Rows, []any{d.Key, d.Title})
		}
		return list.WriteJSON(t.out)
	}
	p := &printer{out: t.out}
	for _, d := range drawings {
		p.line(fmt.Sprintf("%-28s %s", d.Key, d.Title))
	}
	return p.err
}

func (t *terminal) writeFigure(ctx context.Context, cmd *cli.Command) error {
	if n := cmd.Args().Len(); n < 1 || n > 2 {
		return misused("figure wants a key and a case file, or - for the standard input; --list shows the keys")
	}
	format, err := formatOf(cmd.String("out"), cmd.String("format"))
	if err != nil {
		return err
	}
	d, err := t.drawing(ctx, cmd)
	if err != nil {
		return err
	}
	size, err := sizeOf(cmd, d.Size)
	if err != nil {
		return err
	}
	dpi := cmd.Float("dpi")
	if format == "png" {
		if err := checkPixels(size, dpi); err != nil {
			return err
		}
	}
	write := writerOf(d.Draw(size), format, dpi)
	if out := cmd.String("out"); out != "-" {
		return store.WriteFrom(out, write)
	}
	return write(t.out)
}

// drawing finds the figure asked for. What does not depend on the motions is
// not worked out for one that shows none.
func (t *terminal) drawing(ctx context.Context, cmd *cli.Command) (report.Drawing, error) {
	key := cmd.Args().First()
	s, err := t.reported(cmd, cmd.Args().Get(1))
	if err != nil {
		return report.Drawing{}, err
	}
	q, err := s.question("")
	if err != nil {
		return report.Drawing{}, err
	}
	still := q
	still.Required, still.Lost = nil, nil
	f, err := report.Work(ctx, still)
	if err != nil {
		return report.Drawing{}, err
	}
	d, ok := f.FindDrawing(key)
	if ok && d.Motions {
		if f, err = report.Work(ctx, q); err != nil {
			return d, err
		}
		d, ok = f.FindDrawing(key)
	}
	if !ok {
		var keys []string
		for _, d := range f.Drawings() {
			keys = append(keys, d.Key)
		}
		return d, misused("no figure %q; there are %s", key, strings.Join(keys, ", "))
	}
	return d, nil
}

// formatOf returns the format that a file's name or --format says.
func formatOf(out, format string) (string, error) {
	if out == "" {
		return "", misused("--out names no file")
	}
	if format == "" {
		format = strings.TrimPrefix(filepath.Ext(out), ".")
	}
	switch format = strings.ToLower(format); format {
	case "svg", "png", "pdf":
		return format, nil
	}
	return "", misused("--out %q: the name must end in .svg, .png or .pdf, or --format must say which it is", out)
}

// sizeOf returns the size asked for. One side alone keeps the usual shape.
func sizeOf(cmd *cli.Command, usual figure.Point) (figure.Point, error) {
	size := usual
	for _, side := range []string{"width", "height"} {
		if v := cmd.Float(side); cmd.IsSet(side) && !(v >= leastSide && v <= mostSide) {
			return size, misused("--%s %v: must be from %d to %d mm", side, v, leastSide, mostSide)
		}
	}
	w, h := cmd.Float("width")*pointsPerMillimetre, cmd.Float("height")*pointsPerMillimetre
	switch {
	case w > 0 && h > 0:
		size = figure.Pt(w, h)
	case w > 0:
		size = usual.Scale(w / usual.X)
	case h > 0:
		size = usual.Scale(h / usual.Y)
	}
	return size, nil
}

func checkDPI(dpi float64) error {
	if dpi >= leastDPI && dpi <= mostDPI {
		return nil
	}
	return misused("--dpi %v: must be from %d to %d", dpi, leastDPI, mostDPI)
}

func checkPixels(size figure.Point, dpi float64) error {
	if err := checkDPI(dpi); err != nil {
		return err
	}
	if n := size.X * size.Y * (dpi / 72) * (dpi / 72); n > mostPixels {
		return misused("--dpi %v: that would be %.0f million pixels; there may be %.0f million", dpi, n/1e6, mostPixels/1e6)
	}
	return nil
}

// writerOf returns what writes a figure in a format.
func writerOf(d figure.Figure, format string, dpi float64) func(io.Writer) error {
	switch format {
	case "png":
		return func(w io.Writer) error { return d.WritePNG(w, dpi/72) }
	case "pdf":
		return d.WritePDF
	}
	return d.WriteSVG
}

// figureFiles are all figures as SVG and as PNG.
func figureFiles(f *report.Facts, dpi float64) (list []product) {
	for _, d := range f.Drawings() {
		drawn := d.Draw(d.Size)
		list = append(list, product{d.Key + ".svg", drawn.WriteSVG},
			product{d.Key + ".png", func(w io.Writer) error { return drawn.WritePNG(w, dpi/72) }})
	}
	return list
}
