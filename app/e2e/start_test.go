package e2e

import (
	"bytes"
	"image"
	"testing"
)

// The very first start in a real window: a sample is chosen with two keys, the
// guide is opened, a page is turned, Escape closes it.
func TestTheFirstStartOffersTheSamplesAndTheGuide(t *testing.T) {
	d := display(t, 1280, 800)
	p, w := launch(t, d, t.TempDir())
	key := func(k Keysym, held ...Keysym) {
		t.Helper()
		if err := w.Key(k, held...); err != nil {
			t.Fatal(err)
		}
	}
	offered := shoot(t, w, image.Rectangle{}, "0-first-start")
	key(ArrowDown)
	key(Return)
	if _, err := p.Await("on the second sample", patience, func(s State) bool { return bytes.Contains(s.Case, []byte("Dual mobility")) }); err != nil {
		t.Fatal(err)
	}
	awaitChange(t, w, image.Rectangle{}, offered, 0.1, "a sample was chosen")
	joint := shoot(t, w, image.Rectangle{}, "")
	key('h', Control)
	awaitChange(t, w, image.Rectangle{}, joint, 0.2, "the guide was opened")
	page := shoot(t, w, image.Rectangle{}, "")
	key(PageDown)
	awaitChange(t, w, image.Rectangle{}, page, 0.01, "a page of the guide was turned")
	page = shoot(t, w, image.Rectangle{}, "0-guide")
	key(Escape)
	awaitChange(t, w, image.Rectangle{}, page, 0.2, "the guide was closed")
}
