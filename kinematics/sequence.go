package kinematics

import (
	"math"
	"math/bits"
)

// sequence is a Sobol sequence in as many dimensions as there are variables,
// scrambled at random: points that fill the cube far more evenly than
// independent ones, and yet each is uniformly distributed, so that several
// scramblings give an unbiased mean and its standard error.
//
// Direction numbers: Joe & Kuo, SIAM J Sci Comput 2008;30:2635-2654 (from
// memory; the tests check what they must achieve). Scrambling: nested uniform
// (Owen), by the hash of Laine & Karras as used by Burley, J Comput Graph Tech
// 2020;9(4):1-20 (from memory).
type sequence struct {
	seed [VariableCount]uint32
}

// newSequence returns the sequence of one randomisation.
func newSequence(seed uint64, randomisation int) (s sequence) {
	x := seed*0x9e3779b97f4a7c15 + uint64(randomisation+1)
	for i := range s.seed {
		x += 0x9e3779b97f4a7c15
		z := x
		z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
		z = (z ^ z>>27) * 0x94d049bb133111eb
		s.seed[i] = uint32((z ^ z>>31) >> 32)
	}
	return s
}

// normals returns the i-th point as independent standard normal numbers.
func (s *sequence) normals(i uint32) (z [VariableCount]float64) {
	for k := range z {
		u := (float64(nested(sobol(i, k), s.seed[k])) + 0.5) / (1 << 32)
		z[k] = math.Sqrt2 * math.Erfinv(2*u-1)
	}
	return z
}

// sobol returns a coordinate of the i-th point, as 32 binary digits.
func sobol(i uint32, dimension int) (x uint32) {
	for ; i != 0; i &= i - 1 {
		x ^= directions[dimension][bits.TrailingZeros32(i)]
	}
	return x
}

// nested turns the binary digits of x, each by a coin thrown for all before it.
func nested(x, seed uint32) uint32 {
	x = bits.Reverse32(x)
	x += seed
	x ^= x * 0x6c50b47c
	x ^= x * 0xb82f1e52
	x ^= x * 0xc7afe638
	x ^= x * 0x8d22f6e6
	return bits.Reverse32(x)
}

// directions are the direction numbers of the first four dimensions.
var directions = [VariableCount][32]uint32{
	radical(),
	recurrence(0, 1),
	recurrence(1, 1, 3),
	recurrence(1, 1, 3, 1),
}

// radical is the first dimension: the digits of i reversed.
func radical() (v [32]uint32) {
	for i := range v {
		v[i] = 1 << (31 - i)
	}
	return v
}

// recurrence returns the direction numbers of a primitive polynomial whose
// inner coefficients are the digits of a, from the first numbers m.
func recurrence(a uint32, m ...uint32) (v [32]uint32) {
	s := len(m)
	for i := range v {
		if i < s {
			v[i] = m[i] << (31 - i)
			continue
		}
		v[i] = v[i-s] ^ v[i-s]>>s
		for k := 1; k < s; k++ {
			if a>>(s-1-k)&1 == 1 {
				v[i] ^= v[i-k]
			}
		}
	}
	return v
}
