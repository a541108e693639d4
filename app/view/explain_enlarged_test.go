package view

import (
	"testing"
	"time"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
)

// The toolkit reads its fonts again for each theme that is put over parts.
func TestARefreshKeepsTheThemeOfWhatIsEnlarged(t *testing.T) {
	test.NewTempApp(t)
	th, title := &control.Theme{Scale: 2}, widget.NewButton("rim", nil)
	e := newEnlarged(th, title, title)
	w := test.NewTempWindow(t, container.NewStack(e.Container))
	at := time.Unix(1e9, 0)
	plain := title.Theme()
	if e.see(at, false); title.Theme() != plain {
		t.Error("parts that were never on show have the theme put over them")
	}
	if !e.see(at, true) || title.Theme().Size(theme.SizeNameText) != th.Size(theme.SizeNameText) {
		t.Fatalf("text of %v points, want %v", title.Theme().Size(theme.SizeNameText), th.Size(theme.SizeNameText))
	}
	before := title.Theme()
	for range 3 {
		w.Content().Refresh()
	}
	for range 20 {
		at = at.Add(seeEvery)
		e.see(at, true)
	}
	if title.Theme() != before {
		t.Error("parts that are seen all the time have the theme put over them again")
	}
	if th.Scale = 3; title.Theme().Size(theme.SizeNameText) != 39 {
		t.Errorf("in a theme that has changed, text of %v points", title.Theme().Size(theme.SizeNameText))
	}
	at = at.Add(time.Minute)
	if e.see(at, false); title.Theme() != before {
		t.Error("parts that are not on show have the theme put over them")
	}
	if !e.see(at, true) || title.Theme() == before {
		t.Error("parts that may be forgotten do not have the theme put over them when they are shown")
	}
}
