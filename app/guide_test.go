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
