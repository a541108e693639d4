package main

import (
	"context"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/kinematics"
)

func (t *terminal) target() *cli.Command {
	return &cli.Command{
		Name:      "target",
		Usage:     "where the cup should point for the motions required, and whether that serves",
		UsageText: "rimcalc target [--case FILE] [--map | --x KEY --y KEY] [--json | --csv] [values]",
		Description: described(
			"Says how the design stands to every motion required, which cup position leaves the greatest",
			"margin, what the bounds on the cup cost, which motions decide, the smallest head and the widest",
			"neck that would serve, with the cup as placed and at its best within the bounds, and whether",
			"published zones hold the cup.",
			"",
			"--map, or --x and --y, write the map of the least margin too; with --csv the map alone.",
			"--x and --y take KEY or KEY:FROM:TO:COUNT, KEY one of the values below with _ or -.",
			"",
			"rimcalc target --criteria severe --motion none",
			"rimcalc target --sample dual-mobility --design B --json",
			"rimcalc target --x neck_diameter_mm:9:16:15 --y head_diameter_mm:28:44:17 --csv > map.csv",
		),
		Flags: append(append(append(caseFlags(), goalFlags()...),
			&cli.BoolFlag{Name: "map", Usage: "write the map over cup inclination and anteversion too"},
			&cli.StringFlag{Name: "x", Usage: "map: `KEY` of the value across"},
			&cli.StringFlag{Name: "y", Usage: "map: `KEY` of the value upwards"},
			workersFlag(),
		), parameterFlags()...),
		Action: t.runTarget,
	}
}

// targets are the answers of the target command.
type targets struct {
	subject
	mapped  bool
	designs []aimed
}

// aimed is what was found of one design.
type aimed struct {
	index   int
	verdict kinematics.Verdict
	target  kinematics.Target
	atBest  kinematics.Verdict // with the cup at the best position within the bounds
	sizes   sizes
	field   kinematics.Map // where a map is wanted
}

// sizes are the smallest heads and widest necks that would serve, with the cup
// as placed and at its best.
type sizes struct{ headHere, neckHere, head, neck kinematics.Needed }

func (t *terminal) runTarget(ctx context.Context, cmd *cli.Command) error {
	s, err := t.subject(cmd, usualHip)
	if err != nil {
		return err
	}
	across, up, mapped, err := scales(cmd)
	if err != nil {
		return err
	}
	n, err := workers(cmd)
	if err != nil {
		return err
	}
	if mapped {
		if err := s.counts("x", across.Key); err != nil {
			return err
		}
		if err := s.counts("y", up.Key); err != nil {
			return err
		}
	}
	a := targets{subject: s, mapped: mapped}
	for _, i := range s.designs {
		one, err := s.aim(ctx, i)
		if err == nil && mapped {
			g := kinematics.Grid{Across: across, Up: up, Definition: s.c.Designs[i].Cup.Definition, Plane: s.c.Hip.CupPlane}
			err = kinematics.Survey(ctx, s.c, i, s.required, g, n, &one.field)
		}
		if err != nil {
			return err
		}
		a.designs = append(a.designs, one)
	}
	return t.write(cmd, &a)
}

// aim finds where the cup of a design should point.
func (s *subject) aim(ctx context.Context, i int) (a aimed, err error) {
	j := s.joint(i)
	q := s.search(i, j)
	a.index, a.verdict = i, j.Judge(s.required, s.c.Goal.Closeness)
	if a.target, err = kinematics.FindTarget(ctx, q); err != nil || !a.target.Asked {
		return a, err
	}
	n := j.CupAxis()
	a.sizes.headHere, a.sizes.neckHere = kinematics.SmallestHead(q, n, 0), kinematics.WidestNeck(q, n, 0)
	if !a.target.Fits {
		return a, ctx.Err()
	}
	best := a.target.Best
	if a.target.Reachable {
		best = a.target.Constrained
		d := q.Design
		d.Cup = q.Hip.Restated(best.Cup, d.Cup.Definition, q.Hip.CupPlane)
		a.atBest = kinematics.Assemble(q.Hip, d, q.Aperture).Judge(s.required, s.c.Goal.Closeness)
	}
	a.sizes.head, a.sizes.neck = kinematics.SmallestHead(q, best.Axis, 0), kinematics.WidestNeck(q, best.Axis, 0)
	return a, ctx.Err()
}

// serve is what the sentences are made of.
func (s *subject) serve(a aimed) present.Serve {
	return present.Serve{Required: s.required, Lost: len(s.lost), Verdict: a.verdict, Cup: s.c.Designs[a.index].Cup,
		Known: true, Target: a.target, AtBest: a.atBest, SD: s.c.Goal.SD}
}
