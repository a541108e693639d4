package view

import (
	"testing"

	"rimclear/app/session"
	"rimclear/kinematics"
)

// What is said of the best cup is of the design that is looked at: another one's
// is not left standing while this one's is worked out.
func TestWordsOnTheBestCupAreNeverThoseOfAnotherDesign(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.settle(t, session.AimPart)
	first := e.verdict.aims.Text
	if first == "" {
		t.Fatal("nothing is said of the best cup")
	}
	e.Session.Edit(session.Step{Key: "placement", Design: 0}, func(c *kinematics.Case) { c.Designs[0].Cup.Anteversion += 1e-3 })
	e.verdict.write()
	if e.verdict.aims.Text != first {
		t.Errorf("while the cup is dragged it says %q, before %q", e.verdict.aims.Text, first)
	}
	e.Session.Activate(1)
	e.verdict.write()
	if got := e.verdict.aims.Text; got == first {
		t.Errorf("of the second design it says what was said of the first: %q", got)
	}
	e.settle(t, session.AimPart)
	if got := e.verdict.aims.Text; got == first || got == e.Words.Phrase("target_wait") {
		t.Errorf("of the second design, worked out, it says %q", got)
	}
}
