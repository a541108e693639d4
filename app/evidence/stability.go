package evidence

import (
	"fmt"
	"math"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// lateralJump is the jump distance with the head centre off mm outside the
// opening: an arc that puts it there is A = 180 - 2 asin(off/R).
func lateralJump(head, off, inclination float64) float64 {
	arc := 180*unit.Degree - 2*unit.Angle(math.Asin(off/(head/2)))
	return kinematics.LateralJump(head/2, arc, hip.Radiographic{Inclination: deg(inclination)})
}

func jumps() Relation {
	r := Relation{Key: "relation_jump", Status: Derived, Decimals: 2}
	for _, l := range table("jump.csv") {
		got := lateralJump(l.number("head"), l.number("off"), l.number("inclination"))
		what := fmt.Sprintf("D %s off %s RI %s", l.Row["head"], l.Row["off"], l.Row["inclination"])
		r.add(l, what, map[string]float64{"jump": got}, "jump")
	}
	return r
}

// jumpsByArc are asked of placed cups, not of the formula.
func jumpsByArc() Relation {
	r := Relation{Key: "relation_jump_arc", Status: Derived, Decimals: 2}
	for _, l := range table("jump_arc.csv") {
		d := placed(bearing(l.number("head"), l.number("head")-6, l.number("arc")), l.number("inclination"), 0, 15, 135)
		got := loaded(d, 0).LateralJump
		what := fmt.Sprintf("D %s A %s RI %s", l.Row["head"], l.Row["arc"], l.Row["inclination"])
		r.add(l, what, map[string]float64{"jump": got}, "jump")
	}
	return r
}

// loaded is a cup under a load in the coronal plane, so many degrees medial of
// vertical, the pelvis upright.
func loaded(d kinematics.Design, medial float64) kinematics.Stability {
	l := kinematics.Loads[0]
	l.Medial = deg(medial)
	d.Bearing = kinematics.Resurfacing
	return kinematics.NewJoint(kinematics.Hip{}, d).Stability(d, l, kinematics.CobaltChrome)
}

// jumpTrends are the trends the paper prints.
func jumpTrends() Relation {
	r := Relation{Key: "relation_sariali", Status: Found, Decimals: 3}
	turned := func(anteversion float64) float64 { // at a fixed anatomic inclination of 45
		n := hip.Anatomic{Inclination: deg(45), Anteversion: deg(anteversion)}.Axis()
		return lateralJump(32, 0, hip.RadiographicOf(n).Inclination.Degrees())
	}
	got := map[string]float64{
		"inclination_32": (lateralJump(32, 0, 80) - lateralJump(32, 0, 0)) / 80,
		"anteversion_32": (turned(40) - turned(0)) / 40,
		"diameter_at_45": lateralJump(33, 0, 45) - lateralJump(32, 0, 45),
		"diameter_at_60": lateralJump(33, 0, 60) - lateralJump(32, 0, 60),
		"offset":         (lateralJump(32, 0.01, 45) - lateralJump(32, -0.01, 45)) / 0.02,
	}
	for _, l := range table("jump_trend.csv") {
		trend := l.Row["trend"]
		r.Values = append(r.Values, Value{What: trend, Published: l.number("per_unit"), Computed: got[trend], Tolerance: l.number("tolerance")})
	}
	return r
}

func patches() Relation {
	r := Relation{Key: "relation_patch", Status: Derived, Decimals: 2}
	for _, l := range table("patch.csv") {
		s := loaded(placed(bearing(l.number("head"), l.number("head")-6, l.number("arc")), l.number("ri"), l.number("ra"), 15, 135), 10)
		got := map[string]float64{"psi": s.Psi.Degrees(), "patch": s.Patch.Centre}
		what := fmt.Sprintf("D %s A %s RI %s RA %s", l.Row["head"], l.Row["arc"], l.Row["ri"], l.Row["ra"])
		r.add(l, what, got, "psi", "patch")
	}
	return r
}

// patchReached finds the inclination at which the patch is 10 mm from the rim.
func patchReached() Relation {
	r := Relation{Key: "relation_patch_reached", Status: Derived, Decimals: 2}
	for _, l := range table("patch_reached.csv") {
		lo, hi := 0.0, 90.0
		for range 60 {
			m := (lo + hi) / 2
			if loaded(placed(bearing(l.number("head"), l.number("head")-6, l.number("arc")), m, 15, 15, 135), 10).Patch.Centre > kinematics.LeastPatch {
				lo = m
			} else {
				hi = m
			}
		}
		r.add(l, fmt.Sprintf("D %s A %s", l.Row["head"], l.Row["arc"]), map[string]float64{"inclination": lo}, "inclination")
	}
	return r
}

func hertz() Relation {
	r := Relation{Key: "relation_hertz", Status: Derived, Decimals: 3}
	for _, l := range table("hertz.csv") {
		c := kinematics.CobaltChrome
		c.Clearance = l.number("clearance")
		what := fmt.Sprintf("D %s clearance %s", l.Row["head"], l.Row["clearance"])
		r.add(l, what, map[string]float64{"radius": c.PatchRadius(l.number("head"))}, "radius")
	}
	return r
}
