package main

import (
	"encoding/csv"
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"
)

var (
	wideSeed = flag.Uint64("wide-seed", 1, "seed of the random rows that are compared with dense sampling")
	wideRows = flag.Int("wide-rows", 16, "how many random rows are compared with dense sampling")
)

// wideRow is a row of numbers and words by column; what is not in it is empty.
type wideRow map[string]string

func (r wideRow) set(column string, v float64) {
	r[column] = strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64)
}

func (r wideRow) get(column string) float64 {
	v, _ := strconv.ParseFloat(r[column], 64)
	return v
}

func (r wideRow) has(column string) bool { return r[column] != "" }

var wideMovements = map[string]struct {
	column string
	sign   float64
}{
	"flexion": {"flex", 1}, "extension": {"flex", -1}, "adduction": {"add", 1},
	"abduction": {"add", -1}, "internal": {"ir", 1}, "external": {"ir", -1},
}

// randomRow draws a row from ranges far wider than any implant's.
func randomRow(x *rand.Rand, id int) wideRow {
	in := func(lo, hi float64) float64 { return lo + (hi-lo)*x.Float64() }
	chance := func(p float64) bool { return x.Float64() < p }
	r := wideRow{"id": strconv.Itoa(id), "side": []string{"R", "L"}[x.IntN(2)]}
	arc, head := in(100, 240), in(10, 80)
	for column, v := range map[string]float64{"ri": in(-30, 120), "ra": in(-89, 89), "fa": in(-60, 90),
		"ccd": in(90, 178), "head_d": head, "arc": arc} {
		r.set(column, v)
	}
	if chance(0.7) {
		r.set("wall", in(0.5, 20))
	}
	switch x.IntN(3) {
	case 0:
		r.set("neck_d", head*in(0.05, 0.95))
	case 1:
		from := in(0, head/2)
		r.set("tap_d0", head*in(0.05, 0.95))
		r.set("tap_s0", from)
		r.set("tap_s1", from+in(0.5, head))
		r.set("tap_d1", head*in(0.05, 1.3))
	case 2:
		r.set("oval_a", head*in(0.1, 0.9))
		r.set("oval_b", head*in(0.1, 0.9))
		r.set("oval_roll", in(-180, 180))
	}
	if chance(0.5) {
		high := in(0, math.Min(45, 180-arc/2-8))
		if chance(0.3) {
			high = -in(0, 20)
		}
		r.set("lip_h", high)
		r.set("lip_c", in(-180, 180))
		r.set("lip_w", in(0, 150))
		r.set("lip_r", in(3, 90))
	}
	if chance(0.3) {
		r.set("skirt_d", head*in(0.2, 0.95))
		r.set("skirt_l", in(0.1, 1.2)*head)
	}
	wide := math.Max(math.Max(r.get("neck_d"), r.get("tap_d0")), math.Max(r.get("oval_a"), r.get("oval_b")))
	if room := (head - math.Max(wide, r.get("skirt_d"))) / 2; chance(0.4) && !r.has("tap_d0") {
		r.set("inset", in(-0.9, 0.9)*room)
	}
	for _, column := range []string{"flex", "add", "ir"} {
		if chance(0.5) {
			r.set(column, in(-89, 89))
		}
	}
	r["motion"] = movementWords()[x.IntN(6)]
	m := wideMovements[r["motion"]]
	r.set("end", m.sign*r.get(m.column)+in(0, 270))
	return r
}

type vec [3]float64

func dot(a, b vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func cross(a, b vec) vec {
	return vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}
func sum(ka float64, a vec, kb float64, b vec) vec {
	return vec{ka*a[0] + kb*b[0], ka*a[1] + kb*b[1], ka*a[2] + kb*b[2]}
}
func unitOf(a vec) vec { return sum(1/math.Sqrt(dot(a, a)), a, 0, a) }

func sincos(degrees float64) (s, c float64) { return math.Sincos(degrees * math.Pi / 180) }

// sampled is a row as points of the cup's body and a test of whether a point
// is in the neck, written from contact.md alone.
type sampled struct {
	r          wideRow
	points     []vec
	u0, v0, w0 vec
}

func sample(r wideRow) sampled {
	sri, cri := sincos(r.get("ri"))
	sra, cra := sincos(r.get("ra"))
	n := vec{sra, -cra * cri, cra * sri}
	e0 := unitOf(sum(1, vec{0, 1, 0}, -n[1], n))
	e1 := cross(e0, n)
	ss, cs := sincos(180 - r.get("ccd"))
	sf, cf := sincos(r.get("fa"))
	s := sampled{r: r, u0: vec{-ss * sf, -cs, ss * cf}}
	s.v0 = unitOf(sum(1, vec{0, 1, 0}, -s.u0[1], s.u0))
	s.w0 = cross(s.v0, s.u0)
	radius, wall := r.get("head_d")/2, r.get("wall")
	put := func(az, polar, rho float64) {
		sa, ca := sincos(az)
		sp, cp := sincos(polar)
		s.points = append(s.points, sum(1, sum(r.get("inset")+rho*cp, n, 0, n), rho*sp, sum(ca, e0, sa, e1)))
	}
	for az := 0.0; az < 360; az += 1.5 {
		face := 180 - r.get("arc")/2 - r.get("lip_h")*wideLip(r, az)
		for k := range 33 {
			put(az, face, radius+wall*float64(k)/32)
		}
		for k := 1; k <= 8; k++ {
			put(az, face+(180-face)*float64(k)/8, radius)
		}
	}
	return s
}

func wideLip(r wideRow, az float64) float64 {
	x := math.Abs(math.Remainder(az-r.get("lip_c"), 360)) - r.get("lip_w")/2
	switch {
	case x <= 0:
		return 1
	case x >= r.get("lip_r"):
		return 0
	}
	return (1 + math.Cos(math.Pi*x/r.get("lip_r"))) / 2
}

// gap returns the least radial distance of the cup's points from the neck's
// surface at a value of the moving angle, negative inside.
func (s sampled) gap(x float64) float64 {
	p := map[string]float64{"flex": s.r.get("flex"), "add": s.r.get("add"), "ir": s.r.get("ir")}
	m := wideMovements[s.r["motion"]]
	p[m.column] = m.sign * x
	turn := func(v vec) vec { // Rz(flex) Rx(add) Ry(ir)
		sn, c := sincos(p["ir"])
		v = vec{c*v[0] + sn*v[2], v[1], -sn*v[0] + c*v[2]}
		sn, c = sincos(p["add"])
		v = vec{v[0], c*v[1] - sn*v[2], sn*v[1] + c*v[2]}
		sn, c = sincos(p["flex"])
		return vec{c*v[0] - sn*v[1], sn*v[0] + c*v[1], v[2]}
	}
	u, v, w := turn(s.u0), turn(s.v0), turn(s.w0)
	least := math.Inf(1)
	for _, q := range s.points {
		least = math.Min(least, s.outside(dot(q, u), dot(q, v), dot(q, w)))
	}
	return least
}

// outside returns how far a point lies outside the neck, across its axis.
func (s sampled) outside(axial, up, fore float64) float64 {
	r, across := s.r, math.Hypot(up, fore)
	var g float64
	switch {
	case r.has("neck_d"):
		g = across - r.get("neck_d")/2
	case r.has("tap_d0"):
		t := math.Max(0, math.Min(1, (axial-r.get("tap_s0"))/(r.get("tap_s1")-r.get("tap_s0"))))
		g = across - (r.get("tap_d0")+t*(r.get("tap_d1")-r.get("tap_d0")))/2
	default:
		sn, c := sincos(r.get("oval_roll"))
		a, b := r.get("oval_a")/2, r.get("oval_b")/2
		g = (math.Hypot((up*c+fore*sn)/a, (-up*sn+fore*c)/b) - 1) * math.Min(a, b)
	}
	g = math.Max(g, -axial)
	if r.has("skirt_d") {
		g = math.Min(g, math.Max(math.Max(across-r.get("skirt_d")/2, axial-r.get("skirt_l")), -axial))
	}
	return g
}

func TestWideRowsAgreeWithDenseSampling(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	x := rand.New(rand.NewPCG(*wideSeed, 2))
	var rows []wideRow
	var in strings.Builder
	w := csv.NewWriter(&in)
	w.Write(inputColumns)
	for i := range *wideRows {
		r := randomRow(x, i)
		rows = append(rows, r)
		line := make([]string, len(inputColumns))
		for k, column := range inputColumns {
			line[k] = r[column]
		}
		w.Write(line)
	}
	w.Flush()
	got := calc(t, in.String(), "sweep", "-")
	if got.code != fine {
		t.Fatalf("code %d, errors\n%s", got.code, got.errs)
	}
	count := map[string]int{}
	for i, answer := range table(t, got.out) {
		count[answer["status"]]++
		if bad := disagreement(t, rows[i], answer); bad != "" {
			t.Errorf("%s\nrow %v\nanswer %v", bad, rows[i], answer)
		}
	}
	t.Log(count)
	if len(count) < 3 {
		t.Errorf("only %v: the rows are too much alike", count)
	}
}

// disagreement says where an answer's intervals and the samples cannot both be
// right: a sampled point of the cup in the neck outside every interval, or,
// just within one, where the neck is on the face, every point well clear of it.
func disagreement(t *testing.T, r wideRow, answer map[string]string) string {
	const (
		beside = 0.02 // degrees from a bound in which nothing is asked
		just   = 2.0  // degrees from a bound in which the neck is on the face
		coarse = 0.03 // share of the head's radius that samples of the face may miss
	)
	s := sample(r)
	m := wideMovements[r["motion"]]
	start, end := m.sign*r.get(m.column), r.get("end")
	var bounds []float64
	for _, f := range strings.FieldsFunc(answer["contact_intervals"], func(c rune) bool { return c == ':' || c == ';' }) {
		bounds = append(bounds, number(t, f))
	}
	steps := int(end-start)/2 + 2
	for k := range steps + 1 {
		at := start + (end-start)*float64(k)/float64(steps)
		inside, near, edge := false, false, false
		for _, b := range bounds {
			inside = inside != (at > b)
			near = near || math.Abs(at-b) < beside
			edge = edge || math.Abs(at-b) < just && math.Abs(b-start) > 1e-3 && math.Abs(b-end) > 1e-3
		}
		g := s.gap(at)
		if near {
			continue
		}
		if g < -1e-5 && !inside {
			return fmt.Sprintf("at %.3f a point of the cup is %.4f mm in the neck, outside every interval", at, -g)
		}
		if g > coarse*r.get("head_d")/2 && inside && edge {
			return fmt.Sprintf("at %.3f every sampled point is %.4f mm clear, within an interval", at, g)
		}
	}
	return ""
}
