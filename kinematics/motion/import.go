package motion

import (
	"fmt"
	"math"

	"rimclear/kinematics/form"
	"rimclear/kinematics/hip"
)

// Recording reads the table as a mapping says. The error is form.Problems: it
// names line, column, value and what is allowed, of the first 20 that are
// wrong; nothing is read in part.
func (t *Table) Recording(m Mapping) (Recording, error) {
	i := importer{t: t, m: m}
	i.columns()
	if len(i.problems) == 0 {
		i.rows()
	}
	if err := i.problems.Err(); err != nil {
		return Recording{}, err
	}
	return i.recording, nil
}

// importer builds a recording and collects what is wrong on the way.
type importer struct {
	t         *Table
	m         Mapping
	time      int // columns, -1 for none
	channel   [3]int
	recording Recording
	problems  form.Problems
}

func (i *importer) wrong(p form.Problem) { i.problems = append(i.problems, p) }

// columns finds the columns and checks the mapping itself.
func (i *importer) columns() {
	find := func(name string) int {
		if name == "" {
			return -1
		}
		c, problem := i.t.column(name)
		if problem != nil {
			i.wrong(*problem)
		}
		return c
	}
	i.time = find(i.m.Time.Column)
	mapped := 0
	for k, c := range i.m.Channels {
		if i.channel[k] = find(c.Column); c.Column != "" {
			mapped++
		}
		if !c.Offset.Finite() || c.Offset.Abs() > ranges[k] {
			i.wrong(form.Problem{Place: angleKeys[k].key, Value: fmt.Sprintf("%g", c.Offset.Degrees()),
				Must: fmt.Sprintf("an offset must be from -%g to %g degrees", ranges[k].Degrees(), ranges[k].Degrees())})
		}
	}
	if mapped == 0 {
		i.wrong(form.Problem{Must: "at least one joint angle must have a column"})
	}
	if i.m.Time.counted() && !(i.m.Time.Rate > 0 && i.m.Time.Rate <= 1e6) {
		i.wrong(form.Problem{Value: fmt.Sprintf("%g", i.m.Time.Rate), Must: "the samples per second must be above 0, at most 1000000"})
	}
	if len(i.t.Rows) < 2 {
		i.wrong(form.Problem{Must: "there must be at least two rows"})
	}
}

func (i *importer) rows() {
	n := len(i.t.Rows)
	i.recording = Recording{
		Times: make([]float64, 0, n), Postures: make([]hip.Posture, 0, n),
		Zero: i.m.Zero, Mechanical: i.m.Mechanical,
	}
	for row := range n {
		if len(i.problems) >= mostProblems {
			return
		}
		i.row(row)
	}
}

func (i *importer) row(row int) {
	before := len(i.problems)
	seconds := i.m.Time.seconds(i.cell(row, i.time), row)
	p := hip.Neutral
	for k, c := range i.m.Channels {
		angle := c.Offset
		if i.channel[k] >= 0 {
			angle = c.angle(i.cell(row, i.channel[k]), i.m.Unit)
		}
		p = p.With(hip.JointAngle(k), angle)
	}
	if len(i.problems) > before {
		return
	}
	i.check(row, seconds, p)
	if len(i.problems) == before {
		i.recording.Times = append(i.recording.Times, seconds)
		i.recording.Postures = append(i.recording.Postures, p)
	}
}

// cell reads the number in a column of a row.
func (i *importer) cell(row, column int) float64 {
	if column < 0 {
		return 0
	}
	text := i.t.Rows[row][column]
	x, err := number(text, i.t.Comma)
	if err != nil || math.IsInf(x, 0) || math.IsNaN(x) {
		must := "must be a number with a decimal point"
		if i.t.Comma {
			must = "must be a number with a decimal comma"
		}
		if text == "" {
			text = "nothing"
		}
		i.at(row, column, text, must)
	}
	return x
}

func (i *importer) at(row, column int, value, must string) {
	if runes := []rune(value); len(runes) > 40 {
		value = string(runes[:40]) + "…"
	}
	i.wrong(form.Problem{Line: i.t.Lines[row], Place: i.t.Columns[column], Value: value, Must: must})
}

// check refuses what cannot be: time that does not rise, angles out of range,
// and jumps.
func (i *importer) check(row int, seconds float64, p hip.Posture) {
	last := len(i.recording.Times) - 1
	if last >= 0 && !(seconds > i.recording.Times[last]) && i.time >= 0 {
		i.at(row, i.time, i.t.Rows[row][i.time], "must be later than in the row before")
	}
	for k, c := range i.channel {
		if c < 0 {
			continue
		}
		text, angle := i.t.Rows[row][c], p.Angle(hip.JointAngle(k))
		if angle.Abs() > ranges[k] {
			i.at(row, c, text, fmt.Sprintf("must be from -%.0f to %.0f degrees; it is read as %.1f (is the unit right?)",
				ranges[k].Degrees(), ranges[k].Degrees(), angle.Degrees()))
			continue
		}
		if last < 0 {
			continue
		}
		if step := (angle - i.recording.Postures[last].Angle(hip.JointAngle(k))).Abs(); step > farthestStep {
			i.at(row, c, text, fmt.Sprintf("is %.1f degrees from the row before; more than %.0f is a break in the recording",
				step.Degrees(), farthestStep.Degrees()))
		}
	}
}
