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
)

// Layout tells how the view is laid out, for another start: which groups are
// open, which tab, and which chart.
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
	for i, k := range e.answers.plots.list {
		if k.Key == m[chartKey] {
			e.answers.plots.choose.SetSelectedIndex(i)
		}
	}
}
