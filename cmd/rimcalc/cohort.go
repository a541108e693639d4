package main

import (
	"context"
	_ "embed"
	"io"

	"github.com/urfave/cli/v3"
)

// slurmScript answers a cohort as an array of jobs.
//
//go:embed cluster/cohort.slurm
var slurmScript string

func (t *terminal) cohort() *cli.Command {
	return &cli.Command{
		Name:      "cohort",
		Usage:     "all limits, verdicts and targets of many cases: one line in, one line out",
		UsageText: "rimcalc cohort [--in FILE] [--out FILE] [--shard I/N] [options] [values]",
		Description: described(
			"CSV: the first line names the columns, in any order: \"id\", and keys of values as in a case file",
			"(rimcalc cohort --columns lists them all). \"B.neck_diameter_mm\" is design B's alone, without a letter",
			"a value is that of every design. A column that is left out, and an empty cell, has the base case's",
			"value: that of --case, or of the usual hip, with the values given by flags. Commas separate, or",
			"semicolons or tabs, and then a decimal comma is read too. One case stands on one line.",
			"",
			"NDJSON: one object on each line, with the same names; or a whole case file, of which motions and",
			"criteria are passed over: those of the command apply to all.",
			"",
			"The results stand in the order of the lines: line, status (answered, error), id, fault_field,",
			"fault_value, fault_reason, the columns carried, and for each design (\"B.\" in front where there are",
			"several) oscillation_deg, then limit_KEY_deg and status_KEY (limit, none, contact_at_start,",
			"not_reached) for each movement; with --motion or --criteria serves, least_margin_deg, least_motion,",
			"margin_KEY_deg and verdict_KEY (met, close, short); with --target the cup of greatest margin.",
			"A line at fault is told on the error output too, and does not stop the run.",
			"",
			"With --in FILE and --out FILE a run that was ended, however it was ended, goes on where it stopped",
			"when the same command is given again. It does not if input, options or program have changed; what",
			"they were is kept beside the output, in FILE.run.json.",
			"",
			"rimcalc cohort --in cohort.csv --out results.csv --criteria severe",
			"zcat cohort.ndjson.gz | rimcalc cohort --format ndjson | gzip > results.ndjson.gz",
			"",
			"Several machines, or jobs, each answer a shard; merged, the shards are what one run writes:",
			"seq 8 | parallel rimcalc cohort --in cohort.csv --workers 1 --shard {}/8 --out part-{}",
			"rimcalc cohort --merge --out results.csv part-*",
			"rimcalc cohort --slurm > cohort.slurm     a script for an array of jobs; it says how to use it",
		),
		Flags:  append(cohortFlags(), parameterFlags()...),
		Action: t.runCohort,
	}
}

func cohortFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "in", Usage: "the cases: `FILE`, or - for the standard input", DefaultText: "-"},
		&cli.StringFlag{Name: "out", Usage: "write to `FILE` instead of the standard output"},
		&cli.StringFlag{Name: "format", Usage: "`FORMAT` of cases and results, csv or ndjson; told by the first character if left out"},
		&cli.StringFlag{Name: "case", Usage: "base case `FILE`: its values, and the designs to compare"},
		&cli.IntFlag{Name: "designs", Usage: "so many designs, `N`, 1 to 4; as many as the base case has if left out"},
		&cli.StringSliceFlag{Name: "carry", Usage: "copy the column `NAME` into the results; once for each"},
		&cli.StringSliceFlag{Name: "motion", Aliases: []string{"motions"}, Usage: "require the activity `KEY`; once for each, or a list with commas"},
		&cli.StringFlag{Name: "criteria", Usage: "require the set of criteria `KEY`"},
		&cli.BoolFlag{Name: "target", Usage: "find the cup position of greatest margin for what is required"},
		&cli.StringFlag{Name: "shard", Usage: "answer every N-th line from the I-th: `I/N`"},
		&cli.BoolFlag{Name: "stop-at-fault", Usage: "stop at the first line at fault"},
		workersFlag(),
		&cli.BoolFlag{Name: "merge", Usage: "join the results of all shards, the files named"},
		&cli.BoolFlag{Name: "columns", Usage: "list the columns that are read"},
		&cli.BoolFlag{Name: "slurm", Usage: "write a script for an array of jobs"},
	}
}

func (t *terminal) runCohort(ctx context.Context, cmd *cli.Command) error {
	switch {
	case cmd.Bool("slurm"):
		_, err := io.WriteString(t.out, slurmScript)
		return err
	case cmd.Bool("columns"):
		return t.writeColumns()
	case cmd.Bool("merge"):
		return t.mergeCohort(cmd)
	}
	r, err := t.cohortRun(cmd)
	if err != nil {
		return err
	}
	return r.run(ctx)
}

// writeColumns lists what a line may say.
func (t *terminal) writeColumns() error {
	p := &printer{out: t.out}
	p.line("id")
	for _, name := range columnLines() {
		p.line(name)
	}
	return p.err
}
