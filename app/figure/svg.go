package figure

import (
	"bytes"
	"encoding/base64"
	"fmt"
	"image"
	"image/png"
	"io"
	"math"
	"strconv"
	"strings"
)

// SVG collects a drawing as SVG 1.1 with letters as text. Equal drawings give
// equal bytes.
type SVG struct {
	// Bare leaves the fonts out of the file; readers then use what they have,
	// stretched to the measured width.
	Bare bool

	size       Point
	title, alt string
	body       bytes.Buffer
	used       [3]map[rune]bool
	clips      int
	err        error
}

// NewSVG returns an empty drawing of a size in points. title and alt become the
// title and the description of the picture; either may be empty.
func NewSVG(size Point, title, alt string) *SVG {
	return &SVG{size: size, title: title, alt: alt}
}

// Stroke draws lines.
func (c *SVG) Stroke(lines [][]Point, s Stroke) {
	c.body.WriteString(`<path fill="none" stroke-linejoin="round"`)
	c.colour("stroke", s.Colour)
	c.attr("stroke-width", short(s.Width, 3))
	if len(s.Dash) > 1 {
		parts := make([]string, len(s.Dash))
		for i, d := range s.Dash {
			parts[i] = short(d, 3)
		}
		c.attr("stroke-dasharray", strings.Join(parts, " "))
	}
	c.path(lines, false)
	c.body.WriteString("/>\n")
}

// Fill fills rings.
func (c *SVG) Fill(rings [][]Point, col Colour) {
	c.body.WriteString(`<path`)
	c.colour("fill", col)
	c.path(rings, true)
	c.body.WriteString("/>\n")
}

// Text sets text as text, stretched to its measured width where a reader has
// other fonts.
func (c *SVG) Text(at Point, text string, t TextStyle) {
	c.use(t.Font, text)
	c.body.WriteString(`<text`)
	c.attr("x", short(at.X, 2))
	c.attr("y", short(at.Y, 2))
	c.attr("font-size", short(t.Size, 2))
	switch {
	case t.Mono:
		c.attr("class", "m")
	case t.Bold:
		c.attr("class", "b")
	}
	switch t.H {
	case Centre:
		c.attr("text-anchor", "middle")
	case Right:
		c.attr("text-anchor", "end")
	}
	c.colour("fill", t.Colour)
	if t.Turn != 0 {
		c.attr("transform", "rotate("+short(-t.Turn, 3)+" "+short(at.X, 2)+" "+short(at.Y, 2)+")")
	}
	c.attr("textLength", short(t.Width(text), 2))
	c.body.WriteString(">" + escape(text) + "</text>\n")
}

func (c *SVG) use(f Font, text string) {
	n := f.number()
	if c.used[n] == nil {
		c.used[n] = map[rune]bool{}
	}
	for _, r := range text {
		c.used[n][r] = true
	}
}

// Image draws img as an embedded PNG.
func (c *SVG) Image(m Affine, img image.Image) {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		c.fail(err)
		return
	}
	c.body.WriteString(`<image width="1" height="1" preserveAspectRatio="none"`)
	v := []string{short(m.A, 4), short(m.B, 4), short(m.C, 4), short(m.D, 4), short(m.E, 2), short(m.F, 2)}
	c.attr("transform", "matrix("+strings.Join(v, " ")+")")
	c.attr("xlink:href", "data:image/png;base64,"+base64.StdEncoding.EncodeToString(b.Bytes()))
	c.body.WriteString("/>\n")
}

// Clip limits what follows to the inside of rings.
func (c *SVG) Clip(rings [][]Point) {
	c.clips++
	id := "c" + strconv.Itoa(c.clips)
	c.body.WriteString(`<clipPath id="` + id + `"><path`)
	c.path(rings, true)
	c.body.WriteString(`/></clipPath><g clip-path="url(#` + id + `)">` + "\n")
}

// Unclip undoes the last Clip.
func (c *SVG) Unclip() { c.body.WriteString("</g>\n") }

func (c *SVG) fail(err error) {
	if c.err == nil {
		c.err = err
	}
}

func (c *SVG) attr(name, value string) {
	c.body.WriteString(" " + name + `="` + value + `"`)
}

func (c *SVG) colour(name string, col Colour) {
	c.attr(name, fmt.Sprintf("#%02x%02x%02x", col.R, col.G, col.B))
	if col.A != 255 {
		c.attr(name+"-opacity", short(float64(col.A)/255, 3))
	}
}

func (c *SVG) path(lines [][]Point, closed bool) {
	c.body.WriteString(` d="`)
	var buf []byte
	for _, l := range lines {
		z := closed
		if n := len(l); n > 2 && l[0] == l[n-1] {
			l, z = l[:n-1], true
		}
		for i, p := range l {
			switch i {
			case 0:
				buf = append(buf, 'M')
			case 1:
				buf = append(buf, 'L')
			default:
				buf = append(buf, ' ')
			}
			buf = appendShort(buf, p.X, 2)
			buf = append(buf, ' ')
			buf = appendShort(buf, p.Y, 2)
		}
		if z {
			buf = append(buf, 'Z')
		}
	}
	c.body.Write(buf)
	c.body.WriteByte('"')
}

// Write writes the whole file.
func (c *SVG) Write(w io.Writer) error {
	if c.err != nil {
		return fmt.Errorf("figure: svg: %w", c.err)
	}
	var head bytes.Buffer
	width, height := short(c.size.X, 2), short(c.size.Y, 2)
	head.WriteString(`<?xml version="1.0" encoding="UTF-8"?>` + "\n")
	head.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" version="1.1" role="img"`)
	fmt.Fprintf(&head, ` width="%spt" height="%spt" viewBox="0 0 %s %s" xml:space="preserve">`+"\n", width, height, width, height)
	if c.title != "" {
		head.WriteString("<title>" + escape(c.title) + "</title>\n")
	}
	if c.alt != "" {
		head.WriteString("<desc>" + escape(c.alt) + "</desc>\n")
	}
	style, err := c.style()
	if err != nil {
		return fmt.Errorf("figure: svg: %w", err)
	}
	head.WriteString(style)
	for _, part := range []string{head.String(), c.body.String(), "</svg>\n"} {
		if _, err := io.WriteString(w, part); err != nil {
			return err
		}
	}
	return nil
}

// style returns the style sheet: the letters used of each font, and which text
// is set in which.
func (c *SVG) style() (string, error) {
	var b strings.Builder
	b.WriteString("<style>\n")
	for n, used := range c.used {
		if len(used) == 0 || c.Bare {
			continue
		}
		data, err := subset(faces()[n].data, used)
		if err != nil {
			return "", err
		}
		weight := "400"
		if n == 1 {
			weight = "700"
		}
		fmt.Fprintf(&b, "@font-face{font-family:'%s';font-weight:%s;src:url(data:font/ttf;base64,%s)}\n",
			faces()[n].name, weight, base64.StdEncoding.EncodeToString(data))
	}
	b.WriteString("text{font-family:'Go','Noto Sans','DejaVu Sans',sans-serif}\n")
	b.WriteString(".b{font-weight:700}\n.m{font-family:'Go Mono','DejaVu Sans Mono',monospace}\n</style>\n")
	return b.String(), nil
}

var escaper = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

func escape(s string) string { return escaper.Replace(strings.ToValidUTF8(s, "\uFFFD")) }

// short returns v with at most n decimals and no needless zero.
func short(v float64, n int) string { return string(appendShort(nil, v, n)) }

func appendShort(b []byte, v float64, n int) []byte {
	k := math.Pow10(n)
	if r := math.Round(v * k); math.Abs(r) < 1<<53 {
		v = r / k
	}
	if v == 0 {
		return append(b, '0') // never "-0"
	}
	start := len(b)
	b = strconv.AppendFloat(b, v, 'f', n, 64)
	if n > 0 {
		end := len(b)
		for end > start && b[end-1] == '0' {
			end--
		}
		if b[end-1] == '.' {
			end--
		}
		b = b[:end]
	}
	return b
}
