package control

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// Select is the toolkit's choice among words with a hint: what it is for, and
// the chosen word whole where there is no room for it.
type Select struct {
	widget.Select

	Hint *Hint
	Help string

	measured []string
	text     float32
	longest  float32
}

// NewSelect returns a choice of which nothing is chosen.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged = options, changed
	s.ExtendBaseWidget(s)
	return s
}

// MouseIn offers the hint.
func (s *Select) MouseIn(e *desktop.MouseEvent) {
	s.Select.MouseIn(e)
	s.MouseMoved(e)
}

// MouseMoved keeps it back while the pointer moves.
func (s *Select) MouseMoved(e *desktop.MouseEvent) {
	s.Select.MouseMoved(e)
	help := s.Help
	if s.Selected != "" && s.Size().Width < s.wordWidth(s.Selected) {
		help = s.Selected + "\n" + help
	}
	s.Hint.Offer(s, help, e.AbsolutePosition)
}

// MouseOut takes it away.
func (s *Select) MouseOut() {
	s.Select.MouseOut()
	s.Hint.Withdraw(s)
}

// Tapped opens the list.
func (s *Select) Tapped(e *fyne.PointEvent) {
	s.Hint.Withdraw(s)
	s.Select.Tapped(e)
}

// wordWidth returns the width at which a word is shown whole.
func (s *Select) wordWidth(word string) float32 {
	th := s.Theme()
	wide := fyne.MeasureText(word, th.Size(theme.SizeNameText), fyne.TextStyle{}).Width
	return float32(math.Ceil(float64(wide + 4*th.Size(theme.SizeNameInnerPadding) + th.Size(theme.SizeNameInlineIcon))))
}

// Longest returns the width at which every word is shown whole.
func (s *Select) Longest() float32 {
	text := s.Theme().Size(theme.SizeNameText)
	if s.text == text && slices.Equal(s.measured, s.Options) {
		return s.longest
	}
	s.measured, s.text = slices.Clone(s.Options), text
	s.longest = s.wordWidth(s.PlaceHolder)
	for _, o := range s.Options {
		s.longest = max(s.longest, s.wordWidth(o))
	}
	return s.longest
}
