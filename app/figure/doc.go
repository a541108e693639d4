// Package figure is the one drawing path of the program: what the window
// shows, what a picture file holds and what a printed page carries is drawn by
// the same calls.
//
// A drawing is a function of a [Surface]. The surface knows transforms,
// patterns and text alignment, and hands six plain operations to a [Canvas].
// Three canvases exist: [Raster] (pixels), [SVG] and [PDF]. A [Figure] is a
// value that carries such functions, in two layers: Static, which the screen
// keeps as pixels, and Marker, which is drawn over it while something moves.
//
// # Units and axes
//
// Lengths are points (1/72 in), the origin is the upper left corner, x runs to
// the right and y down. Angles of text and arcs are degrees, counter-clockwise
// as seen by the reader. Areas are filled by the non-zero winding rule: a hole
// is a ring that runs against the ring around it, as those of [Field.Above] do.
//
// Points that are not finite, or more than a million points away, break a
// polyline and remove a ring; they are never drawn at an invented place.
//
// Text is set in the Go fonts (Latin, Greek, Cyrillic), measured once by
// [Font.Width] from the unhinted advance widths, and drawn with these widths by
// every canvas. Equal calls give equal bytes: no clock, no map order and no
// random number enters a file.
package figure
