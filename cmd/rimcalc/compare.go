package main

import (
	"context"
	"strconv"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/kinematics"
)

func (t *terminal) compare() *cli.Command {
	return &cli.Command{
		Name:      "compare",
		Usage:     "the designs of a case side by side",
		UsageText: "rimcalc compare [--case FILE] [--base A] [--json | --csv] [values]",
		Description: described(
			"Limits, oscillation, head-neck ratio, the verdict on each motion, the share of placements that",
			"meet every criterion, and how the head is held, each with its difference from the base.",
			"A difference of limits counts up to the native passive range, where the hip itself stops.",
			"Without --case it compares the designs of the sample "+sampleNames()[0]+".",
			"",
			"rimcalc compare --base B",
			"rimcalc compare --case hip.rimclear.json --criteria severe --csv > compared.csv",
		),
		Flags: append(append(append(caseFlags(), goalFlags()...),
			&cli.StringFlag{Name: "base", Value: "A", Usage: "the design from which the others differ, by `LETTER` or number"},
			&cli.BoolFlag{Name: "no-share", Usage: "simulate no placements, which take most of the time"},
			&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "of the placements: `N`"},
			workersFlag(),
		), parameterFlags()...),
		Action: t.runCompare,
	}
}

// comparison are the answers of the compare command.
type comparison struct {
	subject
	base    int // index in designs
	seed    uint64
	compare []present.Compared
	parts   []present.ComparisonPart
}

func (t *terminal) runCompare(ctx context.Context, cmd *cli.Command) error {
	s, err := t.subject(cmd, sampleDesigns)
	if err != nil {
		return err
	}
	a := comparison{subject: s, seed: cmd.Uint64("seed")}
	if a.base, err = base(&s, cmd.String("base")); err != nil {
		return err
	}
	n, err := workers(cmd)
	if err != nil {
		return err
	}
	for _, i := range s.designs {
		one := present.Compare(s.c.Hip, s.c.Designs[i], s.required, s.c.Goal)
		if len(s.required) > 0 && !cmd.Bool("no-share") {
			if one.Share, err = t.share(ctx, &a, i, one.Joint, n); err != nil {
				return err
			}
		}
		a.compare = append(a.compare, one)
	}
	a.parts = present.English().Comparison(&s.c, s.required, a.compare)
	return t.write(cmd, &a)
}

// share simulates the placements of one design.
func (t *terminal) share(ctx context.Context, a *comparison, i int, j kinematics.Joint, workers int) (*kinematics.Share, error) {
	bar := t.progress("placements of "+present.Letter(i), "runs", randomisations)
	defer bar.clear()
	share, err := kinematics.Placement(ctx, kinematics.Simulation{Search: a.search(i, j), Scatter: a.c.Goal.Scatter(),
		Seed: a.seed, Workers: workers, Progress: bar.of})
	return &share, err
}

// base returns the place in the list of designs of the one that --base names.
func base(s *subject, text string) (int, error) {
	for k, i := range s.designs {
		if strings.EqualFold(text, present.Letter(i)) || text == strconv.Itoa(i+1) {
			return k, nil
		}
	}
	letters := make([]string, len(s.designs))
	for k, i := range s.designs {
		letters[k] = present.Letter(i)
	}
	return 0, misused("--base %q: must be one of the designs compared, %s", text, strings.Join(letters, ", "))
}
