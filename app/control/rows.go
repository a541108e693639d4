package control

import "fyne.io/fyne/v2"

// Flow is a layout that puts objects side by side in their own sizes and
// begins another row where they no longer fit.
type Flow struct{ Gap float32 }

// MinSize is that of the widest object, in one row.
func (f Flow) MinSize(o []fyne.CanvasObject) fyne.Size {
	var s fyne.Size
	for _, x := range o {
		if x.Visible() {
			s = s.Max(x.MinSize())
		}
	}
	return s
}

// Layout places the objects.
func (f Flow) Layout(o []fyne.CanvasObject, size fyne.Size) { f.place(o, size.Width, true) }

// HeightFor returns the height the objects take at a width.
func (f Flow) HeightFor(o []fyne.CanvasObject, width float32) float32 {
	return f.place(o, width, false)
}

func (f Flow) place(o []fyne.CanvasObject, width float32, move bool) float32 {
	x, y, row := float32(0), float32(0), float32(0)
	for _, c := range o {
		if !c.Visible() {
			continue
		}
		m := c.MinSize()
		if x > 0 && x+m.Width > width {
			x, y, row = 0, y+row+f.Gap, 0
		}
		if move {
			put(c, x, y, m.Width, m.Height)
		}
		x, row = x+m.Width+f.Gap, max(row, m.Height)
	}
	return y + row
}
