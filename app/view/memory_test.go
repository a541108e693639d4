package view

import (
	"maps"
	"testing"

	"rimclear/kinematics"
)

func TestALayoutIsLaidOutAgain(t *testing.T) {
	a := open(t, 1280, 776)
	first := a.Layout()
	a.panel.groups[kinematics.HipGroup].SetOpen(true)
	a.panel.groups[kinematics.CupGroup].SetOpen(false)
	a.answers.choose(tabList)
	a.answers.plots.choose.SetSelectedIndex(1)
	a.TogglePelvis()
	a.ToggleCut()
	want := a.Layout()
	if maps.Equal(want, first) || want["hip"] != "open" || want["cup"] != "closed" || want["tab"] != "1" || want["chart"] == first["chart"] {
		t.Errorf("laid out as %q, at first %q", want, first)
	}
	if want["show_pelvis"] != "no" || want["cut_open"] != "yes" || want["see_through"] != "no" {
		t.Errorf("of the joint is kept: %q", want)
	}
	b := open(t, 1280, 776)
	b.SetLayout(want)
	if j := b.centre.joint; j.Pelvis || !j.Cut || !j.Femur || !b.Picture().Cut.Cuts() {
		t.Errorf("the joint is not shown as it was")
	}
	if got := b.Layout(); !maps.Equal(got, want) {
		t.Errorf("laid out again as %q, want %q", got, want)
	}
	b.SetLayout(map[string]string{"tab": "9", "chart": "none", "else": "x"})
	if got := b.Layout(); !maps.Equal(got, want) {
		t.Errorf("words nobody knows made it %q", got)
	}
}
