package main

import (
	"context"
	"math"
	"slices"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

func (t *terminal) envelope() *cli.Command {
	return &cli.Command{
		Name:      "envelope",
		Usage:     "where the hip is free of contact: slices through all postures, and the reach of the thigh",
		UsageText: "rimcalc envelope [--case FILE] [--slice KEY] [--step DEG] [--json | --csv] [values]",
		Description: described(
			"Two joint angles vary over a grid, the third stays where the case's posture has it. As text: the",
			"free range on each line, its ends exact; contact between two ends less than a degree apart is not",
			"seen here (rimcalc limits misses none). As CSV and JSON: the margin at every point of the grid.",
			"",
			"rimcalc envelope --slice flexion_rotation",
			"rimcalc envelope --slice thigh_reach --internal-rotation-deg 20 --step 5 --csv > reach.csv",
		),
		Flags: append(append(caseFlags(),
			&cli.StringSliceFlag{Name: "slice", Usage: "only this slice: `KEY` is one of " + strings.Join(sliceKeys[:], ", ") + "; once for each"},
			&cli.FloatFlag{Name: "step", Value: 10, Usage: "of the grid, `DEG` from 1 to 30"},
		), parameterFlags()...),
		Action: t.runEnvelope,
	}
}

// sliceKeys name the slices, in the order of kinematics.SliceKind.
var sliceKeys = [kinematics.SliceKindCount]string{"flexion_rotation", "flexion_adduction", "adduction_rotation", "thigh_reach"}

// slicePhrases are the titles of the slices.
var slicePhrases = [kinematics.SliceKindCount]string{
	"chart_envelope_flexion_rotation", "chart_envelope_flexion_adduction", "chart_envelope_adduction_rotation", "chart_thigh_globe",
}

// envelopes are the answers of the envelope command.
type envelopes struct {
	subject
	designs []enveloped
}

type enveloped struct {
	index  int
	slices []sliced
}

// sliced is one slice of a design.
type sliced struct {
	kind   kinematics.SliceKind
	region kinematics.Region
	share  float64 // of the slice's postures that is free, over its usual fine grid
	free   [][]stretch
}

// stretch is a free range of the angle across, on one line of a slice.
type stretch struct {
	from, to   unit.Angle
	open, ends bool // it begins with the slice; it ends with it
}

func (t *terminal) runEnvelope(ctx context.Context, cmd *cli.Command) error {
	s, err := t.given(cmd, usualHip)
	if err != nil {
		return err
	}
	kinds, err := sliceKinds(cmd.StringSlice("slice"))
	if err != nil {
		return err
	}
	step := cmd.Float("step")
	if !(step >= 1 && step <= 30) {
		return misused("--step %v: must be from 1 to 30 degrees", step)
	}
	a := envelopes{subject: s}
	for _, i := range s.designs {
		one := enveloped{index: i}
		j := s.joint(i)
		for _, k := range kinds {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			one.slices = append(one.slices, slice(j, k, &s, unit.Angle(step)*unit.Degree))
		}
		a.designs = append(a.designs, one)
	}
	return t.write(cmd, &a)
}

// sliceKinds returns the slices of these keys, all for none.
func sliceKinds(keys []string) ([]kinematics.SliceKind, error) {
	var kinds []kinematics.SliceKind
	for k := range kinematics.SliceKindCount {
		if len(keys) == 0 || slices.Contains(keys, sliceKeys[k]) {
			kinds = append(kinds, k)
		}
	}
	for _, key := range keys {
		if !slices.Contains(sliceKeys[:], key) {
			return nil, misused("--slice %q: must be one of %s", key, strings.Join(sliceKeys[:], ", "))
		}
	}
	return kinds, nil
}

// slice answers one slice.
func slice(j kinematics.Joint, k kinematics.SliceKind, s *subject, step unit.Angle) sliced {
	fine := kinematics.StandardSlice(k, s.c.Posture)
	coarse := fine
	coarse.Across, coarse.Up = stepped(fine.Across, step), stepped(fine.Up, step)
	a := sliced{kind: k, region: j.Refined(coarse), share: j.Region(fine).FreeShare()}
	for i := range coarse.Up.Count {
		a.free = append(a.free, stretches(func(v unit.Angle) bool {
			return j.Free(coarse.Held.With(coarse.Up.Angle, coarse.Up.At(i)).With(fine.Across.Angle, v))
		}, fine.Across))
	}
	return a
}

// stepped returns an axis on whole steps from zero, within its range.
func stepped(a kinematics.Axis, step unit.Angle) kinematics.Axis {
	first := math.Ceil(float64(a.From/step) - 1e-9)
	last := math.Floor(float64(a.To/step) + 1e-9)
	a.From, a.To, a.Count = unit.Angle(first)*step, unit.Angle(last)*step, int(last-first)+1
	return a
}

// stretches returns the free ranges along an axis: looked at every degree, the
// ends found by halving.
func stretches(free func(unit.Angle) bool, a kinematics.Axis) []stretch {
	const step = 1 * unit.Degree
	var list []stretch
	at, was := a.From, free(a.From)
	if was {
		list = append(list, stretch{from: at, open: true})
	}
	for at < a.To {
		next := min(at+step, a.To)
		is := free(next)
		if is != was {
			edge := halved(free, at, next, was)
			if is {
				list = append(list, stretch{from: edge})
			} else {
				list[len(list)-1].to = edge
			}
		}
		at, was = next, is
	}
	if was {
		list[len(list)-1].to, list[len(list)-1].ends = a.To, true
	}
	return list
}

// halved returns where free changes between a and b.
func halved(free func(unit.Angle) bool, a, b unit.Angle, at bool) unit.Angle {
	for range 40 {
		if mid := (a + b) / 2; free(mid) == at {
			a = mid
		} else {
			b = mid
		}
	}
	return (a + b) / 2
}
