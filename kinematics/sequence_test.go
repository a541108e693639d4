package kinematics

import (
	"math"
	"testing"
)

// point returns the digits of the i-th point of a randomisation.
func point(s sequence, i uint32) (x [VariableCount]uint32) {
	for k := range x {
		x[k] = nested(sobol(i, k), s.seed[k])
	}
	return x
}

func TestEveryStretchOfTheSequenceHasAPointInEveryInterval(t *testing.T) {
	for r := range 3 {
		s := newSequence(7, r)
		for _, m := range []uint{4, 8, 10} {
			for k := range VariableCount {
				seen := make([]bool, 1<<m)
				for i := range uint32(1 << m) {
					seen[point(s, i)[k]>>(32-m)] = true
				}
				for i, ok := range seen {
					if !ok {
						t.Fatalf("dimension %d: no point of the first %d in interval %d", k, 1<<m, i)
					}
				}
			}
		}
	}
}

func TestEveryPairOfDimensionsIsANet(t *testing.T) {
	// The first two dimensions are a net of quality 0: 2^m points put one into
	// every box of 2^a by 2^(m-a). Of the others quality 2 is asked, four each.
	const m = 8
	for r := range 3 {
		s := newSequence(11, r)
		for i := range VariableCount {
			for k := range i {
				quality := 2
				if i == 1 {
					quality = 0
				}
				for a := 0; a <= m-quality; a++ {
					b := m - quality - a
					count := map[[2]uint32]int{}
					for n := range uint32(1 << m) {
						x := point(s, n)
						count[[2]uint32{uint32(uint64(x[k]) >> (32 - a)), uint32(uint64(x[i]) >> (32 - b))}]++
					}
					for box, c := range count {
						if c != 1<<quality {
							t.Fatalf("dimensions %d and %d, boxes of 2^%d by 2^%d: %d points in %v, want %d", k, i, a, b, c, box, 1<<quality)
						}
					}
				}
			}
		}
	}
}

func TestScrambledPointsAreNormal(t *testing.T) {
	var mean, square [VariableCount]float64
	var product [VariableCount][VariableCount]float64
	const n = 1 << 14
	s := newSequence(3, 0)
	for i := range uint32(n) {
		z := s.normals(i)
		for k := range z {
			mean[k] += z[k] / n
			square[k] += z[k] * z[k] / n
			for l := range k {
				product[k][l] += z[k] * z[l] / n
			}
		}
	}
	for k := range mean {
		if math.Abs(mean[k]) > 0.002 || math.Abs(square[k]-1) > 0.005 {
			t.Errorf("dimension %d: mean %.5f, variance %.5f", k, mean[k], square[k])
		}
		for l := range k {
			if math.Abs(product[k][l]) > 0.01 {
				t.Errorf("dimensions %d and %d: correlation %.5f", k, l, product[k][l])
			}
		}
	}
}

func TestRandomisationsDiffer(t *testing.T) {
	a, b := newSequence(1, 0), newSequence(1, 1)
	same := 0
	for i := range uint32(1000) {
		if point(a, i) == point(b, i) {
			same++
		}
	}
	if same > 0 {
		t.Errorf("%d of 1000 points coincide", same)
	}
}
