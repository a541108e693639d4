package evidence

import (
	"fmt"

	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// theta is the half angle of the free cone in degrees, 0 where the free set is
// no cone.
func theta(d kinematics.Design) float64 {
	a, _ := aperture.Build(d.Rim, d.Neck).Theta()
	return a.Degrees()
}

func oscillation() Relation {
	r := Relation{Key: "relation_oscillation", Status: Derived, Decimals: 2}
	for _, l := range table("oscillation.csv") {
		got := map[string]float64{}
		columns := []string{"arc160", "arc165", "arc168", "arc170", "arc180"}
		for i, arc := range []float64{160, 165, 168, 170, 180} {
			got[columns[i]] = 2 * theta(bearing(l.number("head"), l.number("neck"), arc))
		}
		r.add(l, l.Row["head"]+"/"+l.Row["neck"], got, columns...)
	}
	return r
}

func oscillationByRatio() Relation {
	r := Relation{Key: "relation_ratio", Status: Derived, Decimals: 2}
	for _, l := range table("oscillation_ratio.csv") {
		got := 2 * theta(bearing(40, 40/l.number("ratio"), l.number("arc")))
		r.add(l, fmt.Sprintf("ratio %s A %s", l.Row["ratio"], l.Row["arc"]), map[string]float64{"osc": got}, "osc")
	}
	return r
}

func practice() Relation {
	r := Relation{Key: "relation_practice", Status: CommonPractice, Decimals: 0}
	for _, l := range table("practice.csv") {
		got := 2 * theta(bearing(l.number("head"), l.number("neck"), l.number("arc")))
		r.add(l, fmt.Sprintf("%s/%s A %s", l.Row["head"], l.Row["neck"], l.Row["arc"]), map[string]float64{"osc": got}, "osc")
	}
	return r
}

func rimCircle() Relation {
	r := Relation{Key: "relation_rim_circle", Status: Derived, Decimals: 4}
	for _, l := range table("rim_circle.csv") {
		d := bearing(32, l.number("neck"), 180)
		d.Rim.Edge = implant.Edge{Radius: l.number("rho"), Height: l.number("height")}
		what := fmt.Sprintf("rho %s h %s neck %s", l.Row["rho"], l.Row["height"], l.Row["neck"])
		r.add(l, what, map[string]float64{"theta": theta(d)}, "theta")
	}
	return r
}

func tapers() Relation {
	r := Relation{Key: "relation_taper", Status: Derived, Decimals: 3}
	for _, l := range table("taper.csv") {
		slope := l.angle("k").Tan()
		d := bearing(32, 0, 180)
		d.Rim.Wall = 0.001 // the inner edge alone
		d.Neck.Taper = implant.Taper{StartDiameter: 12 - 2*15*slope, EndDiameter: 12 + 2*15*slope, End: 30}
		r.add(l, "k "+l.Row["k"], map[string]float64{"theta": theta(d)}, "theta")
	}
	return r
}

// lips are asked towards the middle of the lip, where its height counts in full.
func lips() Relation {
	r := Relation{Key: "relation_lip", Status: Derived, Decimals: 2}
	const centre = -120 * unit.Degree
	for _, l := range table("lip.csv") {
		d := bearing(32, 12, 180)
		d.Rim.Lips[0] = implant.Lip{Height: l.angle("height"), Centre: centre, Plateau: deg(150), Ramp: deg(15)}
		r.add(l, "e "+l.Row["height"], map[string]float64{"theta": towards(d, centre)}, "theta")
	}
	return r
}

func skirts() Relation {
	r := Relation{Key: "relation_skirt", Status: Derived, Decimals: 2}
	for _, l := range table("skirt.csv") {
		d := bearing(l.number("head"), l.number("neck"), 180)
		d.Neck.Skirt = implant.Skirt{Diameter: l.number("skirt"), Length: l.number("length")}
		what := fmt.Sprintf("%s/%s skirt %s to %s", l.Row["head"], l.Row["neck"], l.Row["skirt"], l.Row["length"])
		r.add(l, what, map[string]float64{"theta": theta(d)}, "theta")
	}
	return r
}

// offsets are asked of an oval neck whose front lies so far behind the head's:
// its section is shifted backwards in the head.
func offsets() Relation {
	r := Relation{Key: "relation_offset", Status: Derived, Decimals: 2}
	for _, l := range table("offset.csv") {
		d := bearing(50, 0, 168)
		back := 1.5 // mm; the depth follows
		d.Neck.Oval = implant.Oval{Width: 40, Depth: 2 * (25 - l.number("offset") + back), AnteriorShift: -back}
		r.add(l, "R 25 A 168 o "+l.Row["offset"], map[string]float64{"theta": towards(d, 90*unit.Degree)}, "theta")
	}
	return r
}

// towards is how far the neck axis leans to one side of the rim, without roll,
// before neck and rim touch: degrees.
func towards(d kinematics.Design, azimuth unit.Angle) float64 {
	a := aperture.Build(d.Rim, d.Neck)
	lo, hi := unit.Angle(0), 90*unit.Degree
	for range 60 {
		if m := (lo + hi) / 2; a.Nearest(leaning(m, azimuth)).Margin > 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return lo.Degrees()
}

// leaning is a neck turned straight from the cup axis towards an azimuth: its
// superior and anterior sides stay on those of the rim.
func leaning(by, azimuth unit.Angle) aperture.Pose {
	s, c := by.Sincos()
	sa, ca := azimuth.Sincos()
	return aperture.Pose{
		Superior: vec(1-(1-c)*ca*ca, -(1-c)*sa*ca, -s*ca),
		Anterior: vec(-(1-c)*sa*ca, 1-(1-c)*sa*sa, -s*sa),
		Axis:     vec(s*ca, s*sa, c),
	}
}
