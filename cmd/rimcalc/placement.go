package main

import (
	"context"
	"math/bits"
	"slices"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

func (t *terminal) placement() *cli.Command {
	return &cli.Command{
		Name:      "placement",
		Usage:     "the share of simulated placements that meet every criterion",
		UsageText: "rimcalc placement [--case FILE] [--scatter KEY] [--seed N] [--json | --csv] [values]",
		Description: described(
			"Cups and stems are placed about where they are meant to be, normally scattered, and each",
			"placement is held to every motion required and to the bounds of stability. The scatter is the",
			"case's; --scatter takes a published one over, --scatter-inclination-deg and the like set your own.",
			"",
			"rimcalc placement --scatter bosker --criteria severe",
			"rimcalc placement --case hip.rimclear.json --seed 7 --json",
			"",
			"The same seed gives the same answer, whatever the number of cores.",
		),
		Flags: append(append(append(caseFlags(), goalFlags()...),
			&cli.StringSliceFlag{Name: "scatter", Usage: "take a published scatter over: `KEY` is one of " + strings.Join(presetKeys(), ", ") + "; once for each"},
			&cli.Uint64Flag{Name: "seed", Value: 1, Usage: "of the placements: `N`"},
			&cli.IntFlag{Name: "placements", Value: usualPlacements, Usage: "how many, `N`; made 16 times a power of two"},
			&cli.BoolFlag{Name: "no-best", Usage: "do not look for the cup position of the greatest share, which takes most of the time"},
			workersFlag(),
		), parameterFlags()...),
		Action: t.runPlacement,
	}
}

// Sizes of a simulation.
const (
	randomisations  = 16
	usualPlacements = randomisations * 512
	mostPlacements  = randomisations << 20
)

func presetKeys() []string {
	keys := make([]string, len(kinematics.ScatterPresets))
	for i, p := range kinematics.ScatterPresets {
		keys[i] = p.Key
	}
	return keys
}

// placementAsked is what the placements are asked.
type placementAsked struct {
	subject
	presets []kinematics.ScatterPreset
	scatter kinematics.Scatter
	seed    uint64
	points  int
	best    bool
	workers int
}

func (t *terminal) runPlacement(ctx context.Context, cmd *cli.Command) error {
	q, err := t.placementAsked(cmd)
	if err != nil {
		return err
	}
	a := placements{placementAsked: q}
	for _, i := range q.designs {
		one, err := t.place(ctx, &q, i)
		if err != nil {
			return err
		}
		a.designs = append(a.designs, one)
	}
	return t.write(cmd, &a)
}

func (t *terminal) placementAsked(cmd *cli.Command) (q placementAsked, err error) {
	if q.subject, err = t.subject(cmd, usualHip); err != nil {
		return q, err
	}
	if q.workers, err = workers(cmd); err != nil {
		return q, err
	}
	if !slices.ContainsFunc(q.required, func(r motion.Requirement) bool { return !r.Open }) {
		return q, misused("no motion is required that has an end, so every placement would serve; name some by --motion or --criteria")
	}
	n := cmd.Int("placements")
	if n < randomisations || n > mostPlacements {
		return q, misused("--placements %d: must be from %d to %d", n, randomisations, mostPlacements)
	}
	q.points = 1 << bits.Len(uint((n-1)/randomisations))
	q.seed, q.best = cmd.Uint64("seed"), !cmd.Bool("no-best")
	q.scatter, q.presets, err = scatter(cmd, q.c.Goal)
	q.c.Goal.SD, q.file.Case.Goal.SD = q.scatter.SD, q.scatter.SD
	return q, err
}

// scatter returns the case's scatter with the presets that are named; a value
// given by a flag of its own stands.
func scatter(cmd *cli.Command, g kinematics.Goal) (kinematics.Scatter, []kinematics.ScatterPreset, error) {
	s := g.Scatter()
	var list []kinematics.ScatterPreset
	for _, key := range cmd.StringSlice("scatter") {
		found := false
		for _, p := range kinematics.ScatterPresets {
			if p.Key == key {
				s, list, found = s.With(p), append(list, p), true
			}
		}
		if !found {
			return s, nil, misused("--scatter %q: must be one of %s", key, strings.Join(presetKeys(), ", "))
		}
	}
	for i, flag := range scatterFlags {
		if cmd.IsSet(flag) {
			s.SD[i] = g.SD[i]
		}
	}
	return s, list, nil
}

// scatterFlags set the standard deviations, in the order of what varies.
var scatterFlags = [kinematics.VariableCount]string{
	"scatter-inclination-deg", "scatter-anteversion-deg", "scatter-stem-deg", "scatter-tilt-deg",
}

// placed is what was found of one design.
type placed struct {
	index int
	share kinematics.Share
	most  kinematics.BestPlacement // where it was looked for
}

// Bearings that are not round take some fifty times as long: their best
// position is looked for with fewer placements.
const fewerPoints = 64

// place simulates the placements of one design.
func (t *terminal) place(ctx context.Context, q *placementAsked, i int) (a placed, err error) {
	j := q.joint(i)
	s := kinematics.Simulation{Search: q.search(i, j), Scatter: q.scatter, Seed: q.seed,
		Points: q.points, Randomisations: randomisations, Workers: q.workers}
	a.index = i
	bar := t.progress("placements of "+present.Letter(i), "runs", randomisations)
	s.Progress = bar.of
	a.share, err = kinematics.Placement(ctx, s)
	bar.clear()
	if err != nil || !q.best {
		return a, err
	}
	if _, round := j.Aperture.Theta(); !round {
		s.Points, s.Randomisations = min(s.Points, fewerPoints), randomisations/2
	}
	bar = t.progress("best position of "+present.Letter(i), "positions", 1)
	defer bar.clear()
	s.Progress = bar.of
	a.most, err = kinematics.MostShare(ctx, s)
	return a, err
}
