package control

// SetTitle changes the title.
func (g *Group) SetTitle(s string) {
	if s != g.head.title {
		g.head.title = s
		g.redraw()
	}
}
