package control

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
)

// CreateRenderer makes the toolkit's drawing on a ground of its own: the theme
// has none for what is typed in.
func (s *Select) CreateRenderer() fyne.WidgetRenderer {
	s.ExtendBaseWidget(s)
	r := &groundRenderer{s.Select.CreateRenderer(), canvas.NewRectangle(transparent), s}
	r.paint()
	return r
}

type groundRenderer struct {
	fyne.WidgetRenderer
	ground *canvas.Rectangle
	s      *Select
}

func (r *groundRenderer) paint() {
	r.ground.FillColor = r.s.Theme().Color(theme.ColorNameMenuBackground, variant())
	r.ground.CornerRadius = r.s.Theme().Size(theme.SizeNameInputRadius)
}

func (r *groundRenderer) Objects() []fyne.CanvasObject {
	return append([]fyne.CanvasObject{r.ground}, r.WidgetRenderer.Objects()...)
}

func (r *groundRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.WidgetRenderer.Layout(size)
}

func (r *groundRenderer) Refresh() {
	r.paint()
	r.ground.Refresh()
	r.WidgetRenderer.Refresh()
}
