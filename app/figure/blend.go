package figure

import "encoding/binary"

// blendRow lays c over the pixels of dst, four bytes each, as far as cover
// says. Runs of nothing and of everything are common, and skipped or copied
// eight pixels at a time.
func blendRow(dst, cover []uint8, c Colour) {
	const none, all = 0, ^uint64(0)
	one := uint64(c.R) | uint64(c.G)<<8 | uint64(c.B)<<16 | uint64(c.A)<<24
	two := one | one<<32
	i := 0
	for ; i+8 <= len(cover); i += 8 {
		run := binary.LittleEndian.Uint64(cover[i:])
		if run == none {
			continue
		}
		to := dst[4*i : 4*i+32 : 4*i+32]
		if run == all && c.A == 255 {
			binary.LittleEndian.PutUint64(to, two)
			binary.LittleEndian.PutUint64(to[8:], two)
			binary.LittleEndian.PutUint64(to[16:], two)
			binary.LittleEndian.PutUint64(to[24:], two)
			continue
		}
		blendPixels(to, cover[i:i+8], c)
	}
	blendPixels(dst[4*i:], cover[i:], c)
}

func blendPixels(dst, cover []uint8, c Colour) {
	const full = 255 * 255
	a := uint32(c.A)
	r, g, b := uint32(c.R)*a, uint32(c.G)*a, uint32(c.B)*a
	for i, cv := range cover {
		if cv == 0 {
			continue
		}
		m := uint32(cv)
		keep := full - a*m
		p := dst[4*i : 4*i+4 : 4*i+4]
		p[0] = uint8((r*m + uint32(p[0])*keep + full/2) / full)
		p[1] = uint8((g*m + uint32(p[1])*keep + full/2) / full)
		p[2] = uint8((b*m + uint32(p[2])*keep + full/2) / full)
		p[3] = uint8((a*m*255 + uint32(p[3])*keep + full/2) / full)
	}
}
