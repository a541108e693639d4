package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// Sizes of a map.
const (
	usualSteps = 13
	mostSteps  = 1000
)

// scales returns the axes of the map that is asked for, and whether one is.
func scales(cmd *cli.Command) (across, up kinematics.Scale, mapped bool, err error) {
	x, y := cmd.String("x"), cmd.String("y")
	if x == "" && y == "" {
		g := kinematics.PlacementGrid(hip.ByRadiograph, hip.APP)
		g.Across.Count, g.Up.Count = usualSteps, usualSteps
		return g.Across, g.Up, cmd.Bool("map"), nil
	}
	if x == "" || y == "" {
		return across, up, false, misused("--x and --y go together")
	}
	if across, err = scaleOf("x", x); err != nil {
		return across, up, false, err
	}
	if up, err = scaleOf("y", y); err != nil {
		return across, up, false, err
	}
	if across.Key == up.Key {
		return across, up, false, misused("--x and --y: must be two different values, not %s twice", up.Key)
	}
	return across, up, true, nil
}

// scaleOf reads KEY or KEY:FROM:TO:COUNT.
func scaleOf(flag, text string) (kinematics.Scale, error) {
	parts := strings.Split(text, ":")
	p := mapped(strings.ReplaceAll(parts[0], "-", "_"))
	if p == nil {
		keys := mappedKeys()
		return kinematics.Scale{}, misused("--%s %q: must be KEY or KEY:FROM:TO:COUNT, KEY one of %s%s", flag, text,
			strings.Join(keys, ", "), didYouMean(strings.ReplaceAll(parts[0], "-", "_"), keys))
	}
	s := usualScale(p)
	if len(parts) == 1 {
		return s, nil
	}
	must := fmt.Sprintf("must be %s:FROM:TO:COUNT, FROM below TO, both %s, COUNT from 2 to %d", p.Key, numberRange(p), mostSteps)
	wrong := misused("--%s %q: %s", flag, text, must)
	if len(parts) != 4 {
		return s, wrong
	}
	from, err1 := strconv.ParseFloat(parts[1], 64)
	to, err2 := strconv.ParseFloat(parts[2], 64)
	count, err3 := strconv.Atoi(parts[3])
	if err1 != nil || err2 != nil || err3 != nil || !(from >= p.Min && to <= p.Max && from < to) || count < 2 || count > mostSteps {
		return s, wrong
	}
	return kinematics.Scale{Key: p.Key, From: from, To: to, Count: count}, nil
}

// counts refuses a map over a value that has no effect in a design asked about.
func (s *subject) counts(flag, key string) error {
	for _, i := range s.designs {
		if by := kinematics.ParameterByKey(key).Replaced(&s.c.Designs[i]); by != "" {
			return misused("--%s %s: has no effect in design %s, where %s takes its place; --design chooses another", flag, key, present.Letter(i), by)
		}
	}
	return nil
}

func numberRange(p *kinematics.Parameter) string {
	w := present.English()
	return "from " + w.Value(p, p.Min) + " to " + w.Value(p, p.Max)
}

// mappedKeys are the keys of the parameters over which a map may run.
func mappedKeys() []string {
	var keys []string
	for _, p := range kinematics.Mapped() {
		keys = append(keys, p.Key)
	}
	return keys
}

// mapped returns the parameter over which a map may run, nil if there is none
// of that key.
func mapped(key string) *kinematics.Parameter {
	for _, p := range kinematics.Mapped() {
		if p.Key == key {
			return p
		}
	}
	return nil
}

// usualScale is the range over which maps of cup and stem usually run, or all
// of a parameter's.
func usualScale(p *kinematics.Parameter) kinematics.Scale {
	placement, version := kinematics.PlacementGrid(0, 0), kinematics.VersionGrid(0, 0)
	for _, s := range [3]kinematics.Scale{placement.Across, placement.Up, version.Up} {
		if s.Key == p.Key {
			s.Count = usualSteps
			return s
		}
	}
	return kinematics.Scale{Key: p.Key, From: p.Min, To: p.Max, Count: usualSteps}
}

// mapText writes the map with the upward value falling from line to line, and
// for each place the margin in whole degrees.
func mapText(p *printer, w *present.Words, m *kinematics.Map) {
	g := m.Grid
	p.gap(w.Phrase("calc_map", "across", w.Name(g.Across.Key), "up", w.Name(g.Up.Key)))
	head := []string{""}
	for i := range g.Across.Count {
		head = append(head, present.Shortest(g.Across.At(i), 1))
	}
	lines := [][]string{head}
	for k := g.Up.Count - 1; k >= 0; k-- {
		line := []string{present.Shortest(g.Up.At(k), 1)}
		for i := range g.Across.Count {
			line = append(line, marginText(m, i, k))
		}
		lines = append(lines, line)
	}
	p.right(lines)
	p.line(w.Phrase("calc_map_legend"))
}

// marginText is a margin in whole degrees, rounded down so that no place reads
// as free that is not.
func marginText(m *kinematics.Map, i, k int) string {
	v, _ := m.At(i, k)
	down := math.Floor(v.Degrees())
	switch {
	case v == kinematics.NoBearing:
		return "·"
	case v <= kinematics.Touch:
		return "−" + present.Shortest(-min(down, 0), 0)
	}
	return present.Shortest(down, 0)
}

// mapRecord is the JSON form of a map: margins row by row from the least y.
type mapRecord struct {
	X      scaleRecord  `json:"x"`
	Y      scaleRecord  `json:"y"`
	Margin [][]*float64 `json:"margin_deg"` // null where the values make no bearing
	Motion [][]string   `json:"motion"`     // that has it
}

type scaleRecord struct {
	Key    string     `json:"key"`
	Values []*float64 `json:"values"`
}

func (s *subject) mapRecord(m *kinematics.Map) *mapRecord {
	of := func(s kinematics.Scale) scaleRecord {
		r := scaleRecord{Key: s.Key}
		for i := range s.Count {
			r.Values = append(r.Values, rounded(s.At(i)))
		}
		return r
	}
	r := &mapRecord{X: of(m.Grid.Across), Y: of(m.Grid.Up)}
	for k := range m.Grid.Up.Count {
		var margins []*float64
		var motions []string
		for i := range m.Grid.Across.Count {
			margin, motion := s.mapCell(m, i, k)
			margins, motions = append(margins, margin), append(motions, motion)
		}
		r.Margin, r.Motion = append(r.Margin, margins), append(r.Motion, motions)
	}
	return r
}

// mapCell is the margin at a place, nil where the values make no bearing, and
// the key of its motion.
func (s *subject) mapCell(m *kinematics.Map, i, k int) (*float64, string) {
	v, at := m.At(i, k)
	if at < 0 {
		return nil, ""
	}
	return rounded(v.Degrees()), present.RequirementKey(s.required[at])
}
