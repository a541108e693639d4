// Package control holds the widgets of the window: the slider with its entry,
// the choice, the group, the ruler of limits, the picture that is turned by
// hand, and the chart. They know values and words, not cases: what a change
// means is decided by the functions they are given.
//
// All widgets belong to the goroutine that draws.
package control
