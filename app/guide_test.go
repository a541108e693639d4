package app

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/app/store"
	"rimclear/assets"
	"rimclear/kinematics"
)

// texts returns all words of what lies on top.
func (w *Window) texts() string {
	var b strings.Builder
	top := w.window.Canvas().Overlays().Top()
	if top == nil {
		return ""
	}
	walk(top, func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *widget.Label:
			b.WriteString(o.Text + "\n")
		case *canvas.Text:
			b.WriteString(o.Text + "\n")
		}
	})
	return b.String()
}

// walk visits all that is visible in an object.
func walk(o fyne.CanvasObject, visit func(fyne.CanvasObject)) {
	if o == nil || !o.Visible() {
		return
	}
	visit(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			walk(c, visit)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			walk(c, visit)
		}
	}
}

func (w *Window) key(k fyne.KeyName) {
	if f := w.window.Canvas().Focused(); f != nil {
		f.TypedKey(&fyne.KeyEvent{Name: k})
		return
	}
	w.typed(&fyne.KeyEvent{Name: k})
}

func TestANumberIsExplainedWithItsFormulaSourceAndLimits(t *testing.T) {
	w, _ := start(t, t.TempDir())
	for _, n := range present.Numbers {
		w.showNumber(n.Key)
		a, text := w.context.Words.About(n.Key), w.texts()
		want := append([]string{a.Name, a.Definition, a.Formula, a.Limits}, "(")
		for _, c := range a.Sources {
			want = append(want, w.context.Words.Cite(c))
		}
		for _, s := range want {
			if !strings.Contains(text, s) {
				t.Errorf("%s: %q is not on the page", n.Key, s)
			}
		}
		w.key(fyne.KeyEscape)
		if w.window.Canvas().Overlays().Top() != nil {
			t.Fatalf("%s: Escape leaves the page open", n.Key)
		}
	}
}

func TestPagesAreTurnedByTheKeyboard(t *testing.T) {
	w, _ := start(t, t.TempDir())
	w.showNumber(present.Numbers[0].Key)
	for _, step := range []struct {
		key fyne.KeyName
		at  int
	}{{fyne.KeyDown, 1}, {fyne.KeyPageDown, 2}, {fyne.KeyUp, 1}, {fyne.KeyLeft, 0}, {fyne.KeyLeft, 0}, {fyne.KeyEnd, len(present.Numbers) - 1}} {
		w.key(step.key)
		if want := w.context.Words.About(present.Numbers[step.at].Key).Definition; !strings.Contains(w.texts(), want) {
			t.Errorf("after %s the page is not that of %s", step.key, present.Numbers[step.at].Key)
		}
	}
}

func TestTheGuideExplainsEveryPage(t *testing.T) {
	w, _ := start(t, t.TempDir())
	items(w.menu.main)[w.context.Words.Phrase("guide_menu")].Action()
	for _, page := range present.GuidePages {
		text := w.texts()
		for line := range strings.SplitSeq(w.context.Words.GuideText(page), "\n") {
			if !strings.Contains(text, line) {
				t.Errorf("%s: %q is not on the page", page, line)
			}
		}
		pictures := 0
		walk(w.window.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
			if r, ok := o.(*canvas.Raster); ok && r.Size().Width > 180 && r.Size().Height > 150 && r.Generator != nil && r.Size().Width > 1.5*r.Size().Height {
				pictures++
			}
		})
		if (pictures > 0) != (page != "start") {
			t.Errorf("%s shows %d pictures", page, pictures)
		}
		w.key(fyne.KeyPageDown)
	}
	w.key(fyne.KeyEscape)
	if w.texts() != "" {
		t.Error("Escape leaves the guide open")
	}
}

func TestTheVeryFirstStartOffersTheSamples(t *testing.T) {
	home := t.TempDir()
	t.Setenv(store.HomeVariable, home)
	if !firstStart() {
		t.Error("a start in an empty home is not the first")
	}
	w, _ := start(t, home)
	first := w.session.Now().Case
	w.showStart()
	list, ok := w.window.Canvas().Focused().(*control.Sheet)
	if !ok || len(list.Rows()) != len(assets.Cases())+2 {
		t.Fatalf("the sheet does not offer each sample, the guide and a note: the focus is on %T", w.window.Canvas().Focused())
	}
	w.key(fyne.KeyEscape)
	if w.window.Canvas().Overlays().Top() != nil || w.session.Now().Case != first {
		t.Error("Escape does not stay with the first sample")
	}
	w.showStart()
	w.key(fyne.KeyDown)
	w.key(fyne.KeyReturn)
	if w.window.Canvas().Overlays().Top() != nil {
		t.Error("a choice leaves the sheet open")
	}
	if want, _ := sample(1); w.session.Now().Case.Label != want.Case.Label {
		t.Errorf("the second row opens %q", w.session.Now().Case.Label)
	}
	w.saveSettings()
	if firstStart() {
		t.Error("a start where settings are kept counts as the first")
	}
}

// Every sample tells its designs apart: some motion is served by one and not by
// another, or none serves them all and by how much differs.
func TestSamplesTellTheirDesignsApart(t *testing.T) {
	for i, s := range assets.Cases() {
		f, err := sample(i)
		if err != nil {
			t.Fatal(err)
		}
		c := f.Case
		if c.Hip.Socket.Rule != kinematics.SocketTied {
			t.Errorf("%s: its designs are not held to one socket", s.Name)
		}
		list, lost := session.NewMotions().Required(&c)
		if len(list) < 3 || len(lost) > 0 {
			t.Errorf("%s asks for %d motions, %d are not known", s.Name, len(list), len(lost))
		}
		seen := map[[kinematics.StandingCount]int]bool{}
		least := map[float64]bool{}
		short := 0
		for _, d := range c.Active() {
			v := kinematics.NewJoint(c.Hip, d).Judge(list, c.Goal.Closeness)
			seen[v.Count] = true
			short += v.Count[kinematics.Short]
			least[v.Outcomes[v.First].Least.Margin.Degrees()] = true
			t.Logf("%s, %s: %v, tightest %s by %.1f°", s.Name, d.Name, v.Count, list[v.First].Key, v.Outcomes[v.First].Least.Margin.Degrees())
		}
		if short == 0 || len(least) < 2 {
			t.Errorf("%s: %d motions are short, %d different least margins", s.Name, short, len(least))
		}
	}
}

func TestTheLanguageIsRememberedForTheNextStart(t *testing.T) {
	home := t.TempDir()
	w, _ := start(t, home)
	menu := items(w.menu.main)[w.context.Words.Phrase("guide_language")].ChildMenu.Items
	if len(menu) != len(present.Languages()) {
		t.Fatalf("%d languages are offered of %d", len(menu), len(present.Languages()))
	}
	for i, l := range present.Languages() {
		if menu[i].Label != l.Name || menu[i].Checked != (l.Tag == w.context.Words.Language()) {
			t.Errorf("%s is offered as %q, ticked %v", l.Tag, menu[i].Label, menu[i].Checked)
		}
	}
	w.setLanguage(present.Language{Tag: "xx", Name: "Anything"})
	if !strings.Contains(w.texts(), "Anything") {
		t.Error("it is not said that another language begins with the next start")
	}
	if s, err := store.Home(home).LoadSettings(); err != nil || s.Language != "xx" {
		t.Errorf("kept is the language %q, %v", s.Language, err)
	}
	if got := w.words().Language(); got != "en" {
		t.Errorf("a language that is not built in reads %q, want English", got)
	}
}

func TestWithLessMotionNothingPlaysByItself(t *testing.T) {
	home := t.TempDir()
	w, _ := start(t, home)
	item := items(w.menu.main)[w.context.Words.Phrase("guide_still")]
	item.Action()
	if !item.Checked || !w.context.Still {
		t.Error("less motion is not on")
	}
	w.pages.Target().ShowMotion("low_chair")
	if w.context.Play.Playing() {
		t.Error("a motion plays by itself")
	}
	if s, err := store.Home(home).LoadSettings(); err != nil || !s.ReducedMotion {
		t.Errorf("less motion is not kept: %v", err)
	}
	item.Action()
	w.pages.Target().ShowMotion("low_chair")
	if !w.context.Play.Playing() {
		t.Error("with motion it does not play")
	}
}

func TestTheFocusedNumberIsTheOneThatIsAskedAbout(t *testing.T) {
	w, _ := start(t, t.TempDir())
	var ruler *control.Ruler
	walk(w.pages.Object(), func(o fyne.CanvasObject) {
		if r, ok := o.(*control.Ruler); ok && ruler == nil {
			ruler = r
		}
	})
	if ruler == nil {
		t.Fatal("no ruler on screen")
	}
	w.window.Canvas().Focus(ruler)
	items(w.menu.main)[w.context.Words.Phrase("about_menu")].Action()
	if want := w.context.Words.About("limit").Definition; !strings.Contains(w.texts(), want) {
		t.Errorf("with a ruler in focus the page is not that of a limit:\n%s", w.texts())
	}
}
