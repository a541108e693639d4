package main

import (
	"context"

	"github.com/urfave/cli/v3"

	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

func (t *terminal) activities() *cli.Command {
	return &cli.Command{
		Name:      "activities",
		Usage:     "the motions and criteria there are to require, and what they rest on",
		UsageText: "rimcalc activities [--case FILE] [--library FILE] [--json | --csv] [values]",
		Description: described(
			"Lists the motions by category and the sets of criteria, each with its key, its angles, what they are",
			"counted from, their source, and whether they were read there, are from memory, or assumed.",
			"With a case, a sample or a value it says how each design stands to every one of them.",
			"",
			"rimcalc activities",
			"rimcalc activities --case hip.rimclear.json --csv > verdicts.csv",
			"rimcalc activities --head-diameter-mm 36",
		),
		Flags: append(append(caseFlags(),
			&cli.StringSliceFlag{Name: "library", Usage: "`FILE` of motions and criteria of your own, besides those built in"},
		), parameterFlags()...),
		Action: func(_ context.Context, cmd *cli.Command) error {
			s, err := t.subject(cmd, usualHip)
			if err != nil {
				return err
			}
			return t.write(cmd, listed(s, asksForACase(cmd)))
		},
	}
}

// asksForACase reports whether the flags name a case, or a value of one.
func asksForACase(cmd *cli.Command) bool {
	for _, name := range cmd.FlagNames() {
		switch name {
		case "json", "csv", "out", "library", "design":
		default:
			return true
		}
	}
	return false
}

// library is the answer of the activities command.
type library struct {
	subject
	judged  bool
	entries []entry
}

// entry is an activity or one criterion of a set.
type entry struct {
	activity    motion.Activity
	set         motion.CriteriaSet // of a criterion
	requirement motion.Requirement
	outcomes    []kinematics.Outcome // by design, where judged
}

// listed judges every activity and criterion, if that is asked for.
func listed(s subject, judged bool) *library {
	a := &library{subject: s, judged: judged}
	for c := range motion.CategoryCount {
		for _, x := range s.motions.Library.Activities {
			if x.Category == c {
				a.entries = append(a.entries, entry{activity: x, requirement: x.Requirement(s.c.Setting())})
			}
		}
	}
	for _, set := range s.motions.Library.Criteria {
		for _, r := range set.Requirements() {
			a.entries = append(a.entries, entry{set: set, requirement: r})
		}
	}
	if !judged {
		return a
	}
	list := make([]motion.Requirement, len(a.entries))
	for i, e := range a.entries {
		list[i] = e.requirement
	}
	for _, i := range s.designs {
		v := s.joint(i).Judge(list, s.c.Goal.Closeness)
		for k := range a.entries {
			a.entries[k].outcomes = append(a.entries[k].outcomes, v.Outcomes[k])
		}
	}
	return a
}

func (e *entry) isCriterion() bool { return e.set.Key != "" }
