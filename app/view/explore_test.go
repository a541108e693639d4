package view

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
)

func TestEveryParameterHasAControlThatMovesTheCase(t *testing.T) {
	e := open(t, 1280, 776)
	for k := range kinematics.Parameters {
		q := &kinematics.Parameters[k]
		if q.Group == kinematics.GoalGroup {
			continue // in Target
		}
		e.Session.Begin(e.Session.File(), "")
		if q.Kind == kinematics.Choice {
			p, ok := e.panel.picks[q.Key]
			if !ok {
				t.Errorf("%s has no choice", q.Key)
				continue
			}
			p.Choose(1)
			if got := e.get(q.Key); got != 1 {
				t.Errorf("%s is %v after its second choice", q.Key, got)
			}
			p.Choose(0)
			continue
		}
		d, ok := e.panel.dials[q.Key]
		if !ok {
			t.Errorf("%s has no slider", q.Key)
			continue
		}
		before := e.get(q.Key)
		step := fyne.KeyRight
		if before == q.Max {
			step = fyne.KeyLeft
		}
		d.Track().TypedKey(&fyne.KeyEvent{Name: step})
		if after := e.get(q.Key); after == before && d.Refusal() == "" {
			t.Errorf("%s stays %v after a step of its slider, and no reason is given", q.Key, before)
		}
		e.Session.Undo()
	}
}

func TestASliderMovesTheCaseThePictureAndTheAnswer(t *testing.T) {
	e := open(t, 1280, 776)
	for _, key := range []string{"cup_inclination_deg", "stem_anteversion_deg", "head_diameter_mm", "cup_arc_deg", "flexion_deg"} {
		before, value := e.pixels(), e.get(key)
		e.drag(key, 0.62)
		if e.get(key) == value {
			t.Errorf("%s is still %v after a drag", key, value)
		}
		if bytes.Equal(before, e.pixels()) {
			t.Errorf("dragging %s leaves the picture as it was", key)
		}
	}
	e.rest()
	s := e.Session.Now()
	if want := e.Words.Headline(&s.Case, s.Answers); e.Headline() != want {
		t.Errorf("the answer reads %q, want %q", e.Headline(), want)
	}
}

func TestTypingSetsAValueAndEscapeTakesItBack(t *testing.T) {
	e := open(t, 1280, 776)
	n := e.panel.dials["cup_inclination_deg"].Entry()
	c := e.window.Canvas()
	c.Focus(n)
	test.Type(n, "47,5")
	n.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if got := e.get("cup_inclination_deg"); got != 47.5 {
		t.Errorf("inclination is %v after typing 47,5", got)
	}
	n.SetText("3")
	n.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	c.Unfocus()
	if got := e.get("cup_inclination_deg"); got != 47.5 || n.Text != "47.5°" {
		t.Errorf("after Escape the inclination is %v, the entry reads %q", got, n.Text)
	}
	c.Focus(n)
	n.SetText("50")
	c.Unfocus()
	if got := e.get("cup_inclination_deg"); got != 50 {
		t.Errorf("inclination is %v after leaving the entry with 50", got)
	}
}

func TestAnImpossibleValueIsSaidAtItsSliderAndTheLastStateStays(t *testing.T) {
	e := open(t, 1280, 776)
	for _, try := range []struct{ key, text, must string }{
		{"neck_diameter_mm", "40", "narrower than the head"},
		{"head_diameter_mm", "10", "from 18"},
		{"cup_inclination_deg", "forty", "must be a number"},
		{"cup_inclination_deg", "120", "from 0"},
	} {
		before, picture := e.Session.Now(), e.pixels()
		d := e.panel.dials[try.key]
		d.Entry().SetText(try.text)
		d.Entry().OnSubmitted(try.text)
		if !strings.Contains(d.Refusal(), try.must) {
			t.Errorf("%s = %s: the slider says %q, want something with %q", try.key, try.text, d.Refusal(), try.must)
		}
		if e.Session.Now() != before || !bytes.Equal(picture, e.pixels()) {
			t.Errorf("%s = %s changed what is on screen", try.key, try.text)
		}
	}
	e.drag("cup_anteversion_deg", 0.6)
	for key, d := range e.panel.dials {
		if d.Refusal() != "" {
			t.Errorf("%s still says %q after a valid change", key, d.Refusal())
		}
	}
}

// The diameter of a neck that is an oval is not shown as if it counted, and one
// that is typed is refused with the reason.
func TestAValueWithoutEffectIsNotTaken(t *testing.T) {
	e := open(t, 1280, 776)
	edit := func(key string, change func(*implant.Neck)) {
		e.Session.Edit(session.Step{Key: key}, func(c *kinematics.Case) { change(&c.Designs[0].Neck) })
	}
	edit("oval_width_mm", func(n *implant.Neck) { n.Oval = implant.Oval{Width: 16, Depth: 12} })
	d := e.panel.dials["neck_diameter_mm"]
	before := e.Session.Now()
	d.Entry().SetText("30")
	d.Entry().OnSubmitted("30")
	if !strings.Contains(d.Refusal(), "has no effect here") || e.Session.Now() != before {
		t.Errorf("the slider says %q, the neck is %v mm", d.Refusal(), e.Session.Now().Design().Neck.Diameter)
	}
	edit("neck_diameter_mm", func(n *implant.Neck) { n.Diameter = 30 })
	if d.Entry().Text != "" || d.Refusal() != "" {
		t.Errorf("a diameter beside an oval reads %q (%q), want none", d.Entry().Text, d.Refusal())
	}
	edit("oval_width_mm", func(n *implant.Neck) { n.Oval = implant.Oval{} })
	if d.Entry().Text != "30.0 mm" {
		t.Errorf("without the oval the diameter reads %q", d.Entry().Text)
	}
}

func TestUndoShowsTheFormerValueAtItsSlider(t *testing.T) {
	e := open(t, 1280, 776)
	picture := e.pixels()
	e.drag("cup_inclination_deg", 0.9)
	e.Session.Undo()
	d := e.panel.dials["cup_inclination_deg"]
	if d.Track().Value() != 40 || d.Entry().Text != "40.0°" {
		t.Errorf("after undo the slider is at %v, the entry reads %q", d.Track().Value(), d.Entry().Text)
	}
	if !bytes.Equal(picture, e.pixels()) {
		t.Error("after undo the picture is another one")
	}
}

func TestAnotherDefinitionLeavesTheCupWhereItIs(t *testing.T) {
	e := open(t, 1280, 776)
	axis := e.Session.Now().Joint.CupAxis()
	for choice := 2; choice >= 0; choice-- {
		e.panel.picks["cup_definition"].Choose(choice)
		if d := r3.Norm(r3.Sub(axis, e.Session.Now().Joint.CupAxis())); d > 1e-12 {
			t.Errorf("definition %d moves the cup axis by %g", choice, d)
		}
	}
	if a := e.get("cup_anteversion_deg"); math.Abs(a-15) > 1e-9 {
		t.Errorf("anteversion is %v after going round all definitions", a)
	}
}

func TestTheEndOfARulerIsContact(t *testing.T) {
	e := open(t, 1280, 776)
	for _, n := range e.answers.limits.lines {
		if n.high < 0 {
			continue
		}
		a := e.Session.Now().Answers[n.high]
		if a.Limit.Status != kinematics.Stopped || a.Reading.Degrees() > control.Span {
			continue
		}
		n.ruler.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
		if m := e.Session.Now().Contact.Margin.Degrees(); math.Abs(m) > 0.5 {
			t.Errorf("%s: at the end of its ruler the margin is %.2f°, want 0 to within half a step", a.Question.Key, m)
		}
	}
}

func TestALeftHipIsTheMirrorImage(t *testing.T) {
	e := open(t, 1280, 776)
	e.Explore.LookFromFront()
	size := e.Picture().Size()
	w, h := int(size.Width), int(size.Height)
	right := e.pixels()
	answers := e.Session.Now().Answers
	e.panel.picks["side"].Choose(1)
	left := e.pixels()
	off := 0
	for y := range h {
		for x := range w {
			a, b := 4*(y*w+x), 4*(y*w+w-1-x)
			for k := range 3 {
				if d := int(right[a+k]) - int(left[b+k]); d < -40 || d > 40 {
					off++
					break
				}
			}
		}
	}
	// Edges and the lamp at the viewer's shoulder are not mirrored.
	if share := float64(off) / float64(w*h); share > 0.02 {
		t.Errorf("%.1f %% of the left hip's pixels are not those of the mirrored right one", 100*share)
	}
	for i, a := range e.Session.Now().Answers {
		if math.Abs((a.Reading - answers[i].Reading).Degrees()) > 1e-9 {
			t.Errorf("%s: %v on the left, %v on the right", a.Question.Key, a.Reading.Degrees(), answers[i].Reading.Degrees())
		}
	}
}

func TestTheViewIsTurnedByHandAndPutBack(t *testing.T) {
	e := open(t, 1280, 776)
	home := e.pixels()
	o := e.Picture()
	for name, act := range map[string]func(){
		"drag":  func() { o.Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: 40}}); o.DragEnd() },
		"wheel": func() { o.Scrolled(&fyne.ScrollEvent{Scrolled: fyne.Delta{DY: 25}}) },
		"arrow": func() { o.TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft}) },
		"plus":  func() { o.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPlus}) },
		"side":  e.LookFromSide,
		"cup":   e.LookIntoCup,
	} {
		act()
		if bytes.Equal(home, e.pixels()) {
			t.Errorf("%s leaves the view as it was", name)
		}
		o.DoubleTapped(nil)
		if !bytes.Equal(home, e.pixels()) {
			t.Errorf("after %s a double click does not put the view back", name)
		}
	}
}

func TestHidingTheBonesShowsTheCup(t *testing.T) {
	e := open(t, 1280, 776)
	all := e.pixels()
	e.TogglePelvis()
	without := e.pixels()
	e.TogglePelvis()
	e.ToggleGlass()
	glass := e.pixels()
	e.ToggleGlass()
	if bytes.Equal(all, without) || bytes.Equal(all, glass) || !bytes.Equal(all, e.pixels()) {
		t.Error("hiding the pelvis, or seeing through it, changes nothing or is not undone")
	}
}

func TestChipsChooseTheDesignLookedAt(t *testing.T) {
	e := open(t, 1280, 776)
	e.centre.add.Tapped(nil)
	e.drag("head_diameter_mm", 0.8)
	head := e.get("head_diameter_mm")
	e.centre.designs[0].Tapped(nil)
	if e.Session.Now().Active != 0 || e.panel.dials["head_diameter_mm"].Track().Value() == head {
		t.Error("the chip of A does not show A's values")
	}
	if !e.centre.designs[1].Visible() || e.centre.designs[2].Visible() {
		t.Error("chips are not those of two designs")
	}
}

func TestTheListSaysEveryLimit(t *testing.T) {
	e := open(t, 1280, 776)
	e.answers.tabs[tabList].Tapped(nil)
	e.rest()
	s := e.Session.Now()
	rows := e.Words.Rows(&s.Case, s.Answers)
	lines := e.answers.limits.list.Lines()
	if len(lines) != len(kinematics.Questions) {
		t.Fatalf("%d lines for %d questions", len(lines), len(kinematics.Questions))
	}
	for i, l := range lines {
		if l.Name != rows[i].Question || l.Value != rows[i].Reading || l.Grey != rows[i].Grey ||
			rows[i].Clock != "" && !(strings.Contains(l.Below, rows[i].Clock) && strings.Contains(l.Below, rows[i].Escape)) {
			t.Errorf("line %d is %+v, want %+v", i, l, rows[i])
		}
	}
}

func TestTheChartIsDrawnAndDraggingOnItMovesThePosture(t *testing.T) {
	e := open(t, 1280, 776)
	p := e.answers.plots
	paint := func() []byte {
		size := p.plot.Size()
		w, h := int(size.Width), int(size.Height)
		for range 100 {
			img := p.plot.Paint(w, h)
			e.rest()
			if p.drawnOnce() && !p.solver.Busy() {
				e.rest()
				_ = img
				break
			}
			time.Sleep(20 * time.Millisecond)
		}
		return bytes.Clone(pix(p.plot.Paint(w, h)))
	}
	before := paint()
	size := p.plot.Size()
	p.plot.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(size.Width*0.6, size.Height*0.5)}})
	if e.Session.Now().Case.Posture == hip.Neutral {
		t.Error("dragging on the chart leaves the posture neutral")
	}
	if bytes.Equal(before, paint()) {
		t.Error("the posture moved and the chart did not")
	}
	marked := paint()
	e.drag("cup_inclination_deg", 0.8)
	if bytes.Equal(marked, paint()) {
		t.Error("the cup moved and the chart did not")
	}
	for i, k := range p.list {
		p.choose.SetSelectedIndex(i)
		if p.kind.Key != k.Key || bytes.Equal(marked, paint()) {
			t.Errorf("choosing %s does not draw another chart", k.Key)
		}
		marked = paint()
	}
}
