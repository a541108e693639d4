package evidence

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
)

// orientations are Murray's three definitions of one axis.
func orientations() Relation {
	r := Relation{Key: "relation_murray", Status: Derived, Decimals: 3}
	for _, l := range table("murray.csv") {
		n := hip.Radiographic{Inclination: l.angle("ri"), Anteversion: l.angle("ra")}.Axis()
		r.add(l, fmt.Sprintf("RI %s RA %s", l.Row["ri"], l.Row["ra"]), restated(n), "oi", "oa", "ai", "aa")
	}
	return r
}

// orientationsBack start from operative or anatomic angles.
func orientationsBack() Relation {
	r := Relation{Key: "relation_murray_inverse", Status: Derived, Decimals: 3}
	for _, l := range table("murray_inverse.csv") {
		d, symbol := hip.ByOperation, "O"
		if l.Row["given"] == "anatomic" {
			d, symbol = hip.ByAnatomy, "A"
		}
		n := hip.AxisBy(d, l.angle("inclination"), l.angle("anteversion"))
		what := fmt.Sprintf("%sI %s %sA %s", symbol, l.Row["inclination"], symbol, l.Row["anteversion"])
		r.add(l, what, restated(n), "ri", "ra", "oi", "oa", "ai", "aa")
	}
	return r
}

// tilts are cup angles after the pelvis has tilted.
func tilts() Relation {
	r := Relation{Key: "relation_tilt", Status: Derived, Decimals: 2}
	for _, l := range table("tilt.csv") {
		got := map[string]float64{}
		for column, x := range restated(tilted(l)) {
			got[column+"_after"] = x
		}
		what := fmt.Sprintf("RI %s RA %s t %s", l.Row["ri"], l.Row["ra"], l.Row["t"])
		r.add(l, what, got, "ri_after", "ra_after", "oa_after", "ai_after", "aa_after")
	}
	return r
}

// tiltChange is Langston's 13° of tilt. The paper's figure is a round one for
// all cups, so the tolerance is wide.
func tiltChange() Relation {
	r := Relation{Key: "relation_langston", Status: Found, Decimals: 2}
	for _, l := range table("tilt_published.csv") {
		what := fmt.Sprintf("RI %s RA %s t %s: dRA", l.Row["ri"], l.Row["ra"], l.Row["t"])
		change := restated(tilted(l))["ra"] - l.number("ra")
		r.Values = append(r.Values, Value{What: what, Published: l.number("published"), Computed: change, Tolerance: 1.2})
	}
	return r
}

// tilted is a cup axis of the APP in a pelvis that tilts backward by t, seen from
// the room.
func tilted(l line) r3.Vec {
	n := hip.Radiographic{Inclination: l.angle("ri"), Anteversion: l.angle("ra")}.Axis()
	return hip.Tilts{Standing: -l.angle("t")}.APPFromPlane(hip.Standing).Inverse().Apply(n)
}

// restated is an axis in all definitions, degrees by column.
func restated(n r3.Vec) map[string]float64 {
	r, o, a := hip.RadiographicOf(n), hip.OperativeOf(n), hip.AnatomicOf(n)
	return map[string]float64{
		"ri": r.Inclination.Degrees(), "ra": r.Anteversion.Degrees(),
		"oi": o.Inclination.Degrees(), "oa": o.Anteversion.Degrees(),
		"ai": a.Inclination.Degrees(), "aa": a.Anteversion.Degrees(),
	}
}

// add takes the given cells of a row as published, to the last digit printed.
func (r *Relation) add(l line, what string, computed map[string]float64, columns ...string) {
	for _, column := range columns {
		if l.given(column) {
			r.Values = append(r.Values, Value{
				What: what + ": " + column, Published: l.number(column), Computed: computed[column], Tolerance: printed(r.Decimals),
			})
		}
	}
}
