package hip

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/kinematics/unit"
)

// functional is a cup axis of the APP seen from the coronal plane of the room
// while the pelvis is tilted posteriorly by t.
func functional(n r3.Vec, posterior unit.Angle) r3.Vec {
	return Tilts{Standing: -posterior}.APPFromPlane(Standing).Inverse().Apply(n)
}

func TestTiltChangesTheFunctionalCupExactly(t *testing.T) {
	for _, row := range published(t, "tilt.csv") {
		n := functional(Radiographic{angle(t, row, "ri"), angle(t, row, "ra")}.Axis(), angle(t, row, "t"))
		r, o, a := RadiographicOf(n), OperativeOf(n), AnatomicOf(n)
		at := fmt.Sprintf("cup %s/%s tilted back by %s: ", row["ri"], row["ra"], row["t"])
		const printed = 0.0051
		closeTo(t, at+"radiographic inclination", r.Inclination, angle(t, row, "ri_after"), printed)
		closeTo(t, at+"radiographic anteversion", r.Anteversion, angle(t, row, "ra_after"), printed)
		closeTo(t, at+"operative anteversion", o.Anteversion, angle(t, row, "oa_after"), printed)
		closeTo(t, at+"anatomic inclination", a.Inclination, angle(t, row, "ai_after"), printed)
		closeTo(t, at+"anatomic anteversion", a.Anteversion, angle(t, row, "aa_after"), printed)
	}
}

func TestThirteenDegreesOfTiltChangeAnteversionByAboutTen(t *testing.T) {
	for _, row := range published(t, "tilt_published.csv") {
		ra := angle(t, row, "ra")
		n := Radiographic{angle(t, row, "ri"), ra}.Axis()
		change := RadiographicOf(functional(n, angle(t, row, "t"))).Anteversion - ra
		at := fmt.Sprintf("cup %s/%s tilted back by %s: change of anteversion", row["ri"], row["ra"], row["t"])
		closeTo(t, at, change, angle(t, row, "change"), 0.0051)
		closeTo(t, at+" (Langston 2018)", change, angle(t, row, "published"), 1.2)
	}
}

func TestTiltMovesOperativeAnteversionDegreeForDegree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ri := unit.Angle(rapid.Float64Range(10, 70).Draw(t, "ri")) * unit.Degree
		ra := unit.Angle(rapid.Float64Range(-20, 40).Draw(t, "ra")) * unit.Degree
		anterior := unit.Angle(rapid.Float64Range(-30, 30).Draw(t, "anterior tilt")) * unit.Degree
		before := Radiographic{ri, ra}.Axis()
		after := functional(before, -anterior)
		a, b := OperativeOf(before), OperativeOf(after)
		if (a.Inclination - b.Inclination).Abs() > 1e-13 {
			t.Fatalf("operative inclination moved from %v to %v", a.Inclination, b.Inclination)
		}
		if (b.Anteversion - (a.Anteversion - anterior)).Wrapped().Abs() > 1e-13 {
			t.Fatalf("operative anteversion %v after an anterior tilt of %v, want %v", b.Anteversion, anterior, a.Anteversion-anterior)
		}
	})
}

func TestRadiographicAnteversionFallsWithAnteriorTiltByTheCosineOfInclination(t *testing.T) {
	const h = 1e-5 * unit.Degree
	for ri := 10; ri <= 70; ri += 5 {
		n := Radiographic{unit.Angle(ri) * unit.Degree, 15 * unit.Degree}.Axis()
		up, down := RadiographicOf(functional(n, -h)), RadiographicOf(functional(n, h))
		got := float64((up.Anteversion - down.Anteversion) / (2 * h))
		if want := -math.Cos(float64(ri) * math.Pi / 180); math.Abs(got-want) > 1e-7 {
			t.Errorf("inclination %d°: anteversion changes by %.6f per degree of anterior tilt, want %.6f", ri, got, want)
		}
	}
}

func TestEveryPlaneHasItsOwnTilt(t *testing.T) {
	tilts := Tilts{Supine: 1, Standing: 2, RelaxedSitting: 3, FlexedSitting: 4}
	for p, want := range map[Plane]unit.Angle{APP: 0, Supine: 1, Standing: 2, RelaxedSitting: 3, FlexedSitting: 4} {
		if got := tilts.Of(p); got != want {
			t.Errorf("Of(%d) = %v, want %v", p, got, want)
		}
	}
	if got := tilts.APPFromPlane(APP); got != Identity {
		t.Errorf("APPFromPlane(APP) = %v, want the identity", got)
	}
}

func TestAPelvisTiltedForwardSeesTheRoomsVerticalLeanBack(t *testing.T) {
	// Anterior tilt: the top of the pelvis goes forward, so in its own axes what
	// is up in the room leans backward.
	up := Tilts{Standing: 20 * unit.Degree}.APPFromPlane(Standing).Apply(r3.Vec{Y: 1})
	if math.Abs(up.X+math.Sin(20*math.Pi/180)) > 1e-15 || up.Y <= 0 {
		t.Errorf("the room's vertical is %v in a pelvis tilted forward by 20°, want it to lean back", up)
	}
}
