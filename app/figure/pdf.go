package figure

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
)

// Document is what a PDF says about itself.
type Document struct {
	Title   string
	Author  string
	Subject string
	Lang    string    // language tag such as "en"; empty says nothing
	Date    time.Time // of making; the zero value writes 1 January 2000, so that equal input gives equal bytes
	Marks   bool      // one bookmark per page, from the titles of the figures
}

// PDF draws on the pages of a PDF: vectors, and letters as text in embedded
// subsets of the fonts. Equal drawings give equal bytes.
type PDF struct {
	doc    *fpdf.Fpdf
	size   Point // of the page
	buf    []byte
	images map[string]float64 // by their bytes: how much wider they were made
	widths map[int]bool       // of the images, pixels
	faces  [3]bool            // those in the document
}

// NewPDF returns a document without pages.
func NewPDF(d Document) *PDF {
	doc := fpdf.NewCustom(&fpdf.InitType{UnitStr: "pt", Size: fpdf.SizeType{Wd: 595.28, Ht: 841.89}})
	doc.SetCatalogSort(true)
	date := d.Date
	if date.IsZero() {
		date = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	doc.SetCreationDate(date)
	doc.SetModificationDate(date)
	doc.SetProducer("Rimclear", true)
	doc.SetTitle(printable(d.Title), true)
	doc.SetAuthor(printable(d.Author), true)
	doc.SetSubject(printable(d.Subject), true)
	if d.Lang != "" {
		doc.SetLang(d.Lang)
	}
	doc.SetMargins(0, 0, 0)
	doc.SetAutoPageBreak(false, 0)
	return &PDF{doc: doc, images: map[string]float64{}, widths: map[int]bool{}}
}

// font selects f, and takes its face into the document at the first use.
func (c *PDF) font(f Font) {
	n := f.number()
	name := [3]string{"goregular", "gobold", "gomono"}[n]
	if !c.faces[n] {
		c.doc.AddUTF8FontFromBytes(name, "", f.face().data)
		c.faces[n] = true
	}
	c.doc.SetFont(name, "", f.Size)
}

// Page begins a page of a size in points; mark, unless empty, is its bookmark.
func (c *PDF) Page(size Point, mark string) {
	c.size = size
	c.doc.AddPageFormat("P", fpdf.SizeType{Wd: size.X, Ht: size.Y})
	if mark != "" {
		c.doc.Bookmark(printable(mark), 0, 0)
	}
}

// Write writes the whole file.
func (c *PDF) Write(w io.Writer) error {
	if err := c.doc.Output(w); err != nil {
		return fmt.Errorf("figure: pdf: %w", err)
	}
	return nil
}

// WritePDF writes figures as the pages of a document, each of its own size.
func WritePDF(w io.Writer, d Document, pages ...Figure) error {
	c := NewPDF(d)
	for _, f := range pages {
		mark := ""
		if d.Marks {
			mark = f.Title
		}
		c.Page(f.Size, mark)
		f.Draw(c)
	}
	return c.Write(w)
}

// Stroke draws lines.
func (c *PDF) Stroke(lines [][]Point, s Stroke) {
	c.open(s.Colour, 'R', 'G')
	c.number(s.Width)
	c.buf = append(c.buf, "w 1 j "...)
	if len(s.Dash) > 1 {
		c.buf = append(c.buf, '[')
		for _, d := range s.Dash {
			c.number(d)
		}
		c.buf = append(c.buf, "] 0 d "...)
	}
	c.path(lines, false)
	c.close("S")
}

// Fill fills rings.
func (c *PDF) Fill(rings [][]Point, col Colour) {
	c.open(col, 'r', 'g')
	c.path(rings, true)
	c.close("f")
}

// Text sets text as text.
func (c *PDF) Text(at Point, text string, t TextStyle) {
	c.open(t.Colour, 'r', 'g')
	at = at.Polar(t.start(text), t.Turn)
	sin, cos := math.Sincos(t.Turn * math.Pi / 180)
	for _, v := range []float64{cos, sin, -sin, cos} {
		c.buf = append(appendShort(c.buf, v, 5), ' ')
	}
	c.number(at.X)
	c.number(c.size.Y - at.Y)
	c.buf = append(c.buf, "cm"...)
	c.flush()
	c.font(t.Font)
	c.doc.Text(0, c.size.Y, text)
	c.doc.RawWriteStr("Q")
}

// Clip limits what follows to the inside of rings.
func (c *PDF) Clip(rings [][]Point) {
	c.buf = append(c.buf, "q "...)
	if len(rings) == 0 {
		rings = [][]Point{{{}, {}, {}}} // nothing is inside
	}
	c.path(rings, true)
	c.buf = append(c.buf, "W n"...)
	c.flush()
}

// Unclip undoes the last Clip.
func (c *PDF) Unclip() { c.doc.RawWriteStr("Q") }

// open begins an element and sets its colour with the operator made of the two
// letters.
func (c *PDF) open(col Colour, first, last byte) {
	c.buf = append(c.buf, "q "...)
	if col.A != 255 {
		c.flush()
		c.doc.SetAlpha(float64(col.A)/255, "Normal")
	}
	for _, v := range []uint8{col.R, col.G, col.B} {
		c.buf = append(appendShort(c.buf, float64(v)/255, 4), ' ')
	}
	c.buf = append(c.buf, first, last, ' ')
}

func (c *PDF) close(op string) {
	c.buf = append(c.buf, op+" Q"...)
	c.flush()
}

func (c *PDF) flush() {
	c.doc.RawWriteBuf(bytes.NewReader(c.buf))
	c.buf = c.buf[:0]
}

func (c *PDF) number(v float64) { c.buf = append(appendShort(c.buf, v, 3), ' ') }

func (c *PDF) path(lines [][]Point, closed bool) {
	for _, l := range lines {
		z := closed
		if n := len(l); n > 2 && l[0] == l[n-1] {
			l, z = l[:n-1], true
		}
		for i, p := range l {
			c.number(p.X)
			c.number(c.size.Y - p.Y)
			if i == 0 {
				c.buf = append(c.buf, "m "...)
			} else {
				c.buf = append(c.buf, "l "...)
			}
		}
		if z {
			c.buf = append(c.buf, "h "...)
		}
	}
}
