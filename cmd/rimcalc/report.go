package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/casefile"
	"rimclear/app/present"
	"rimclear/app/report"
	"rimclear/app/session"
	"rimclear/app/store"
	"rimclear/assets"
)

func (t *terminal) report() *cli.Command {
	return &cli.Command{
		Name:      "report",
		Usage:     "write a report of a case: a PDF, its tables, its figures",
		UsageText: "rimcalc report CASE [--out FILE.pdf] [--paper a4|letter] [--language en|de] [--tables FOLDER] [--figures FOLDER]",
		Description: described(
			"CASE is a case file, or - for the standard input. The PDF has one to three pages.",
			"Equal cases give equal files: the date is printed only if --date gives it.",
			"",
			"rimcalc report hip.rimclear.json --out hip.pdf --date 2026-05-04",
			"rimcalc report hip.rimclear.json --tables tables --figures figures --dpi 600",
		),
		Flags: slices.Concat(reportFlags(), []cli.Flag{
			&cli.StringFlag{Name: "out", Value: "report.pdf", Usage: "`FILE` of the PDF, or - for the standard output"},
			&cli.StringFlag{Name: "paper", Value: report.Papers[0].Key, Usage: "`SIZE` of the paper: " + paperNames()},
			&cli.StringFlag{Name: "date", Usage: "`TEXT` printed as the date; without it there is none"},
			&cli.StringFlag{Name: "tables", Usage: "`FOLDER` for every table as CSV and as JSON"},
			&cli.StringFlag{Name: "figures", Usage: "`FOLDER` for every figure as SVG and as PNG"},
			&cli.StringFlag{Name: "language", Value: present.English().Language(), Usage: "`LANGUAGE` of the report: " + strings.Join(assets.Languages(), ", ")},
			&cli.FloatFlag{Name: "dpi", Value: usualDPI, Usage: "`DOTS` to the inch of the PNG files"},
			&cli.BoolFlag{Name: "json", Usage: "write the tables as JSON to the standard output, and no PDF"},
		}, parameterFlags()),
		Action: func(ctx context.Context, cmd *cli.Command) error {
			paper, ok := report.PaperOf(strings.ToLower(cmd.String("paper")))
			if !ok {
				return misused("--paper %q: must be one of %s", cmd.String("paper"), paperNames())
			}
			if err := checkDPI(cmd.Float("dpi")); err != nil {
				return err
			}
			if cmd.Args().Len() > 1 {
				return misused("report wants one case file, or - for the standard input")
			}
			s, err := t.reported(cmd, cmd.Args().First())
			if err != nil {
				return err
			}
			q, err := s.question(cmd.String("date"))
			if err != nil {
				return err
			}
			if q.Words, err = present.In(cmd.String("language")); err != nil {
				return misused("--language: %v", err)
			}
			f, err := report.Work(ctx, q)
			if err != nil {
				return err
			}
			if cmd.Bool("json") {
				return writeTables(t.out, f.Tables())
			}
			return t.writeReport(cmd, f, paper)
		},
	}
}

// writeReport writes the PDF, and tables and figures where they are wanted.
func (t *terminal) writeReport(cmd *cli.Command, f *report.Facts, paper report.Paper) error {
	out := cmd.String("out")
	if out == "-" {
		if err := f.WritePDF(t.out, paper); err != nil {
			return err
		}
	} else if err := t.keep(product{out, func(w io.Writer) error { return f.WritePDF(w, paper) }}, ""); err != nil {
		return err
	}
	if folder := cmd.String("tables"); folder != "" {
		if err := t.keepAll(tableFiles(f), folder); err != nil {
			return err
		}
	}
	if folder := cmd.String("figures"); folder != "" {
		return t.keepAll(figureFiles(f, cmd.Float("dpi")), folder)
	}
	return nil
}

// reported reads what is to be reported: a case named as an argument, by --case
// or by --sample, with what the flags replace in it.
func (t *terminal) reported(cmd *cli.Command, name string) (subject, error) {
	var s subject
	var err error
	if name != "" && (cmd.String("case") != "" || cmd.String("sample") != "") {
		return s, misused("%q: a case is named once", name)
	}
	named := func() (casefile.File, error) {
		if name == "" {
			return casefile.File{}, misused("%s wants a case file, or - for the standard input; or --sample", cmd.Name)
		}
		return t.readFile(name)
	}
	if s.file, err = t.chosenCase(cmd, named); err != nil {
		return s, err
	}
	if s.designs, err = chosen(&s.file.Case, cmd.String("design")); err != nil {
		return s, err
	}
	if s.c, err = flagged(cmd, s.file.Case, s.designs); err != nil {
		return s, err
	}
	if err := t.goal(cmd, &s); err != nil {
		return s, err
	}
	s.file.Case = s.c
	s.required, s.lost = s.motions.Required(&s.c)
	return s, nil
}

// question is what a report on the subject is asked.
func (s *subject) question(date string) (report.Question, error) {
	file, err := casefile.Encode(s.file)
	if err != nil {
		return report.Question{}, usageError{err}
	}
	return report.Question{
		Case: s.c, Required: s.required, Lost: s.lost, Active: s.designs[0],
		Fingerprint: report.Fingerprint(file), Program: report.Program(), Date: date,
		Weighing: func(key string) (rule, answer string) { return s.file.Weighing[key].Rule, s.file.Weighing[key].Answer },
	}, nil
}

// reportFlags say which case is meant.
func reportFlags() []cli.Flag {
	return append([]cli.Flag{
		&cli.StringFlag{Name: "case", Usage: "case `FILE`, or - for the standard input, where none is named as an argument"},
		&cli.StringFlag{Name: "sample", Usage: "a case built in: `NAME` is one of " + strings.Join(sampleNames(), ", ")},
		&cli.StringFlag{Name: "design", Usage: "the design to look at, by `LETTER` or number, and the one that values replace; without it the first, and all"},
	}, goalFlags()...)
}

// keepAll writes products into a folder, which is made if need be.
func (t *terminal) keepAll(list []product, folder string) error {
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	for _, p := range list {
		if err := t.keep(p, folder); err != nil {
			return err
		}
	}
	return nil
}

// keep writes one product whole, and says where.
func (t *terminal) keep(p product, folder string) error {
	path := filepath.Join(folder, p.name)
	if err := store.WriteFrom(path, p.write); err != nil {
		return err
	}
	_, err := fmt.Fprintln(t.errs, path)
	return err
}

// reportOf is the report of a case as a product of the demo.
func reportOf(f casefile.File) product {
	return product{"report.pdf", func(w io.Writer) error {
		motions := session.NewMotions()
		motions.Keep(f.Recordings)
		s := subject{file: f, c: f.Case, designs: []int{0}, motions: motions}
		s.required, s.lost = motions.Required(&s.c)
		q, err := s.question("")
		if err != nil {
			return err
		}
		facts, err := report.Work(context.Background(), q)
		if err != nil {
			return err
		}
		return facts.WritePDF(w, report.Papers[0])
	}}
}

func tableFiles(f *report.Facts) (list []product) {
	for _, table := range f.Tables() {
		list = append(list, product{table.Key + ".csv", table.WriteCSV}, product{table.Key + ".json", table.WriteJSON})
	}
	return list
}

// writeTables writes tables as one list.
func writeTables(out io.Writer, tables []report.Table) error {
	p := &printer{out: out}
	p.line("[")
	for i, table := range tables {
		if i > 0 {
			p.line(",")
		}
		if p.err == nil {
			p.err = table.WriteJSON(out)
		}
	}
	p.line("]")
	return p.err
}

func paperNames() string {
	var list []string
	for _, p := range report.Papers {
		list = append(list, p.Key)
	}
	return strings.Join(list, ", ")
}
