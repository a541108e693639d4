package view

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/session"
	"rimclear/kinematics"
)

// pair is the choice of the two numbers over which a map runs: the first
// across, the second up.
type pair struct {
	list   []*kinematics.Parameter
	picks  [2]*widget.Select
	chosen [2]int
	object *fyne.Container
}

// The pair that is shown first: what most often decides between two bearings.
var firstPair = [2]string{"neck_diameter_mm", "head_diameter_mm"}

// newPair returns a choice; changed is told when another number was chosen.
func newPair(c *Context, changed func()) *pair {
	p := &pair{list: kinematics.Mapped(), object: container.New(layout.NewGridLayoutWithColumns(2))}
	var names []string
	for _, row := range p.list {
		names = append(names, c.Words.Name(row.Key))
	}
	for i, key := range [2]string{"target_pair_across", "target_pair_up"} {
		p.chosen[i] = slices.IndexFunc(p.list, func(row *kinematics.Parameter) bool { return row.Key == firstPair[i] })
		p.picks[i] = widget.NewSelect(names, nil)
		p.picks[i].SetSelectedIndex(p.chosen[i])
		p.picks[i].OnChanged = func(string) {
			p.choose(i, p.picks[i].SelectedIndex())
			changed()
		}
		p.object.Add(container.NewBorder(nil, nil, widget.NewLabel(c.Words.Phrase(key)), nil, p.picks[i]))
	}
	p.object.Hide()
	return p
}

// choose has the map run over the n-th number one way. The same number cannot
// run both ways: then the two change places.
func (p *pair) choose(way, n int) {
	if n == p.chosen[1-way] {
		p.chosen[1-way] = p.chosen[way]
		other := p.picks[1-way]
		told := other.OnChanged
		other.OnChanged = nil
		other.SetSelectedIndex(p.chosen[way])
		other.OnChanged = told
	}
	p.chosen[way] = n
}

// grid runs over the two numbers, and where one of them has no effect in the
// design looked at, over what takes its place: the neck of a resurfacing is its
// oval, not a diameter.
func (p *pair) grid(s *session.Snapshot) kinematics.Grid {
	var counts [2]*kinematics.Parameter
	for way, n := range p.chosen {
		counts[way] = p.list[n]
		if key := p.list[n].Replaced(s.Design()); key != "" && key != p.list[p.chosen[1-way]].Key {
			counts[way] = kinematics.ParameterByKey(key)
		}
	}
	return kinematics.PairGrid(counts[0], counts[1], s.Design().Cup.Definition, s.Case.Hip.CupPlane)
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
