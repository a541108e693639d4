// Command gen draws the program's icon: a head in its cup, seen from the side,
// and the open arc through which its neck moves. It writes rimclear.png and
// rimclear.svg into the folder named.
//
//	go run ./assets/icon/gen assets/icon
package main

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"log"
	"math"
	"os"
	"path/filepath"
)

// All lengths are shares of the icon's side; the y axis runs down.
const (
	corner    = 0.22 // rounding of the ground
	centreX   = 0.5
	centreY   = 0.44
	head      = 0.170
	cupInner  = 0.190
	cupOuter  = 0.285
	arcRadius = 0.41
	arcWidth  = 0.030
	neckWide  = 0.062 // half width where it leaves the head
	neckFoot  = 0.092 // and at its end
	neckFrom  = 0.12
	neckLong  = 0.345
	tilt      = 40.0 // of the cup's opening from straight down, degrees
	swing     = 62.0 // of the arc to either side of the cup's axis, degrees
)

var (
	ground = color.RGBA{0x16, 0x2B, 0x3C, 0xFF}
	bone   = color.RGBA{0xF2, 0xF4, 0xF6, 0xFF}
	blue   = color.RGBA{0x56, 0xB4, 0xE9, 0xFF}
	green  = color.RGBA{0x2C, 0xC1, 0x96, 0xFF}
)

func main() {
	log.SetFlags(0)
	if len(os.Args) != 2 {
		log.Fatal("name the folder to write into")
	}
	var picture bytes.Buffer
	if err := png.Encode(&picture, draw(512)); err != nil {
		log.Fatal(err)
	}
	for name, data := range map[string][]byte{"rimclear.png": picture.Bytes(), "rimclear.svg": []byte(drawing())} {
		if err := os.WriteFile(filepath.Join(os.Args[1], name), data, 0o644); err != nil {
			log.Fatal(err)
		}
	}
}

// draw paints the icon by sixteen samples per pixel.
func draw(side int) image.Image {
	const fine = 4
	m := image.NewNRGBA(image.Rect(0, 0, side, side))
	for y := range side {
		for x := range side {
			var r, g, b, a float64
			for i := range fine * fine {
				u := (float64(x) + (float64(i%fine)+0.5)/fine) / float64(side)
				v := (float64(y) + (float64(i/fine)+0.5)/fine) / float64(side)
				if c, covered := at(u, v); covered {
					r, g, b, a = r+float64(c.R), g+float64(c.G), b+float64(c.B), a+1
				}
			}
			if a > 0 {
				m.SetNRGBA(x, y, color.NRGBA{uint8(r/a + 0.5), uint8(g/a + 0.5), uint8(b/a + 0.5), uint8(255*a/(fine*fine) + 0.5)})
			}
		}
	}
	return m
}

// at is the colour of a point, and whether the icon covers it.
func at(u, v float64) (color.RGBA, bool) {
	if !onGround(u, v) {
		return color.RGBA{}, false
	}
	dx, dy := u-centreX, v-centreY
	along, across := turned(dx, dy)
	r := math.Hypot(dx, dy)
	off := math.Abs(math.Atan2(across, along)) * 180 / math.Pi // from the cup's axis
	switch {
	case r <= head:
		return bone, true
	case along >= neckFrom && along <= neckLong && math.Abs(across) <= neckWide+(neckFoot-neckWide)*(along-neckFrom)/(neckLong-neckFrom):
		return bone, true
	case r >= cupInner && r <= cupOuter && along <= 0:
		return blue, true
	case math.Abs(r-arcRadius) <= arcWidth/2 && off <= swing, atEnd(along, across):
		return green, true
	}
	return ground, true
}

// turned brings a point into the cup's axes: along its opening, and across.
func turned(dx, dy float64) (along, across float64) {
	s, c := math.Sincos(tilt * math.Pi / 180)
	return s*dx + c*dy, c*dx - s*dy
}

// atEnd is the round ends of the arc.
func atEnd(along, across float64) bool {
	s, c := math.Sincos(swing * math.Pi / 180)
	return math.Hypot(along-arcRadius*c, math.Abs(across)-arcRadius*s) <= arcWidth/2
}

func onGround(u, v float64) bool {
	dx, dy := math.Max(0, math.Abs(u-0.5)-(0.5-corner)), math.Max(0, math.Abs(v-0.5)-(0.5-corner))
	return math.Hypot(dx, dy) <= corner
}

// drawing is the same as SVG.
func drawing() string {
	hex := func(c color.RGBA) string { return fmt.Sprintf("#%02X%02X%02X", c.R, c.G, c.B) }
	n := func(x float64) string { return fmt.Sprintf("%.2f", 512*x) }
	s, c := math.Sincos(swing * math.Pi / 180)
	return fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 512 512">
<rect width="512" height="512" rx="%s" fill="%s"/>
<g transform="translate(%s %s) rotate(%g)">
<path d="M%s %s A%s %s 0 0 0 %s %s" fill="none" stroke="%s" stroke-width="%s" stroke-linecap="round"/>
<path d="M-%s 0 A%s %s 0 0 1 %s 0 L%s 0 A%s %s 0 0 0 -%s 0 Z" fill="%s"/>
<path d="M-%s %s L%s %s L%s %s L-%s %s Z" fill="%s"/>
<circle r="%s" fill="%s"/>
</g>
</svg>
`, n(corner), hex(ground), n(centreX), n(centreY), -tilt,
		n(-arcRadius*s), n(arcRadius*c), n(arcRadius), n(arcRadius), n(arcRadius*s), n(arcRadius*c), hex(green), n(arcWidth),
		n(cupOuter), n(cupOuter), n(cupOuter), n(cupOuter), n(cupInner), n(cupInner), n(cupInner), n(cupInner), hex(blue),
		n(neckWide), n(neckFrom), n(neckWide), n(neckFrom), n(neckFoot), n(neckLong), n(neckFoot), n(neckLong), hex(bone), n(head), hex(bone))
}
