package figure

import "image"

// Canvas is what a back end implements. Everything reaches it in points, with
// all transforms done, all points finite and no pattern left; colours may be
// translucent.
type Canvas interface {
	// Stroke draws lines as one path.
	Stroke(lines [][]Point, s Stroke)
	// Fill fills rings by the non-zero winding rule; they close by themselves.
	Fill(rings [][]Point, c Colour)
	// Text draws one line of text whose baseline begins, is halved or ends at a
	// point, as t.H says; t.V is Baseline and t.Plate is empty.
	Text(at Point, text string, t TextStyle)
	// Image draws img into the image of the unit square under m; the upper left
	// corner of img goes to m(0, 0), the lower right one to m(1, 1).
	Image(m Affine, img image.Image)
	// Clip limits what follows to the inside of rings, within the limits
	// already set, until the Unclip that belongs to it.
	Clip(rings [][]Point)
	Unclip()
}
