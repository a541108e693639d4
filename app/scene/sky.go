package scene

import (
	"encoding/binary"
	"image/color"
)

// sky is the background of a picture: one packed colour and one tile's width
// of finished pixels for each row. Rows run on to the end of the last tile.
type sky struct {
	tone   Tone
	height int
	packed []int64
	pixels [][4 * tileWide]byte
}

// set makes the background of a picture h pixels high, unless it is made.
func (s *sky) set(tone Tone, h int) {
	if s.tone == tone && s.height == h {
		return
	}
	s.tone, s.height = tone, h
	n := (h + tileHigh - 1) / tileHigh * tileHigh
	s.packed, s.pixels = sized(s.packed, n), sized(s.pixels, n)
	for y := range n {
		c := tone.background((float64(y) + 0.5) / float64(h))
		s.packed[y] = c
		for x := range tileWide {
			binary.LittleEndian.PutUint32(s.pixels[y][4*x:], pixel(uint64(c), 10, dither[y&1][x&1]))
		}
	}
}

// background returns the packed background at a share t of the height.
func (t Tone) background(share float64) int64 {
	mix := func(a, b uint8) float64 { return float64(a) + (float64(b)-float64(a))*min(share, 1) }
	return pack(mix(t.Top.R, t.Bottom.R), mix(t.Top.G, t.Bottom.G), mix(t.Top.B, t.Bottom.B))
}

// section returns the packed colour of a cut face, lit evenly.
func (t Tone) section(c color.NRGBA) int64 {
	r, g, b := linear(c)
	d := 0.7*t.Key + t.Fill/2 + t.Ambient
	return pack(float64(shown(r*d)), float64(shown(g*d)), float64(shown(b*d)))
}
