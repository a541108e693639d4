package report

import (
	"testing"

	"rimclear/app/figure"
)

func plain(height float64, keep bool) block {
	return block{height: height, keep: keep, draw: func(*figure.Surface, figure.Rect) {}}
}

func TestAHeadingNeverEndsAPage(t *testing.T) {
	p := Papers[0]
	room := p.body(true).H()
	pages := flow(p, []block{plain(room-30, false), plain(20, true), plain(40, false)})
	if len(pages) != 2 || len(pages[0]) != 1 || len(pages[1]) != 2 {
		t.Errorf("%d pages, %d blocks on the first; want the heading to go on with its text", len(pages), len(pages[0]))
	}
}

func TestATableThatGoesOnRepeatsItsTitles(t *testing.T) {
	g := &grid{set: newTypeset(), width: 400, titles: []entry{{text: "Movement"}, {text: "A"}}}
	for range 100 {
		g.add(entry{text: "Flexion"}, entry{text: "beyond 121°"})
	}
	pages := flow(Papers[0], g.blocks(0))
	if len(pages) < 2 {
		t.Fatalf("%d pages", len(pages))
	}
	r := &recorder{}
	s := figure.On(r, Papers[0].Size)
	pages[1][0].draw(s, pages[1][0].at)
	if len(r.texts) == 0 || r.texts[0].text != "Movement" {
		t.Errorf("the second page begins with %v, want the titles", r.texts)
	}
	last := pages[len(pages)-1]
	if n := len(last); n < 3 {
		t.Errorf("the last page has %d blocks of the table: a row stands alone", n)
	}
}

func TestColumnsAreAboutOfOneHeight(t *testing.T) {
	var list []block
	for range 21 {
		list = append(list, plain(10, false))
	}
	if b := balanced(list, 400, 20, 2); b.height < 105 || b.height > 125 {
		t.Errorf("two columns of 210 points are %.0f high", b.height)
	}
}
