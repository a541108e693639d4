package chart

import (
	"testing"

	"rimclear/app/figure"
)

// The words at both ends of a short axis do not run into each other.
func TestWordsAtTheEndsOfAShortAxisShrink(t *testing.T) {
	usual := figure.TextStyle{Font: figure.Font{Size: 10}}
	const low, high = "← Außenrotation", "Innenrotation →"
	both := func(s figure.TextStyle) float64 { return s.Width(low) + s.Width(high) }
	if got := beside(usual, 2*both(usual), low, high); got.Size != usual.Size {
		t.Errorf("letters of %g where there is room for %g", got.Size, usual.Size)
	}
	for _, wide := range []float64{both(usual), 0.7 * both(usual)} {
		if got := both(beside(usual, wide, low, high)); got >= wide {
			t.Errorf("the words take %.1f of %.1f", got, wide)
		}
	}
}
