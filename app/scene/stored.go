package scene

import (
	"bufio"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"math"
)

// mostStored bounds the vertices and triangles of a stored mesh.
const mostStored = 1 << 20

// ReadMesh reads a mesh in the stored form that package assets describes. It
// returns an error, and no mesh, for anything else.
func ReadMesh(r io.Reader) (*Mesh, error) {
	if r == nil {
		return nil, errors.New("scene: no such mesh")
	}
	in := bufio.NewReader(r)
	var head struct {
		Name              [6]byte
		Points, Triangles uint32
		Lo, Hi            [3]float32
	}
	if err := binary.Read(in, binary.LittleEndian, &head); err != nil {
		return nil, fmt.Errorf("scene: mesh head: %w", err)
	}
	if string(head.Name[:]) != "mesh1\n" || head.Points > mostStored || head.Triangles > mostStored {
		return nil, errors.New("scene: not a stored mesh")
	}
	for k := range head.Lo {
		if size := float64(head.Hi[k]) - float64(head.Lo[k]); !(size >= 0 && size < 1e6) {
			return nil, errors.New("scene: mesh box out of range")
		}
	}
	var m Mesh
	if err := m.readPoints(in, int(head.Points), head.Lo, head.Hi); err != nil {
		return nil, err
	}
	if err := m.readCorners(in, int(head.Triangles)); err != nil {
		return nil, err
	}
	m.bound()
	return &m, nil
}

func (m *Mesh) readPoints(in io.Reader, n int, lo, hi [3]float32) error {
	var v struct {
		Place  [3]uint16
		Normal [3]int8
		Open   uint8
	}
	var raw [10]byte
	for range n {
		if _, err := io.ReadFull(in, raw[:]); err != nil {
			return fmt.Errorf("scene: mesh vertices: %w", err)
		}
		for k := range v.Place {
			v.Place[k] = binary.LittleEndian.Uint16(raw[2*k:])
			v.Normal[k] = int8(raw[6+k])
		}
		v.Open = raw[9]
		var p, q [3]float32
		long := 0.0
		for k := range p {
			p[k] = lo[k] + (hi[k]-lo[k])*float32(v.Place[k])/65535
			long += float64(v.Normal[k]) * float64(v.Normal[k])
		}
		for k := range q {
			q[k] = float32(float64(v.Normal[k]) / math.Max(1, math.Sqrt(long)))
		}
		m.points = append(m.points, p)
		m.normals = append(m.normals, q)
		m.shade = append(m.shade, float32(v.Open)/255)
	}
	return nil
}

func (m *Mesh) readCorners(in io.ByteReader, n int) error {
	last := int64(0)
	for range n {
		var c [3]int32
		for k := range c {
			step, err := binary.ReadVarint(in)
			if err != nil {
				return fmt.Errorf("scene: mesh triangles: %w", err)
			}
			last += step
			if last < 0 || last >= int64(len(m.points)) {
				return errors.New("scene: mesh triangle names no vertex")
			}
			c[k] = int32(last)
		}
		m.corners = append(m.corners, c)
	}
	return nil
}
