package view

import (
	"slices"

	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// pair is the choice of the two numbers over which a map runs.
type pair struct {
	list       []*kinematics.Parameter
	across, up *control.Pick
	chosen     [2]int
}

// The pair that is shown first: what most often decides between two bearings.
var firstPair = [2]string{"neck_diameter_mm", "head_diameter_mm"}

func newPair(c *Context, changed func()) *pair {
	p := &pair{list: kinematics.Mapped()}
	var names []string
	for _, row := range p.list {
		names = append(names, c.Words.Name(row.Key))
	}
	for i, pick := range [2]**control.Pick{&p.across, &p.up} {
		key := [2]string{"target_pair_across", "target_pair_up"}[i]
		*pick = control.NewPick(c.Words.Phrase(key), c.Words.Phrase("target_pair_pick_help"), names)
		(*pick).Hint = c.Hint
		p.chosen[i] = slices.IndexFunc(p.list, func(row *kinematics.Parameter) bool { return row.Key == firstPair[i] })
		(*pick).Display(p.chosen[i])
		(*pick).Change = func(n int) {
			if n == p.chosen[1-i] { // the same number cannot run both ways: they change places
				p.chosen[1-i] = p.chosen[i]
				[2]*control.Pick{p.across, p.up}[1-i].Display(p.chosen[1-i])
			}
			p.chosen[i] = n
			changed()
		}
	}
	return p
}

func (p *pair) grid(s *session.Snapshot) kinematics.Grid {
	return kinematics.PairGrid(p.list[p.chosen[0]], p.list[p.chosen[1]], s.Design().Cup.Definition, s.Case.Hip.CupPlane)
}

// held returns hip and design of a snapshot with the two numbers of a map at
// their least, so that moving along the map does not ask for a new one.
func held(s *session.Snapshot, g kinematics.Grid) (kinematics.Hip, kinematics.Design) {
	c := s.Case
	for _, scale := range [2]kinematics.Scale{g.Across, g.Up} {
		c = kinematics.ParameterByKey(scale.Key).Set(c, s.Active, scale.From)
	}
	return c.Hip, c.Designs[s.Active]
}
