package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"runtime"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/store"
)

func (t *terminal) sweep() *cli.Command {
	return &cli.Command{
		Name:      "sweep",
		Usage:     "the limit of one movement per line of a CSV file",
		UsageText: "rimcalc sweep [FILE | -] [--out FILE]",
		Description: described(
			"Reads lines with these columns, in any order (degrees and mm; an empty cell means absent):",
			"  needed        "+strings.Join(neededColumns, ", "),
			"  the neck      neck_d, or tap_d0, tap_s0, tap_d1, tap_s1, or oval_a, oval_b, oval_roll",
			"  else          id, side (R, L), wall, inset, lip_h, lip_c, lip_w, lip_r, skirt_d, skirt_l,",
			"                flex, add, ir (the start)",
			"motion is one of "+strings.Join(movementWords(), ", ")+"; end is counted in its direction.",
			"",
			"Writes "+strings.Join(answerColumns, ", ")+",",
			"then every other column as it was, row by row in the same order. status is limit, none,",
			"contact_at_start or error; what is wrong with a row is said on the error output.",
			"",
			"rimcalc sweep cohort.csv > answers.csv",
			"cat cohort.csv | rimcalc sweep - --out answers.csv",
		),
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "out", Usage: "write to `FILE`, whole or not at all, instead of the standard output"},
			&cli.IntFlag{Name: "workers", Usage: "rows answered at a time, `N`; 0 for one per core. The answers are the same"},
		},
		Action: t.runSweep,
	}
}

const mostWorkers = 256

func (t *terminal) runSweep(ctx context.Context, cmd *cli.Command) error {
	name, err := t.sweepInput(cmd.Args().Slice())
	if err != nil {
		return err
	}
	workers := cmd.Int("workers")
	switch {
	case workers < 0 || workers > mostWorkers:
		return misused("--workers %d: must be from 0 to %d", workers, mostWorkers)
	case workers == 0:
		workers = runtime.GOMAXPROCS(0)
	}
	in, done, err := t.open(name)
	if err != nil {
		return err
	}
	defer done()
	s := &sweeper{in: in, errs: t.errs, title: title(name), workers: workers}
	if path := cmd.String("out"); path != "" {
		err = store.WriteFrom(path, func(out io.Writer) error { return s.run(ctx, out) })
	} else {
		err = s.run(ctx, t.out)
	}
	if err != nil {
		return err
	}
	if s.bad > 0 {
		fmt.Fprintf(t.errs, "rimcalc: %d of %d rows could not be answered\n", s.bad, s.rows)
		return errRows
	}
	return nil
}

// sweepInput returns the file to read: the one named, or the standard input
// where something is piped in.
func (t *terminal) sweepInput(args []string) (string, error) {
	switch {
	case len(args) == 1:
		return args[0], nil
	case len(args) > 1:
		return "", misused("%q: only one file is read", args[1])
	}
	if f, ok := t.in.(*os.File); ok {
		if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice != 0 {
			return "", misused("name a CSV file, or - for the standard input")
		}
	}
	return "-", nil
}
