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
	th, title := &control.Theme{Scale: 2}, widget.NewLabel("rim")
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
	if e.see(at); title.Theme() != before {
		t.Error("what is not forgotten is put over the parts again")
	}
	container.NewThemeOverride(title, &control.Theme{}) // as if it were forgotten
	if e.see(at.Add(time.Second)); title.Theme() == e.over {
		t.Error("the parts are looked through again after a second")
	}
	if e.see(at.Add(time.Minute)); title.Theme().Size(theme.SizeNameText) != before.Size(theme.SizeNameText) {
		t.Error("what is forgotten is not put over the parts again")
	}
	before = title.Theme()
	th.Scale = 3
	if e.restyle(); title.Theme() == before || title.Theme().Size(theme.SizeNameText) != 39 {
		t.Errorf("restyled to text of %v points", title.Theme().Size(theme.SizeNameText))
	}
}
