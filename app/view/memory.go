package view

import (
	"strconv"

	"rimclear/kinematics"
)

// groupKeys are the words for the groups of the panel in files.
var groupKeys = [kinematics.GoalGroup]string{"bearing", "rim", "neck", "cup", "stem", "hip", "posture"}

// The words of a layout.
const (
	groupOpen, groupClosed = "open", "closed"
	tabKey, chartKey       = "tab", "chart"

	pelvisKey, femurKey, glassKey, cutKey, freeKey = "show_pelvis", "show_femur", "see_through", "cut_open", "free_area"
	yes, no                                        = "yes", "no"
)

// Layout tells how the view is laid out, for another start: which groups are
// open, which tab, which chart, and what of the joint is shown. That a posture
// may go past contact is not kept.
func (e *Explore) Layout() map[string]string {
	m := map[string]string{chartKey: e.answers.plots.kind.Key}
	if e.answers.open != tabChart { // which there is only where the view is low
		m[tabKey] = strconv.Itoa(e.answers.open)
	}
	for g, key := range groupKeys {
		m[key] = groupClosed
		if e.panel.groups[g].Open() {
			m[key] = groupOpen
		}
	}
	j := e.centre.joint
	for key, on := range map[string]bool{pelvisKey: j.Pelvis, femurKey: j.Femur, glassKey: j.Glass, cutKey: j.Cut, freeKey: j.Free} {
		m[key] = no
		if on {
			m[key] = yes
		}
	}
	return m
}

// SetLayout lays the view out as told; what is not told, or is not there any
// more, stays as it is.
func (e *Explore) SetLayout(m map[string]string) {
	for g, key := range groupKeys {
		if word, ok := m[key]; ok {
			e.panel.groups[g].SetOpen(word == groupOpen)
		}
	}
	if i, err := strconv.Atoi(m[tabKey]); err == nil && (i == tabRulers || i == tabList) {
		e.answers.choose(i)
	}
	shown := func(key string, now bool) bool {
		switch m[key] {
		case yes:
			return true
		case no:
			return false
		}
		return now
	}
	j := e.centre.joint
	e.centre.Show(shown(pelvisKey, j.Pelvis), shown(femurKey, j.Femur), shown(glassKey, j.Glass))
	e.centre.paint(shown(freeKey, j.Free))
	e.centre.open(shown(cutKey, j.Cut))
	for i, k := range e.answers.plots.list {
		if k.Key == m[chartKey] {
			e.answers.plots.choose.SetSelectedIndex(i)
		}
	}
}
