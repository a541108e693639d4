package view

import (
	"testing"

	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/implant"
)

// said are the texts that a group draws.
func (b *stage) said(g kinematics.Group) map[string]bool {
	said := map[string]bool{}
	o := b.panel.groups[g]
	for _, w := range control.Record(func() { paint(o) }) {
		said[w.Text] = true
	}
	return said
}

func TestANeckThatIsNotRoundSaysItsShape(t *testing.T) {
	e := open(t, 1280, 776)
	shape := func(n implant.Neck) {
		e.Session.Edit(session.Step{Key: "neck"}, func(c *kinematics.Case) { c.Designs[0].Neck = n })
	}
	d := e.panel.dials["neck_diameter_mm"]
	shape(implant.Neck{Oval: implant.Oval{Width: 14, Depth: 11.5}})
	if !e.said(kinematics.NeckGroup)["Neck: oval, 14 × 11.5 mm"] || d.Entry().PlaceHolder != "oval" {
		t.Errorf("an oval neck: the group says %v, the diameter %q", e.said(kinematics.NeckGroup), d.Entry().PlaceHolder)
	}
	shape(implant.Neck{Diameter: 12})
	if !e.said(kinematics.NeckGroup)["Neck"] || d.Entry().Text != "12.0 mm" {
		t.Errorf("a round neck: the group says %v, the diameter %q", e.said(kinematics.NeckGroup), d.Entry().Text)
	}
}
