package aperture

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"rimclear/kinematics/implant"
	_ "rimclear/kinematics/seeded"
	"rimclear/kinematics/unit"
)

func deg(x float64) unit.Angle { return unit.Angle(x) * unit.Degree }

// theta is the half angle of the free cone of a round rim and a cylinder.
func theta(head, neck float64, arc unit.Angle) unit.Angle {
	a, _ := Build(implant.Rim{HeadDiameter: head, Arc: arc, Wall: 5}, implant.Neck{Diameter: neck}).Theta()
	return a
}

func TestEdgeToEdgeAngleByHeadNeckAndArc(t *testing.T) {
	for _, row := range published(t, "oscillation.csv") {
		head, neck := number(t, row, "head"), number(t, row, "neck")
		if got := head / neck; math.Abs(got-number(t, row, "ratio")) > 0.0006 {
			t.Errorf("ratio of %g on %g = %.4f, want %s", head, neck, got, row["ratio"])
		}
		for _, arc := range []float64{160, 165, 168, 170, 180} {
			column := fmt.Sprintf("arc%g", arc)
			closeTo(t, fmt.Sprintf("head %g on neck %g, %s", head, neck, column), 2*theta(head, neck, deg(arc)), angle(t, row, column), 0.0051)
		}
	}
}

func TestEdgeToEdgeAngleByRatio(t *testing.T) {
	for _, row := range published(t, "oscillation_ratio.csv") {
		got := 2 * theta(40, 40/number(t, row, "ratio"), angle(t, row, "arc"))
		closeTo(t, fmt.Sprintf("ratio %s, arc %s", row["ratio"], row["arc"]), got, angle(t, row, "osc"), 0.0051)
	}
}

// Common practice, no source: a 32 mm bearing gives 136° edge to edge, a 50 mm
// head on a 44 mm neck 69°.
func TestCommonPracticeQuotes136And69Degrees(t *testing.T) {
	closeTo(t, "32 mm head, 12 mm neck, hemisphere", 2*theta(32, 12, deg(180)), deg(136), 0.5)
	closeTo(t, "50 mm head, 44 mm neck, arc 168", 2*theta(50, 44, deg(168)), deg(69), 0.5)
	closeTo(t, "32 mm head, 15 mm neck, arc 168", 2*theta(32, 15, deg(168)), deg(136), 0.5)
	closeTo(t, "arc at which 50 on 44 gives 69", deg(360-69)-2*unit.Angle(math.Asin(44.0/50)), deg(167.72), 0.0051)
	if got := 2 * theta(50, 44, deg(180)).Degrees(); math.Abs(got-69) < 5 {
		t.Errorf("50 on 44 in a hemisphere gives %.2f°: the quoted 69° would not need a lower arc", got)
	}
}

func TestARimStatedAsACircleGivesTheSameCone(t *testing.T) {
	for _, row := range published(t, "rim_circle.csv") {
		rim := implant.Rim{HeadDiameter: 32, Arc: deg(180), Wall: 5,
			Edge: implant.Edge{Radius: number(t, row, "rho"), Height: number(t, row, "height")}}
		got, round := Build(rim, implant.Neck{Diameter: number(t, row, "neck")}).Theta()
		if !round {
			t.Errorf("a circle under a cylinder is not round")
		}
		closeTo(t, fmt.Sprintf("rim circle %s mm wide, %s mm high, neck %s", row["rho"], row["height"], row["neck"]), got, angle(t, row, "theta"), 0.000051)
	}
}

func TestAConeIsAsWideAsItIsWhereTheRimMeetsIt(t *testing.T) {
	for _, row := range published(t, "taper.csv") {
		slope := angle(t, row, "k").Tan()
		neck := implant.Neck{Taper: implant.Taper{StartDiameter: 12 - 2*15*slope, EndDiameter: 12 + 2*15*slope, End: 30}}
		got, _ := Build(implant.Rim{HeadDiameter: 32, Arc: deg(180), Wall: 0.001}, neck).Theta()
		closeTo(t, "cone of "+row["k"]+"°", got, angle(t, row, "theta"), 0.00051)
	}
}

// On the bearing sphere a rim raised by e takes e from the angle, all along its
// plateau.
func TestALipTakesItsHeightFromTheAngleWhereItStands(t *testing.T) {
	for _, row := range published(t, "lip.csv") {
		height := number(t, row, "height")
		a := Build(implant.Rim{HeadDiameter: 32, Arc: deg(180), Wall: 5,
			Lips: [2]implant.Lip{{Height: deg(height), Centre: deg(-120), Plateau: deg(150), Ramp: deg(15)}}},
			implant.Neck{Diameter: 12})
		if _, round := a.Theta(); round {
			t.Fatal("a rim with a lip passes for round")
		}
		closeTo(t, fmt.Sprintf("lip of %g°, towards its middle", height), towards(a, deg(-120)), angle(t, row, "theta"), 0.0051)
		closeTo(t, fmt.Sprintf("lip of %g°, away from it", height), towards(a, deg(60)), theta(32, 12, deg(180)), 1e-6)
	}
}

// towards is where the margin is spent as the neck leans straight to one side of
// the rim.
func towards(a *Aperture, azimuth unit.Angle) unit.Angle {
	lo, hi := 0.0, math.Pi/2
	for range 60 {
		m := (lo + hi) / 2
		// Turned straight, the neck's own sides stay on those of the rim.
		if a.Nearest(poseOf(m, azimuth.Radians(), -azimuth.Radians())).Margin > 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return unit.Angle(lo)
}

// The front of a resurfaced neck lies behind the head's by the anterior offset,
// and leaning forwards it is the front that meets the rim: a centred and a
// shifted oval of the same front go as far.
func TestAResurfacedNeckLeansForwardByItsAnteriorOffset(t *testing.T) {
	for _, row := range published(t, "offset.csv") {
		front := 25 - number(t, row, "offset")
		for _, shift := range []float64{0, -1.5, 1} {
			a := Build(implant.Rim{HeadDiameter: 50, Arc: deg(168), Wall: 3},
				implant.Neck{Oval: implant.Oval{Width: 38, Depth: 2 * (front - shift), AnteriorShift: shift}})
			closeTo(t, fmt.Sprintf("offset %s mm, section shifted by %g mm", row["offset"], shift), towards(a, deg(90)), angle(t, row, "theta"), 0.0051)
		}
	}
}

func TestASkirtCountsIfTheRimReachesIt(t *testing.T) {
	at := func(head, neck, skirt, length float64) unit.Angle {
		a, _ := Build(implant.Rim{HeadDiameter: head, Arc: deg(180), Wall: 5}, implant.Neck{Diameter: neck, Skirt: implant.Skirt{Diameter: skirt, Length: length}}).Theta()
		return a
	}
	for _, row := range published(t, "skirt.csv") {
		n := func(c string) float64 { return number(t, row, c) }
		closeTo(t, fmt.Sprintf("%g mm head, %g mm skirt", n("head"), n("skirt")), at(n("head"), n("neck"), n("skirt"), n("length")), angle(t, row, "theta"), 0.0051)
	}
	depth := math.Sqrt(14*14 - 9*9) // where the skirt's edge leaves the ball
	closeTo(t, "28 mm head, skirt that ends inside the ball", at(28, 12, 18, depth-0.01), deg(64.62), 0.0051)
}

func TestNoPartMakesTheConeWider(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		head := rapid.Float64Range(22, 60).Draw(t, "head")
		neck := head * rapid.Float64Range(0.3, 0.9).Draw(t, "neck over head")
		arc := rapid.Float64Range(140, 200).Draw(t, "arc")
		base := theta(head, neck, deg(arc))
		if more := theta(head, neck*1.01, deg(arc)); more >= base {
			t.Fatalf("a wider neck widens the cone from %v to %v", base, more)
		}
		if more := theta(head*1.01, neck, deg(arc)); more <= base {
			t.Fatalf("a larger head narrows the cone from %v to %v", base, more)
		}
		if less := theta(head, neck, deg(arc+1)); (base - less - deg(0.5)).Abs() > 1e-12 {
			t.Fatalf("1° of arc takes %v off, want half a degree", base-less)
		}
		if same := theta(head*1.7, neck*1.7, deg(arc)); (base - same).Abs() > 1e-12 {
			t.Fatalf("the cone depends on size: %v, enlarged %v", base, same)
		}
	})
}
