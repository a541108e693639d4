package main

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/kinematics"
)

// parameterFlags returns one flag for every row of the parameter table.
func parameterFlags() []cli.Flag {
	w := present.English()
	flags := make([]cli.Flag, len(kinematics.Parameters))
	for i := range kinematics.Parameters {
		p := &kinematics.Parameters[i]
		flags[i] = &cli.StringFlag{
			Name:        flagName(p.Key),
			Category:    w.Group(p.Group),
			Usage:       w.Help(p.Key) + " " + allowedText(p),
			DefaultText: defaultText(p),
			HideDefault: p.Derived,
		}
	}
	return flags
}

func flagName(key string) string { return strings.ReplaceAll(key, "_", "-") }

// operand is what stands for a parameter's value in the help.
func operand(p *kinematics.Parameter) string {
	switch {
	case p.Unit == kinematics.Millimetre:
		return "MM"
	case p.Unit == kinematics.Degrees:
		return "DEG"
	}
	return "NUMBER"
}

// allowedText says a parameter's range as the help has it.
func allowedText(p *kinematics.Parameter) string {
	if p.Kind == kinematics.Choice {
		return "`WORD` is one of " + strings.Join(p.Choices, ", ") + "."
	}
	return "`" + operand(p) + "` " + rangeText(p) + "."
}

func defaultText(p *kinematics.Parameter) string {
	if p.Kind == kinematics.Choice {
		return p.Choices[int(p.Default)]
	}
	return present.English().Value(p, p.Default)
}

// flagged returns the case with every flag that was given set in the chosen
// designs, and the case's own in the case.
func flagged(cmd *cli.Command, c kinematics.Case, designs []int) (kinematics.Case, error) {
	var faults []error
	for i := range kinematics.Parameters {
		p := &kinematics.Parameters[i]
		if !cmd.IsSet(flagName(p.Key)) {
			continue
		}
		v, err := flagValue(p, cmd.String(flagName(p.Key)))
		if err != nil {
			faults = append(faults, err)
			continue
		}
		if p.Scope == kinematics.OfCase {
			c = p.Set(c, 0, v)
			continue
		}
		for _, d := range designs {
			c = p.Set(c, d, v)
		}
	}
	if len(faults) > 0 {
		return c, usageError{errors.Join(faults...)}
	}
	return c, sound(&c)
}

// flagValue reads a flag's value; the error names flag, value and range.
func flagValue(p *kinematics.Parameter, text string) (float64, error) {
	wrong := func() error {
		return fmt.Errorf("--%s %q: must be %s", flagName(p.Key), text, mustText(p))
	}
	text = strings.TrimSpace(text)
	if p.Kind == kinematics.Choice {
		for i, key := range p.Choices {
			if strings.EqualFold(key, text) {
				return float64(i), nil
			}
		}
		return 0, wrong()
	}
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil && strings.Contains(text, ","):
		return 0, fmt.Errorf("%w, with a decimal point", wrong())
	case err != nil || p.Check(v) != nil:
		return 0, wrong()
	}
	return v, nil
}

func mustText(p *kinematics.Parameter) string {
	if p.Kind == kinematics.Choice {
		return "one of " + strings.Join(p.Choices, ", ")
	}
	return rangeText(p)
}

// sound returns what is wrong between the values of a case.
func sound(c *kinematics.Case) error {
	var faults []error
	for _, f := range kinematics.Validate(c) {
		where := ""
		if f.Design >= 0 && c.Count > 1 {
			where = "design " + present.Letter(f.Design) + ": "
		}
		faults = append(faults, fmt.Errorf("%s--%s: %s", where, flagName(f.Key), present.English().FaultText(f)))
	}
	if len(faults) > 0 {
		return usageError{errors.Join(faults...)}
	}
	return nil
}

// chosen returns the indices of the designs a --design value names: all for
// "", else a letter from A or a number from 1.
func chosen(c *kinematics.Case, text string) ([]int, error) {
	var all []int
	for i := range c.Count {
		all = append(all, i)
		if strings.EqualFold(text, present.Letter(i)) || text == strconv.Itoa(i+1) {
			return []int{i}, nil
		}
	}
	if text != "" {
		return nil, misused("--design %q: must be from A to %s (or 1 to %d): the case has %d", text, present.Letter(c.Count-1), c.Count, c.Count)
	}
	return all, nil
}

// rangeText says a range of numbers: "from 18 mm to 70 mm".
func rangeText(p *kinematics.Parameter) string {
	w := present.English()
	text := "from " + w.Value(p, p.Min) + " to " + w.Value(p, p.Max)
	if p.Optional {
		return w.Value(p, 0) + " (absent) or " + text
	}
	return text
}
