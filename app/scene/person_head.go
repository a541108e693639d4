package scene

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"
)

// headMeshes returns the head with a nose and ears, and its hair, about the
// middle of the head.
var headMeshes = sync.OnceValues(func() (face, crown *Mesh) {
	const rows, around = 30, 36
	outline := girths{{-112, 8, 8}, {-105, 34, 30}, {-85, 58, 50}, {-50, 82, 64}, {0, 95, 74}, {45, 97, 76}, {80, 84, 66}, {102, 56, 44}, {110, 30, 24}, {114, 2, 2}}
	forward := girths{{-112, 42, 0}, {-85, 34, 0}, {-50, 14, 0}, {0, 2, 0}, {114, -3, 0}}
	point := func(y, turn, wider float64) r3.Vec {
		x, z := outline.of(y)
		off, _ := forward.of(y)
		s, c := math.Sincos(turn)
		p := r3.Vec{X: off + (x+wider)*c, Y: y, Z: (z + wider) * s}
		front := math.Exp(-sq(turn / 0.17))
		p.X += front * (20*math.Exp(-sq((y+26)/13)) + 9*math.Exp(-sq((y+4)/18)) + 4*math.Exp(-sq((y+96)/12)) + 4*math.Exp(-sq((y+62)/9)))
		// The eyes lie a little back.
		p.X -= 8 * math.Exp(-sq((y-4)/13)) * math.Exp(-sq((math.Abs(turn)-0.4)/0.2))
		return p
	}
	height := func(i, n int, from, to float64) float64 {
		return from + (to-from)*(1-math.Cos(math.Pi*float64(i)/float64(n-1)))/2
	}
	turnOf := func(j int) float64 { return math.Remainder(-2*math.Pi*float64(j)/around, 2*math.Pi) }
	var f, h draft
	f.sheet(rows, around, true, func(i, j int) r3.Vec {
		y := height(i, rows, -112, 114)
		p := point(y, turnOf((j+around)%around), 0)
		if i == 0 || i == rows-1 {
			off, _ := forward.of(y)
			p.X, p.Z = off, 0
		}
		return p
	}, nil)
	for _, side := range []float64{1, -1} {
		f.sheet(9, 12, true, func(i, j int) r3.Vec {
			st, ct := math.Sincos(math.Pi * float64(8-i) / 8)
			c, s := turnAt((12-j)%12, 12)
			return r3.Vec{X: -6 + 17*st*c, Y: -18 + 30*ct, Z: side*74 + 9*st*s}
		}, nil)
	}
	h.sheet(rows, around, true, func(i, j int) r3.Vec {
		y := height(i, rows, -70, 118)
		turn := turnOf((j + around) % around)
		// Over the face the hair lies under the skin.
		limit := 1.75*math.Sqrt(clamp((74-y)/28, 0, 1)) - 0.4*clamp((y-56)/16, 0, 1)
		bare := 1 / (1 + math.Exp((math.Abs(turn)-limit)/0.07))
		wider := (8 - 20*bare) * math.Sqrt(clamp((118-y)/24, 0, 1))
		if y < -40 {
			wider -= (-40 - y) * 0.4
		}
		p := point(math.Min(y, 113.5), turn, wider)
		p.Y = y
		if i == 0 || i == rows-1 {
			p.X, p.Z = -3, 0
		}
		return p
	}, nil)
	return f.mesh(), h.mesh()
})
