package chart

import (
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// anyShape is anyJoint, with a lip or without, and with an oval neck or a round
// one.
func anyShape() *rapid.Generator[Subject] {
	return rapid.Custom(func(t *rapid.T) Subject {
		s := anyJoint().Draw(t, "joint")
		d := s.Designs[0].Of
		if rapid.Bool().Draw(t, "lipped") {
			d.Rim.Lips[0] = implant.Lip{
				Height: unit.Angle(rapid.Float64Range(1, 20).Draw(t, "height")) * deg,
				Centre: unit.Angle(rapid.Float64Range(-180, 180).Draw(t, "centre")) * deg, Plateau: 60 * deg, Ramp: 30 * deg,
			}
		}
		if rapid.Bool().Draw(t, "oval") {
			wide := d.Neck.Diameter
			d.Neck = implant.Neck{Oval: implant.Oval{Width: wide, Depth: wide * rapid.Float64Range(1, 1.4).Draw(t, "depth")}}
		}
		s.Designs[0] = Design{d.Name, kinematics.NewJoint(s.Hip, d), d}
		return s
	})
}

// TestWhatIsNotAskedForMovesNoLine compares the lines of charts whose cells are
// skipped where no line can pass with those that ask in all of them.
func TestWhatIsNotAskedForMovesNoLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShape().Draw(t, "subject")
		n := neckOf(s.Designs[0].Joint)
		same := func(name string, x, y []float64, margin, fall func(i, j int) float64) {
			t.Helper()
			some, all := sampled(x, y, margin, fall), sampled(x, y, margin, unbounded)
			for _, l := range marginLevels {
				if !reflect.DeepEqual(some.Lines(l), all.Lines(l)) {
					t.Errorf("%s: the lines at %v° differ", name, l)
				}
			}
		}
		kind := rapid.SampledFrom([]kinematics.SliceKind{kinematics.FlexionByRotation, kinematics.FlexionByAdduction, kinematics.AdductionByRotation}).Draw(t, "slice")
		sl := kinematics.StandardSlice(kind, s.Posture)
		x, y := values(sl.Across), values(sl.Up)
		across, up := n.factors(sl)
		same("slice", x, y, func(i, j int) float64 { return n.marginOf(&across[i], &up[j]) }, turning(x, y, n.Rate()))

		g := globeChart{page: page{Subject: s}, eye: globeEye}
		v := figure.Span(-1, 1, globeCells)
		same("globe", v, v, g.marginOf(n, v), g.turning(n, v))
	})
}

func TestSliceAsksForTheJointsOwnMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyShape().Draw(t, "subject")
		j := s.Designs[0].Joint
		n := neckOf(j)
		for kind := range kinematics.ThighReach {
			sl := kinematics.StandardSlice(kind, s.Posture)
			across, up := n.factors(sl)
			a := rapid.IntRange(0, len(across)-1).Draw(t, "across")
			b := rapid.IntRange(0, len(up)-1).Draw(t, "up")
			p := s.Posture.With(sl.Across.Angle, sl.Across.At(a)).With(sl.Up.Angle, sl.Up.At(b))
			if got, want := n.marginOf(&across[a], &up[b]), j.Margin(p).Degrees(); got-want > 1e-9 || want-got > 1e-9 {
				t.Errorf("slice %v at %+v: margin %v, want %v", kind, p, got, want)
			}
		}
	})
}
