package evidence

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// strict is the key of Widmer & Zurfluh's set, severe that of Yoshimine's.
const (
	strict = "strict"
	severe = "severe"
)

// demands are the motions of a built-in set.
func demands(set string) []motion.Requirement {
	s, _ := session.BuiltIn().Set(set)
	return s.Requirements()
}

// stemmed is the 32 mm bearing of 136° on a stem.
func stemmed(version float64) kinematics.Design {
	return placed(bearing(32, 12, 180), 42.5, 20, version, 135)
}

// aim returns where the cup should point for a set, with inclination bounded
// where most is not 0.
func aim(set string, version, most float64) kinematics.Target {
	s := kinematics.Search{Design: stemmed(version), Required: demands(set)}
	if most > 0 {
		s.Bounds.Inclination = kinematics.Range{Most: deg(most)}
	}
	t, err := kinematics.FindTarget(context.Background(), s)
	if err != nil {
		panic(err) // the context does not end
	}
	return t
}

// oscillation136 is half of the 136° with which Widmer & Zurfluh reckon.
const oscillation136 = 68 * unit.Degree

// spare is the margin that a cup of inclination 42.5 leaves the strict set.
func spare(version, ra float64) float64 {
	d := kinematics.NewDemand(kinematics.Hip{}, hip.Stem{Anteversion: deg(version), NeckShaft: deg(135)}, demands(strict))
	n := hip.Radiographic{Inclination: deg(42.5), Anteversion: deg(ra)}.Axis()
	return (oscillation136 - d.Farthest(n).Angle).Degrees()
}

// widmerLine asks whether the published line meets the published set.
func widmerLine() Relation {
	r := Relation{Key: "relation_widmer_line", Status: Quoted, Decimals: 1}
	for _, l := range table("widmer.csv") {
		what := fmt.Sprintf("AT %s RA %s: margin", l.Row["version"], l.Row["line"])
		r.Values = append(r.Values, Value{What: what, Computed: spare(l.number("version"), l.number("line")), Bound: AtLeast})
	}
	return r
}

// widmerBands are the ends of the band of cups that meet the set, on a grid of
// a tenth.
func widmerBands() Relation {
	r := Relation{Key: "relation_widmer_band", Status: Derived, Decimals: 1}
	for _, l := range table("widmer.csv") {
		version, best := l.number("version"), l.number("best")
		for column, outside := range map[string]float64{"from": best - 60, "to": best + 60} {
			in, out := best, outside
			for range 60 {
				if m := (in + out) / 2; spare(version, m) > 0 {
					in = m
				} else {
					out = m
				}
			}
			r.Values = append(r.Values, Value{What: "AT " + l.Row["version"] + ": " + column, Published: l.number(column), Computed: in, Tolerance: 0.1})
		}
	}
	slices.SortStableFunc(r.Values, func(a, b Value) int { return strings.Compare(a.What, b.What) })
	return r
}

// caps are the least oscillation angles that published sets demand.
func caps() Relation {
	r := Relation{Key: "relation_caps", Status: Derived, Decimals: 1}
	for _, l := range table("caps.csv") {
		most := 0.0
		what := fmt.Sprintf("%s AT %s", l.Row["set"], l.Row["version"])
		if l.given("bound") {
			most = l.number("bound")
			what += " RI <= " + l.Row["bound"]
		}
		t := aim(l.Row["set"], l.number("version"), most)
		best, demanded := t.Constrained, t.Constrained.Demanded
		got := map[string]float64{"demanded": demanded.Degrees(), "ri": best.Cup.Inclination.Degrees(), "ra": best.Cup.Anteversion.Degrees()}
		r.add(l, what, got, "demanded", "ri", "ra")
		if l.given("by") {
			r.Values = append(r.Values, Value{What: what + ": by", Told: l.Row["by"], ComputedAsText: binding(l.Row["set"], t.Best)})
		}
	}
	return r
}

// binding names the motions that bind, in the order of the alphabet.
func binding(set string, a kinematics.Aim) string {
	list := demands(set)
	var keys []string
	for _, e := range a.Binding {
		keys = append(keys, list[e.Motion].Key)
	}
	slices.Sort(keys)
	return strings.Join(slices.Compact(keys), " ")
}

// infeasible is the strict set with its rotation asked at a right angle, which
// no cup position under a bearing of 136° meets.
func infeasible() Relation {
	r := Relation{Key: "relation_infeasible", Status: Derived, Decimals: 1}
	set, _ := session.BuiltIn().Set(strict)
	rotation, _ := set.Of(motion.InternalAt0)
	list := set.With(motion.InternalAt0, motion.Stated{}).With(motion.InternalAt90, rotation).Requirements()
	t, err := kinematics.FindTarget(context.Background(), kinematics.Search{Design: stemmed(15), Required: list})
	if err != nil {
		panic(err) // the context does not end
	}
	r.Values = append(r.Values, Value{What: "IR 80 at 90, AT 15: demanded", Published: 136, Computed: t.Demanded.Degrees(), Bound: AtLeast})
	return r
}

// boundCost is what bounding inclination at 50 costs Yoshimine's set.
func boundCost() Relation {
	r := Relation{Key: "relation_yoshimine_cost", Status: Derived, Decimals: 1}
	t := aim(severe, 15, 50)
	r.Values = append(r.Values, Value{What: "RI <= 50, AT 15: cost", Published: 7, Computed: 2 * t.Cost().Degrees(), Tolerance: printed(1)})
	return r
}
