package main

import (
	"context"
	"fmt"
	"io"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
)

func (t *terminal) limits() *cli.Command {
	return &cli.Command{
		Name:      "limits",
		Usage:     "limits of all movements of one case, as a table or as JSON",
		UsageText: "rimcalc limits [--case FILE | --sample NAME] [--design A] [--json | --csv] [values]",
		Description: described(
			"A value given by a flag replaces that of the case, in the design chosen or in all of them.",
			"Without --case it is the usual 32 mm hip.",
			"",
			"rimcalc limits --head-diameter-mm 36 --cup-anteversion-deg 20",
			"rimcalc limits --case hip.rimclear.json --json",
			"cat hip.rimclear.json | rimcalc limits --case - --design B",
		),
		Flags: append(caseFlags(), parameterFlags()...),
		Action: func(_ context.Context, cmd *cli.Command) error {
			s, err := t.given(cmd, usualHip)
			if err != nil {
				return err
			}
			a := answer(s.c, s.designs)
			switch {
			case cmd.Bool("json"):
				return t.to(cmd, a.writeJSON)
			case cmd.Bool("csv"):
				return t.to(cmd, a.writeCSV)
			}
			return t.to(cmd, a.writeText)
		},
	}
}

// answers are the limits of chosen designs of a case.
type answers struct {
	c       kinematics.Case
	designs []answered
}

// answered is one design with its limits.
type answered struct {
	index   int
	built   *aperture.Aperture
	answers []kinematics.Answer
	posture kinematics.Contact // at the case's own posture
}

func answer(c kinematics.Case, designs []int) answers {
	a := answers{c: c}
	for _, i := range designs {
		j := kinematics.NewJoint(c.Hip, c.Designs[i])
		a.designs = append(a.designs, answered{
			index: i, built: j.Aperture, answers: j.Answers(c.Hip), posture: j.Contact(c.Posture),
		})
	}
	return a
}

func (a answers) design(d answered) kinematics.Design { return a.c.Designs[d.index] }

// writeText writes the tables, what they rest on, and the caution.
func (a answers) writeText(out io.Writer) error {
	w := present.English()
	p := &printer{out: out}
	if a.c.Label != "" {
		p.line(a.c.Label)
	}
	for _, d := range a.designs {
		p.line("")
		p.line(fmt.Sprintf("%s  %s, %s", present.Letter(d.index), w.DesignName(&a.c, d.index), w.Side(&a.c)))
		for _, l := range w.Summary(a.design(d), d.built) {
			p.line(fmt.Sprintf("   %s %s", l.Name, l.Value))
		}
		p.line("   " + w.Headline(&a.c, d.answers))
		if a.c.Posture != hip.Neutral {
			p.line("   " + w.Posture(d.posture))
		}
		p.line("")
		p.table(w, w.Rows(&a.c, d.answers))
	}
	p.line("")
	for _, text := range w.Warned(&a.c) {
		p.line(text)
	}
	p.line(w.Caution())
	return p.err
}
