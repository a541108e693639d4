package scene

// A sample's colour is packed into 64 bits as R·2⁴² + G·2²¹ + B with levels in
// steps of 1/1024. Sums and multiples of packed colours are those of their
// channels as long as the channels of the result are in range, so a colour is
// interpolated with one addition, and four samples are averaged with three.
const (
	redBit, greenBit = 42, 21
	levelUnit        = 1024
	channel          = 1<<greenBit - 1
	redBlue          = channel<<redBit | channel
)

func pack(r, g, b float64) int64 {
	return int64(r*levelUnit)<<redBit + int64(g*levelUnit)<<greenBit + int64(b*levelUnit)
}

// dither is added before rounding, so that slow gradients show no bands: a 2×2
// pattern of 1/8, 5/8, 7/8 and 3/8 level in each channel.
var dither = func() (d [2][2]uint64) {
	for y, row := range [2][2]uint64{{1, 5}, {7, 3}} {
		for x, v := range row {
			v *= levelUnit / 8
			d[y][x] = v<<redBit | v<<greenBit | v
		}
	}
	return d
}()

// pixel returns the bytes R, G, B, 255 of a packed colour, low byte first.
func pixel(c uint64, shift uint, bias uint64) uint32 {
	c += bias
	return 0xFF000000 | uint32(c>>(redBit+shift))&0xFF | uint32(c>>(greenBit+shift))&0xFF<<8 | uint32(c>>shift)&0xFF<<16
}
