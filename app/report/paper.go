package report

import (
	"rimclear/app/figure"
	"rimclear/app/present"
)

// Paper is a size of paper.
type Paper struct {
	Key  string
	Size figure.Point // points
}

// Papers are those there are, the first the usual one.
var Papers = []Paper{
	{"a4", figure.Pt(595.28, 841.89)}, // 210 × 297 mm (ISO 216)
	{"letter", figure.Pt(612, 792)},   // 8.5 × 11 in
}

// Name returns what the paper is called.
func (p Paper) Name(w *present.Words) string {
	if p.Key == "letter" {
		return w.Phrase("report_letter")
	}
	return w.Phrase("report_a4")
}

// PaperOf returns the paper of a key.
func PaperOf(key string) (Paper, bool) {
	for _, p := range Papers {
		if p.Key == key {
			return p, true
		}
	}
	return Paper{}, false
}

// Margins of a page in points.
const (
	sideMargin = 42
	topMargin  = 38
	footMargin = 30
	footHeight = 24 // of the two lines at the foot
	headHeight = 16 // of the line at the top of the pages after the first
)

// body returns where the contents of a page lie.
func (p Paper) body(first bool) figure.Rect {
	top := float64(topMargin)
	if !first {
		top += headHeight
	}
	return figure.Rect{Max: p.Size}.Trim(sideMargin, top, sideMargin, footMargin+footHeight)
}

// width returns the width of the contents.
func (p Paper) width() float64 { return p.Size.X - 2*sideMargin }
