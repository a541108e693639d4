package view

import "rimclear/app/control"

// explainGroup says what the headings of a group are for.
func (c *Context) explainGroup(g *control.Group) {
	g.SetHint(c.Hint, c.Words.Phrase("guide_group_help"), c.Words.Phrase("guide_more_help"))
}
