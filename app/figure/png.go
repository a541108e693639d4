package figure

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/png"
	"io"
	"math"
)

// writePNG writes img with its resolution in dots per inch, as the chunk pHYs
// behind the header (PNG specification, third edition, 11.3.4.3).
func writePNG(w io.Writer, img image.Image, dpi float64) error {
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		return err
	}
	const header = 8 + 12 + 13 // signature, and IHDR with its frame
	chunk := []byte("pHYs")
	perMetre := uint32(math.Round(dpi / 0.0254))
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = binary.BigEndian.AppendUint32(chunk, perMetre)
	chunk = append(chunk, 1) // the unit is the metre
	framed := binary.BigEndian.AppendUint32(nil, uint32(len(chunk)-4))
	framed = append(framed, chunk...)
	framed = binary.BigEndian.AppendUint32(framed, crc32.ChecksumIEEE(chunk))
	for _, part := range [][]byte{b.Bytes()[:header], framed, b.Bytes()[header:]} {
		if _, err := w.Write(part); err != nil {
			return err
		}
	}
	return nil
}
