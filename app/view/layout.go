package view

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// columns lays out the strip, the panel, the picture and the answers from left
// to right. All but the picture keep their width.
type columns struct{ left, right float32 }

func (c columns) MinSize(o []fyne.CanvasObject) fyne.Size {
	s := fyne.NewSize(c.left+c.right, 0)
	for _, x := range o {
		s.Height = max(s.Height, x.MinSize().Height)
	}
	s.Width += o[1].MinSize().Width
	return s
}

func (c columns) Layout(o []fyne.CanvasObject, size fyne.Size) {
	at := [4]float32{0, c.left, size.Width - c.right, size.Width}
	for i := range o {
		o[i].Move(fyne.NewPos(at[i], 0))
		o[i].Resize(fyne.NewSize(max(at[i+1]-at[i], 0), size.Height))
	}
}

func (e *Explore) arrange() fyne.CanvasObject {
	return container.New(columns{300, 0}, e.panel.object, e.picture)
}
