package figure

import "encoding/binary"

// brush is a colour made ready to be laid over pixels, which are premultiplied.
type brush struct {
	colour Colour
	two    uint64 // two opaque pixels of it
}

func brushOf(c Colour) brush {
	one := uint64(c.R) | uint64(c.G)<<8 | uint64(c.B)<<16 | 255<<24
	return brush{c, one | one<<32}
}

// even are the bytes of two pixels that have room for 16 bits each when the
// others are taken out.
const even = 0x00ff00ff00ff00ff

// lay lays the colour over the pixels of dst, four bytes each, as far as cover
// says.
func (k brush) lay(dst []uint8, cover uint8) {
	a := uint64(times255(k.colour.A, cover))
	switch a {
	case 0:
		return
	case 255:
		k.fill(dst)
		return
	}
	const half = 0x0080008000800080
	keep := 255 - a
	rb, ga := (k.two&even)*a+half, (k.two>>8&even)*a+half
	for ; len(dst) >= 8; dst = dst[8:] {
		binary.LittleEndian.PutUint64(dst, mixed(binary.LittleEndian.Uint64(dst), keep, rb, ga))
	}
	if len(dst) >= 4 {
		binary.LittleEndian.PutUint32(dst, uint32(mixed(uint64(binary.LittleEndian.Uint32(dst)), keep, rb, ga)))
	}
}

// mixed returns keep of each byte of two pixels and what is added to the even
// and odd ones, over 255. A product over 255 is rounded as Blinn does (IEEE
// Computer Graphics and Applications 14:6, 1994, from memory).
func mixed(p, keep, rb, ga uint64) uint64 {
	rb += (p & even) * keep
	ga += (p >> 8 & even) * keep
	rb += rb >> 8 & even
	ga += ga >> 8 & even
	return rb>>8&even | ga&^uint64(even)
}

// fill sets the pixels of dst.
func (k brush) fill(dst []uint8) {
	const block = 64
	head := dst[:min(len(dst), block)]
	for ; len(head) >= 8; head = head[8:] {
		binary.LittleEndian.PutUint64(head, k.two)
	}
	if len(head) >= 4 {
		binary.LittleEndian.PutUint32(head, uint32(k.two))
	}
	for n := block; n < len(dst); n *= 2 {
		copy(dst[n:], dst[:n])
	}
}

// stamp lays the colour over a row of pixels, each as far as its own cover says,
// times a share of 255.
func (k brush) stamp(dst, cover []uint8, share uint8) {
	for i, v := range cover {
		if v > 0 {
			k.lay(dst[4*i:4*i+4:4*i+4], times255(v, share))
		}
	}
}
