package cohort

import (
	"fmt"
	"math"
	"strconv"

	"rimclear/kinematics/unit"
)

// powers are the powers of ten that a float64 holds exactly.
var powers = [...]float64{1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// parse reads a decimal number, with the given decimal mark. Plain digits are
// read at once, correctly rounded, as both the digits and the power of ten are
// exact; all else is left to strconv.
func parse(text []byte, mark byte) (v float64, ok bool) {
	i, negative := 0, false
	if len(text) > 0 && (text[0] == '-' || text[0] == '+') {
		i, negative = 1, text[0] == '-'
	}
	digits, whole, decimals := 0, uint64(0), -1
	for ; i < len(text); i++ {
		switch c := text[i]; {
		case c >= '0' && c <= '9':
			whole = whole*10 + uint64(c-'0')
			digits++
			if decimals >= 0 {
				decimals++
			}
		case c == mark && decimals < 0:
			decimals = 0
		default:
			return parseAny(text, mark)
		}
		if digits > 15 {
			return parseAny(text, mark)
		}
	}
	if digits == 0 {
		return 0, false
	}
	v = float64(whole) / powers[max(decimals, 0)]
	if negative {
		v = 0 - v
	}
	return v, true
}

// parseAny reads exponents and long numbers. Words such as "inf", hexadecimal
// numbers and digits with underscores are none.
func parseAny(text []byte, mark byte) (float64, bool) {
	var plain [400]byte // the longest there can be, of the least number, has some 350
	if len(text) > len(plain) {
		return 0, false
	}
	n := copy(plain[:], text)
	for i, c := range plain[:n] {
		switch {
		case c == mark:
			plain[i] = '.'
		case c >= '0' && c <= '9', c == '-', c == '+', c == 'e', c == 'E':
		default:
			return 0, false
		}
	}
	v, err := strconv.ParseFloat(string(plain[:n]), 64)
	return v + 0, err == nil && !math.IsInf(v, 0)
}

// appendFixed appends a number with five decimals. What rounds to zero has no
// sign.
func appendFixed(to []byte, x float64) []byte {
	const scale = 1e5
	if !(math.Abs(x) < 1e9) {
		return strconv.AppendFloat(to, x, 'f', 5, 64)
	}
	n := int64(math.Floor(math.Abs(x)*scale + 0.5))
	if x < 0 && n != 0 {
		to = append(to, '-')
	}
	to = strconv.AppendInt(to, n/scale, 10)
	rest := n % scale
	return append(to, '.', byte('0'+rest/10000), byte('0'+rest/1000%10), byte('0'+rest/100%10), byte('0'+rest/10%10), byte('0'+rest%10))
}

func asin(x float64) unit.Angle { return unit.Angle(math.Asin(x)) }

// appendNumber appends a number as short as it can be.
func appendNumber(to []byte, x float64) []byte { return strconv.AppendFloat(to, x+0, 'f', -1, 64) }

func countText(got, want int) string {
	return fmt.Sprintf("%d cells where the header has %d", got, want)
}
