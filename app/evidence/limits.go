package evidence

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func vec(x, y, z float64) r3.Vec { return r3.Vec{X: x, Y: y, Z: z} }

// allLimits are the limits of the tables' columns.
func allLimits(d kinematics.Design) map[string]float64 {
	got := map[string]float64{}
	for _, c := range directions {
		got[c.column] = reach(d, c.movement, hip.Posture{Flexion: deg(c.flexion)})
	}
	return got
}

func columnNames() []string {
	names := make([]string, len(directions))
	for i, c := range directions {
		names[i] = c.column
	}
	return names
}

func limits() Relation {
	r := Relation{Key: "relation_limits", Status: Derived, Decimals: 2}
	for _, l := range table("limits.csv") {
		n := l.number
		d := placed(bearing(n("head"), n("neck"), 180), n("ri"), n("ra"), n("at"), n("ccd"))
		what := fmt.Sprintf("%s/%s RI %s RA %s AT %s CCD %s", l.Row["head"], l.Row["neck"], l.Row["ri"], l.Row["ra"], l.Row["at"], l.Row["ccd"])
		r.add(l, what, allLimits(d), columnNames()...)
	}
	return r
}

// resurfacings: where no rotation at 90° is tabled the hip is in contact before
// it gets there.
func resurfacings() Relation {
	r := Relation{Key: "relation_resurfacing", Status: Derived, Decimals: 2}
	for _, l := range table("resurfacing.csv") {
		n := l.number
		d := placed(bearing(n("head"), n("neck"), n("arc")), n("ri"), n("ra"), 15, 135)
		what := fmt.Sprintf("%s/%s A %s RI %s RA %s", l.Row["head"], l.Row["neck"], l.Row["arc"], l.Row["ri"], l.Row["ra"])
		got := allLimits(d)
		r.add(l, what, got, columnNames()...)
		if !l.given("ir90") {
			told := Value{What: what + ": ir90", Told: "in contact", ComputedAsText: "free"}
			if math.IsNaN(got["ir90"]) {
				told.ComputedAsText = told.Told
			}
			r.Values = append(r.Values, told)
		}
	}
	return r
}

func poses() Relation {
	r := Relation{Key: "relation_poses", Status: Derived, Decimals: 3}
	j := kinematics.NewJoint(kinematics.Hip{}, usual())
	for _, l := range table("poses.csv") {
		p := hip.Posture{Flexion: l.angle("flexion"), Adduction: l.angle("adduction"), InternalRotation: l.angle("internal")}
		margin := j.Margin(p).Degrees()
		got := map[string]float64{"margin": margin, "angle": theta(usual()) - margin}
		r.add(l, fmt.Sprintf("%s/%s/%s", l.Row["flexion"], l.Row["adduction"], l.Row["internal"]), got, "angle", "margin")
	}
	return r
}

func rotations() Relation {
	r := Relation{Key: "relation_rotation", Status: Derived, Decimals: 3}
	for _, l := range table("rotation.csv") {
		m := kinematics.Internal
		if l.Row["movement"] == "external" {
			m = kinematics.External
		}
		got := reach(usual(), m, hip.Posture{Flexion: l.angle("flexion"), Adduction: l.angle("adduction")})
		what := fmt.Sprintf("%s flex %s add %s", l.Row["movement"], l.Row["flexion"], l.Row["adduction"])
		r.add(l, what, map[string]float64{"limit": got}, "limit")
	}
	return r
}

// slopes are how much one degree of a cause moves a limit.
func slopes() Relation {
	r := Relation{Key: "relation_sensitivity", Status: Derived, Decimals: 2}
	change := map[string]func(*kinematics.Design){
		"theta": func(d *kinematics.Design) { d.Rim.Arc -= 2 * unit.Degree },
		"ra":    func(d *kinematics.Design) { d.Cup.Anteversion += unit.Degree },
		"ccd":   func(d *kinematics.Design) { d.Stem.NeckShaft += unit.Degree },
	}
	before := allLimits(usual())
	for _, l := range table("sensitivity.csv") {
		more := usual()
		change[l.Row["cause"]](&more)
		column := l.Row["limit"]
		got := allLimits(more)[column] - before[column]
		r.add(l, fmt.Sprintf("%s by %s", column, l.Row["cause"]), map[string]float64{"slope": got}, "slope")
	}
	return r
}

// counterpart is what resurfacings in hemispherical cups do in this model.
func counterpart() Relation {
	r := Relation{Key: "relation_kluess", Status: Derived, Decimals: 1}
	stemmed := reach(usual(), kinematics.FlexionMovement, hip.Neutral)
	for _, l := range table("kluess.csv") {
		got := reach(placed(bearing(48, 48/l.number("ratio"), 180), 40, 15, 15, 135), kinematics.FlexionMovement, hip.Neutral)
		what := "ratio " + l.Row["ratio"] + ": "
		r.Values = append(r.Values,
			Value{What: what + "flexion", Published: l.number("flexion"), Computed: got, Tolerance: printed(1)},
			// The table's differences are those of rounded values.
			Value{What: what + "deficit", Published: l.number("deficit"), Computed: stemmed - got, Tolerance: 2 * printed(1)})
	}
	return r
}

// counterpartBound is what the paper itself says of its eight designs, asked of
// heads 42 to 54 mm at ratios up to 1.25 and inclinations 40 to 45.
func counterpartBound() Relation {
	r := Relation{Key: "relation_kluess_bound", Status: Found, Decimals: 1}
	for _, head := range []float64{42, 48, 54} {
		greatest := 0.0
		for ratio := 1.10; ratio <= 1.2501; ratio += 0.05 {
			for ri := 40.0; ri <= 45; ri += 2.5 {
				d := placed(bearing(head, head/ratio, 180), ri, 15, 15, 135)
				if f := reach(d, kinematics.FlexionMovement, hip.Neutral); !math.IsNaN(f) { // else in contact in neutral
					greatest = max(greatest, f)
				}
			}
		}
		r.Values = append(r.Values, Value{What: fmt.Sprintf("head %g: flexion", head), Published: 90, Computed: greatest, Bound: AtMost})
	}
	return r
}
