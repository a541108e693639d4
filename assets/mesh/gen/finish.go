package main

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// settle draws the points of s onto the zero surface of f.
func settle(s solid, f field) {
	for i, p := range s.points {
		for range 4 {
			d := f(p)
			if math.Abs(d) < 0.01 {
				break
			}
			p = r3.Sub(p, r3.Scale(math.Max(-1, math.Min(1, d)), f.gradient(p)))
		}
		if r3.Norm(r3.Sub(p, s.points[i])) < 1.5 {
			s.points[i] = p
		}
	}
}

// finished is a mesh with a normal and an openness per vertex. A point on a
// sharp edge has one vertex for each side of it.
type finished struct {
	points, normals []r3.Vec
	open            []float64 // share of the sky seen, 0 to 1
	corners         [][3]int32
}

// crease is the cosine of the angle between faces above which an edge is sharp.
const crease = 0.62

// finish gives s normals (mean of the faces about a point that lie within a
// crease of each other, by their angle there) and openness in f.
func finish(s solid, f field) finished {
	faces := make([]r3.Vec, len(s.corners))
	around := make([][]int32, len(s.points))
	for i, c := range s.corners {
		faces[i] = r3.Unit(r3.Cross(r3.Sub(s.points[c[1]], s.points[c[0]]), r3.Sub(s.points[c[2]], s.points[c[0]])))
		for _, v := range c {
			around[v] = append(around[v], int32(i))
		}
	}
	var out finished
	type key struct{ point, group int32 }
	made := map[key]int32{}
	out.corners = make([][3]int32, len(s.corners))
	for v := range s.points {
		for group, members := range groups(around[v], faces) {
			n := r3.Vec{}
			for _, i := range members {
				n = r3.Add(n, r3.Scale(angleAt(s, i, int32(v)), faces[i]))
			}
			k := key{int32(v), int32(group)}
			made[k] = int32(len(out.points))
			out.points = append(out.points, s.points[v])
			out.normals = append(out.normals, r3.Unit(n))
			out.open = append(out.open, openness(f, s.points[v], r3.Unit(n)))
			for _, i := range members {
				for c, w := range s.corners[i] {
					if w == int32(v) {
						out.corners[i][c] = made[k]
					}
				}
			}
		}
	}
	return out
}

// groups parts the faces round a point: faces are together if a chain of faces
// within a crease of each other joins them.
func groups(members []int32, faces []r3.Vec) (out [][]int32) {
	used := make([]bool, len(members))
	for i := range members {
		if used[i] {
			continue
		}
		used[i] = true
		group := []int32{members[i]}
		for k := 0; k < len(group); k++ {
			for j := range members {
				if !used[j] && r3.Dot(faces[group[k]], faces[members[j]]) > crease {
					used[j] = true
					group = append(group, members[j])
				}
			}
		}
		out = append(out, group)
	}
	return out
}

func angleAt(s solid, face, v int32) float64 {
	c := s.corners[face]
	for k := range c {
		if c[k] == v {
			a := r3.Sub(s.points[c[(k+1)%3]], s.points[v])
			b := r3.Sub(s.points[c[(k+2)%3]], s.points[v])
			return math.Acos(math.Max(-1, math.Min(1, r3.Cos(a, b))))
		}
	}
	return 0
}

// openness is the cosine-weighted share of directions about n in which the way
// out of p is free for 60 mm: what makes hollows darker.
func openness(f field, p, n r3.Vec) float64 {
	const rays = 64
	t := tangent(n)
	b := r3.Cross(n, t)
	free := 0.0
	for i := range rays {
		// A Fibonacci spiral over the disc, lifted to the hemisphere.
		r := math.Sqrt((float64(i) + 0.5) / rays)
		s, c := math.Sincos(float64(i) * math.Pi * (3 - math.Sqrt(5)))
		d := r3.Add(r3.Add(r3.Scale(r*c, t), r3.Scale(r*s, b)), r3.Scale(math.Sqrt(1-r*r), n))
		free += clearWay(f, r3.Add(p, r3.Scale(1, n)), d)
	}
	return free / rays
}

// clearWay walks from p along d: 1 if nothing is met within 60 mm, less the
// nearer the obstacle.
func clearWay(f field, p, d r3.Vec) float64 {
	const reach = 60.0
	for t := 0.5; t < reach; {
		v := f(r3.Add(p, r3.Scale(t, d)))
		if v < 0.05 {
			return 0.6 * t / reach
		}
		t += math.Max(0.8, 0.8*v)
	}
	return 1
}

func tangent(n r3.Vec) r3.Vec {
	o := at(1, 0, 0)
	if math.Abs(n.X) > 0.7 {
		o = at(0, 1, 0)
	}
	return r3.Unit(r3.Cross(o, n))
}
