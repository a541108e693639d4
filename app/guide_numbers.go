package app

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"rimclear/app/control"
	"rimclear/app/present"
)

// showNumber shows what there is to know of a number, and lists the others.
func (w *Window) showNumber(key string) {
	words := w.context.Words
	var names []string
	for _, n := range present.Numbers {
		names = append(names, words.About(n.Key).Name)
	}
	at := max(slices.IndexFunc(present.Numbers, func(n present.Number) bool { return n.Key == key }), 0)
	w.openBook(words.Phrase("about_title"), names, at, func(i int) []fyne.CanvasObject {
		return w.numberPage(words.About(present.Numbers[i].Key))
	})
}

// showFocusedNumber shows what there is to know of the number that has the
// focus, or of the first one.
func (w *Window) showFocusedNumber() {
	key := ""
	if n, ok := w.window.Canvas().Focused().(control.Numbered); ok {
		key = n.Number()
	}
	w.showNumber(key)
}

func (w *Window) numberPage(a present.About) []fyne.CanvasObject {
	words := w.context.Words
	formula := paragraph(a.Formula)
	formula.TextStyle.Monospace = true
	page := []fyne.CanvasObject{
		heading(a.Name, theme.SizeNameHeadingText), paragraph(a.Definition),
		heading(words.Phrase("about_heading_formula"), theme.SizeNameText), formula,
		heading(words.Phrase("about_heading_source"), theme.SizeNameText),
	}
	for _, c := range a.Sources {
		page = append(page, paragraph(words.Cite(c)))
	}
	return append(page, heading(words.Phrase("about_heading_limits"), theme.SizeNameText), paragraph(a.Limits))
}
