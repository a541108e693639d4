package figure

import (
	"strings"
	"sync"
	"unicode/utf8"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/gomono"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Font is a face and a size. The faces are the Go fonts by Bigelow & Holmes:
// regular, bold, and one of fixed width.
type Font struct {
	Size float64 // points
	Bold bool
	Mono bool // fixed width; there is no bold one
}

// face is one font file with what was read from it.
type face struct {
	name     string // family as files name it
	data     []byte
	font     *sfnt.Font
	em       float64
	advances [0x500]float64 // of Latin, Greek and Cyrillic, in em
	rest     sync.Map       // rune → float64, of all others

	ascent, descent, capHeight float64 // em
}

var faces = sync.OnceValue(func() [3]*face {
	return [3]*face{
		openFace("Go", goregular.TTF),
		openFace("Go", gobold.TTF),
		openFace("Go Mono", gomono.TTF),
	}
})

func openFace(name string, data []byte) *face {
	f, err := sfnt.Parse(data)
	if err != nil {
		panic("figure: the built-in font cannot be read: " + err.Error())
	}
	fc := &face{name: name, data: data, font: f, em: float64(f.UnitsPerEm())}
	var buf sfnt.Buffer
	ppem := fixed.I(int(f.UnitsPerEm()))
	m, err := f.Metrics(&buf, ppem, font.HintingNone)
	if err != nil {
		panic("figure: the built-in font has no metrics: " + err.Error())
	}
	unit := 64 * fc.em
	fc.ascent = float64(m.Ascent) / unit
	fc.descent = float64(m.Descent) / unit
	fc.capHeight = float64(m.CapHeight) / unit
	for r := range fc.advances {
		fc.advances[r] = fc.measure(&buf, rune(r))
	}
	return fc
}

// measure returns the unhinted advance width of r in em.
func (fc *face) measure(buf *sfnt.Buffer, r rune) float64 {
	g, err := fc.font.GlyphIndex(buf, r)
	if err != nil {
		return 0
	}
	a, err := fc.font.GlyphAdvance(buf, g, fixed.I(int(fc.font.UnitsPerEm())), font.HintingNone)
	if err != nil {
		return 0
	}
	return float64(a) / (64 * fc.em)
}

func (fc *face) advance(r rune) float64 {
	if r >= 0 && int(r) < len(fc.advances) {
		return fc.advances[r]
	}
	if a, ok := fc.rest.Load(r); ok {
		return a.(float64)
	}
	a := fc.measure(new(sfnt.Buffer), r)
	fc.rest.Store(r, a)
	return a
}

// number returns the place of the face of f in faces.
func (f Font) number() int {
	switch {
	case f.Mono:
		return 2
	case f.Bold:
		return 1
	}
	return 0
}

func (f Font) face() *face { return faces()[f.number()] }

// Width returns the length of text set in f, in points: the sum of the unhinted
// advance widths. The Go fonts have no kerning.
func (f Font) Width(text string) float64 {
	fc := f.face()
	w := 0.0
	for _, r := range printable(text) {
		w += fc.advance(r)
	}
	return w * f.Size
}

// Ascent returns how far the tallest letters rise above the baseline.
func (f Font) Ascent() float64 { return f.face().ascent * f.Size }

// Descent returns how far the deepest letters reach below the baseline.
func (f Font) Descent() float64 { return f.face().descent * f.Size }

// CapHeight returns the height of a capital letter.
func (f Font) CapHeight() float64 { return f.face().capHeight * f.Size }

// LineHeight returns the distance of the baselines of a paragraph.
func (f Font) LineHeight() float64 { return 1.3 * f.Size }

// Covers reports whether f has a letter for each rune of text.
func (f Font) Covers(text string) bool {
	var buf sfnt.Buffer
	for _, r := range printable(text) {
		if g, err := f.face().font.GlyphIndex(&buf, r); err != nil || g == 0 {
			return false
		}
	}
	return true
}

// Wrap breaks text at its spaces into lines no longer than width points; a word
// that is longer is broken where it must be, so that it lies on nothing else.
// Line breaks in text are kept.
func (f Font) Wrap(text string, width float64) []string {
	var out []string
	for _, par := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(par) {
			switch {
			case line == "":
				line = word
			case f.Width(line+" "+word) <= width:
				line += " " + word
			default:
				out = append(out, line)
				line = word
			}
			for n := f.fitting(line, width); n < len(line); n = f.fitting(line, width) {
				out, line = append(out, line[:n]), line[n:]
			}
		}
		out = append(out, line)
	}
	return out
}

// fitting returns how many bytes of a text fit into width points: whole letters,
// and one at least.
func (f Font) fitting(text string, width float64) int {
	if f.Width(text) <= width {
		return len(text)
	}
	n := 0
	for n < len(text) {
		_, size := utf8.DecodeRuneInString(text[n:])
		if n > 0 && f.Width(text[:n+size]) > width {
			break
		}
		n += size
	}
	return n
}

// Paragraph draws text wrapped to the width of r from its top, and returns the
// y at which the next paragraph may start. H aligns within r; V and Turn are
// not used.
func (s *Surface) Paragraph(r Rect, text string, t TextStyle) float64 {
	x := r.Min.X
	switch t.H {
	case Centre:
		x = r.Centre().X
	case Right:
		x = r.Max.X
	}
	t.V, t.Turn = Baseline, 0
	y := r.Min.Y + t.Ascent()
	for _, line := range t.Wrap(text, r.W()) {
		s.Text(Point{x, y}, line, t)
		y += t.LineHeight()
	}
	return y - t.Ascent()
}

// printable replaces what the fonts lack: thin spaces become no-break ones,
// control characters go, and a letter beyond the basic plane, which no font here
// has and the writer of PDF does not bear, becomes the sign for an unknown one.
func printable(text string) string {
	for _, r := range text {
		if r < ' ' || r >= 0x7f {
			return strings.Map(printableRune, text)
		}
	}
	return text
}

func printableRune(r rune) rune {
	switch {
	case r == '\t' || r == '\n':
		return ' '
	case r < ' ' || r >= 0x7f && r < 0xa0:
		return -1
	case r >= 0x2000 && r <= 0x200a || r == 0x202f:
		return 0xa0
	case r > 0xffff:
		return utf8.RuneError
	}
	return r
}
