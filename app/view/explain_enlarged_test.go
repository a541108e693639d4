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
	e := newEnlarged(th, title)
	w := test.NewTempWindow(t, container.NewStack(e.Container))
	before := title.Theme()
	if got := before.Size(theme.SizeNameText); got != th.Size(theme.SizeNameText) {
		t.Fatalf("text of %v points, want %v", got, th.Size(theme.SizeNameText))
	}
	for range 3 {
		w.Content().Refresh()
	}
	if title.Theme() != before {
		t.Error("a refresh puts the theme over the parts again")
	}
	at := time.Unix(1e9, 0)
	e.see(at, true)
	first := title.Theme()
	for range 20 {
		at = at.Add(seeEvery)
		e.see(at, true)
	}
	if title.Theme() != first {
		t.Error("parts that are seen all the time have the theme put over them again")
	}
	at = at.Add(time.Minute)
	if e.see(at, false); title.Theme() != first {
		t.Error("parts that are not on show have the theme put over them")
	}
	if e.see(at, true); title.Theme() == first {
		t.Error("parts that may be forgotten do not have the theme put over them when they are shown")
	}
	before = title.Theme()
	th.Scale = 3
	if e.restyle(); title.Theme() == before || title.Theme().Size(theme.SizeNameText) != 39 {
		t.Errorf("restyled to text of %v points", title.Theme().Size(theme.SizeNameText))
	}
}
