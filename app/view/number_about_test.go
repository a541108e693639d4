package view

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"rimclear/app/chart"
	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
)

// complete fails unless there is an entry on a number.
func complete(t *testing.T, where, key string) {
	t.Helper()
	for _, n := range present.Numbers {
		if n.Key == key {
			return
		}
	}
	t.Errorf("%s: nothing is known of %q", where, key)
}

func TestEveryRowOfTargetCanBeAskedAbout(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.aim.shared = true
	e.settle(t, session.MostPart)
	asked := ""
	e.Ask = func(key string) { asked = key }
	shown := map[string]bool{}
	for tab := range e.verdict.tabs {
		e.verdict.turn(tab)
		for i, r := range e.verdict.sheet.Rows() {
			if r.Heading || r.Grey && r.About == "" {
				continue
			}
			complete(t, r.Name, r.About)
			shown[r.About] = true
			asked = ""
			e.verdict.sheet.MoveTo(i)
			e.verdict.sheet.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
			if asked != r.About {
				t.Errorf("F2 on %q asks about %q, want %q", r.Name, asked, r.About)
			}
		}
	}
	for _, key := range []string{"motion_margin", "flank", "share", "first_to_fail", "slope", "functional_cup", "jump_lateral", "jump_least",
		"total_arc", "demanded", "oscillation_deg", "best_cup", "size_needed", "zone"} {
		if !shown[key] {
			t.Errorf("no row of Target shows %s", key)
		}
	}
	asked = ""
	e.verdict.sheet.OnChoose(row(t, e.verdict.sheet, "Lewinnek"))
	if asked != "zone" {
		t.Errorf("a click on a zone asks about %q", asked)
	}
	e.Map().TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
	complete(t, "map", asked)
	if !strings.HasPrefix(asked, "map_") {
		t.Errorf("F2 on the map asks about %q", asked)
	}
}

func TestEveryResultOfExploreCanBeAskedAbout(t *testing.T) {
	e := open(t, 1280, 776)
	e.rest()
	asked := ""
	e.Ask = func(key string) { asked = key }
	press := func(where string, act func()) {
		t.Helper()
		asked = ""
		act()
		complete(t, where, asked)
	}
	for _, n := range e.answers.limits.lines {
		press("a ruler", func() { n.ruler.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2}) })
		press("a ruler", func() { n.ruler.TappedSecondary(nil) })
	}
	e.answers.choose(tabList)
	e.rest()
	for _, l := range e.answers.limits.list.Lines() {
		complete(t, l.Name, l.About)
	}
	press("the list", func() { e.answers.limits.list.Tapped(&fyne.PointEvent{Position: fyne.NewPos(20, 10)}) })
	told := 0
	for _, o := range e.answers.object.Objects {
		if l, ok := o.(*control.Told); ok {
			told++
			press(l.Text, func() { l.Tapped(&fyne.PointEvent{Position: fyne.NewPos(30, 10)}) })
			press(l.Text, func() { l.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2}) })
		}
	}
	if told != 2 {
		t.Errorf("%d sentences can be asked about, want the answer and the design's own figures", told)
	}
	seen := map[string]bool{}
	for x := float32(0); x < e.answers.summary.Size().Width; x += 10 {
		seen[e.answers.partOfSummary(x)] = true
	}
	if !seen["oscillation_deg"] || !seen["head_neck_ratio"] || len(seen) != 2 {
		t.Errorf("along the design's own figures there are %v", seen)
	}
	for i, c := range chart.All {
		if elsewhere[c.Key] {
			continue
		}
		e.answers.plots.pick(min(i, len(e.answers.plots.list)-1))
		press(c.Key, func() { e.answers.info.Tapped(nil) })
	}
}

func TestEveryChartIsANumberThatCanBeAskedAbout(t *testing.T) {
	for _, c := range chart.All {
		complete(t, c.Key, present.NumberOfChart(c.Key))
	}
}
