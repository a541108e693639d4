package control

// Inked is a text that was drawn by hand into the picture of a widget, where it
// lies in it, and whether it had to be shortened to fit.
type Inked struct {
	Text             string
	X, Y, Wide, High float32
	Short            bool
}

// inked takes down what is drawn by hand, nil while nobody asks.
var inked *[]Inked

// Record returns the texts that draw draws by hand. It is for tests, and not
// for more than one goroutine.
func Record(draw func()) []Inked {
	var list []Inked
	inked = &list
	defer func() { inked = nil }()
	draw()
	return list
}

// note takes down a text.
func note(i Inked) {
	if inked != nil {
		*inked = append(*inked, i)
	}
}
