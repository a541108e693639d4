package main

import (
	"bytes"
	"encoding/binary"
	"math"
)

// encode returns the stored form that package assets describes.
func (m finished) encode() []byte {
	var b bytes.Buffer
	b.WriteString("mesh1\n")
	lo, hi := m.points[0], m.points[0]
	for _, p := range m.points {
		lo = at(math.Min(lo.X, p.X), math.Min(lo.Y, p.Y), math.Min(lo.Z, p.Z))
		hi = at(math.Max(hi.X, p.X), math.Max(hi.Y, p.Y), math.Max(hi.Z, p.Z))
	}
	put := func(v any) { binary.Write(&b, binary.LittleEndian, v) }
	put(uint32(len(m.points)))
	put(uint32(len(m.corners)))
	put([]float32{float32(lo.X), float32(lo.Y), float32(lo.Z), float32(hi.X), float32(hi.Y), float32(hi.Z)})
	level := func(v, lo, hi float64) uint16 { return uint16(math.Round((v - lo) / (hi - lo) * 65535)) }
	// The box as stored, so that reading gives back what was meant.
	r := func(v float64) float64 { return float64(float32(v)) }
	for i, p := range m.points {
		put([]uint16{level(p.X, r(lo.X), r(hi.X)), level(p.Y, r(lo.Y), r(hi.Y)), level(p.Z, r(lo.Z), r(hi.Z))})
		n := m.normals[i]
		put([]int8{int8(math.Round(n.X * 127)), int8(math.Round(n.Y * 127)), int8(math.Round(n.Z * 127))})
		put(uint8(math.Round(m.open[i] * 255)))
	}
	last := int64(0)
	var step [binary.MaxVarintLen64]byte
	for _, c := range m.corners {
		for _, v := range c {
			b.Write(step[:binary.PutVarint(step[:], int64(v)-last)])
			last = int64(v)
		}
	}
	return b.Bytes()
}
