package hip

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
	"pgregory.net/rapid"

	"rimclear/kinematics/unit"
)

// half a unit of the tables' last place, and a little.
const printed = 0.00051

func TestTheThreeDefinitionsNameTheSameAxis(t *testing.T) {
	for _, row := range published(t, "murray.csv") {
		n := Radiographic{angle(t, row, "ri"), angle(t, row, "ra")}.Axis()
		o, a := OperativeOf(n), AnatomicOf(n)
		at := fmt.Sprintf("radiographic %s/%s: ", row["ri"], row["ra"])
		closeTo(t, at+"operative inclination", o.Inclination, angle(t, row, "oi"), printed)
		closeTo(t, at+"operative anteversion", o.Anteversion, angle(t, row, "oa"), printed)
		closeTo(t, at+"anatomic inclination", a.Inclination, angle(t, row, "ai"), printed)
		closeTo(t, at+"anatomic anteversion", a.Anteversion, angle(t, row, "aa"), printed)
	}
}

func TestOperativeAndAnatomicAnglesReadBackAsRadiographic(t *testing.T) {
	given := map[string]Definition{"operative": ByOperation, "anatomic": ByAnatomy}
	for _, row := range published(t, "murray_inverse.csv") {
		n := AxisBy(given[row["given"]], angle(t, row, "inclination"), angle(t, row, "anteversion"))
		for d, columns := range map[Definition][2]string{ByRadiograph: {"ri", "ra"}, ByOperation: {"oi", "oa"}, ByAnatomy: {"ai", "aa"}} {
			inclination, anteversion := AnglesBy(d, n)
			for column, got := range map[string]unit.Angle{columns[0]: inclination, columns[1]: anteversion} {
				if row[column] != "" {
					closeTo(t, fmt.Sprintf("%s %s/%s: %s", row["given"], row["inclination"], row["anteversion"], column), got, angle(t, row, column), printed)
				}
			}
		}
	}
}

// anyAxis draws an axis out of the cup that opens downwards, outwards and
// forwards, as cups do.
func anyAxis(r *rand.Rand) Radiographic {
	return Radiographic{unit.Angle(1+88*r.Float64()) * unit.Degree, unit.Angle(88*r.Float64()) * unit.Degree}
}

func TestOperativeInclinationIsTheLeastAndAnatomicTheGreatest(t *testing.T) {
	r := rand.New(rand.NewPCG(1993, 75))
	for range 20000 {
		c := anyAxis(r)
		o, a := OperativeOf(c.Axis()), AnatomicOf(c.Axis())
		const rounding = 1e-12
		if o.Inclination > c.Inclination+rounding || c.Inclination > a.Inclination+rounding {
			t.Fatalf("radiographic %v: inclinations operative %v, radiographic %v, anatomic %v are not in order", c, o.Inclination, c.Inclination, a.Inclination)
		}
		if o.Anteversion < c.Anteversion-rounding || a.Anteversion < c.Anteversion-rounding {
			t.Fatalf("radiographic %v: anteversion operative %v or anatomic %v is below the radiographic", c, o.Anteversion, a.Anteversion)
		}
	}
}

func TestTheFormulasBetweenTheDefinitionsHold(t *testing.T) {
	r := rand.New(rand.NewPCG(228, 232))
	for range 20000 {
		c := anyAxis(r)
		n := c.Axis()
		ri, ra := c.Inclination, c.Anteversion
		o, a := OperativeOf(n), AnatomicOf(n)
		oi, oa, ai, aa := o.Inclination, o.Anteversion, a.Inclination, a.Anteversion
		for name, sides := range map[string][2]float64{
			"sin OI = cos RA sin RI": {oi.Sin(), ra.Cos() * ri.Sin()},
			"cos AI = cos RA cos RI": {ai.Cos(), ra.Cos() * ri.Cos()},
			"tan OA cos RI = tan RA": {oa.Sin() * ra.Cos() * ri.Cos(), oa.Cos() * ra.Sin()},
			"tan AA sin RI = tan RA": {aa.Sin() * ra.Cos() * ri.Sin(), aa.Cos() * ra.Sin()},
			"sin RA = cos OI sin OA": {ra.Sin(), oi.Cos() * oa.Sin()},
			"sin RA = sin AI sin AA": {ra.Sin(), ai.Sin() * aa.Sin()},
			"cos AI = cos OI cos OA": {ai.Cos(), oi.Cos() * oa.Cos()},
			"sin OI = sin AI cos AA": {oi.Sin(), ai.Sin() * aa.Cos()},
			"tan RI cos OA = tan OI": {ri.Sin() * oa.Cos() * oi.Cos(), ri.Cos() * oi.Sin()},
		} {
			if math.Abs(sides[0]-sides[1]) > 1e-12 {
				t.Fatalf("radiographic %.4f/%.4f: %s gives %v and %v", ri.Degrees(), ra.Degrees(), name, sides[0], sides[1])
			}
		}
	}
}

func TestEachAngleIsTheOneItsDefinitionDescribes(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	between := func(a, b r3.Vec) unit.Angle {
		return unit.Angle(math.Atan2(r3.Norm(r3.Cross(a, b)), r3.Dot(a, b)))
	}
	down, outwards := r3.Vec{Y: -1}, r3.Vec{Z: 1}
	for range 2000 {
		c := anyAxis(r)
		n := c.Axis()
		coronal, sagittal, transverse := r3.Vec{Y: n.Y, Z: n.Z}, r3.Vec{X: n.X, Y: n.Y}, r3.Vec{X: n.X, Z: n.Z}
		o, a := OperativeOf(n), AnatomicOf(n)
		closeTo(t, "radiographic inclination: longitudinal axis to the axis in the coronal plane", c.Inclination, between(down, coronal), 1e-10)
		closeTo(t, "radiographic anteversion: axis to the coronal plane", c.Anteversion, between(n, coronal), 1e-10)
		closeTo(t, "operative inclination: axis to the sagittal plane", o.Inclination, between(n, sagittal), 1e-10)
		closeTo(t, "operative anteversion: longitudinal axis to the axis in the sagittal plane", o.Anteversion, between(down, sagittal), 1e-10)
		closeTo(t, "anatomic inclination: axis to the longitudinal axis", a.Inclination, between(down, n), 1e-10)
		closeTo(t, "anatomic anteversion: transverse axis to the axis in the transverse plane", a.Anteversion, between(outwards, transverse), 1e-10)
	}
}

func TestRestatingAnAxisLeavesItWhereItIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		ri := rapid.Float64Range(0, 90).Draw(t, "inclination")
		ra := rapid.Float64Range(-89, 89).Draw(t, "anteversion")
		n := Radiographic{unit.Angle(ri) * unit.Degree, unit.Angle(ra) * unit.Degree}.Axis()
		if got := r3.Norm(n); math.Abs(got-1) > 1e-15 {
			t.Fatalf("the axis has length %v", got)
		}
		for d := ByRadiograph; d <= ByAnatomy; d++ {
			i, a := AnglesBy(d, n)
			if off := r3.Norm(r3.Sub(AxisBy(d, i, a), n)); off > 1e-15*8 {
				t.Fatalf("definition %d: %v restated is off by %v", d, n, off)
			}
		}
	})
}

func TestTheRimIsACircleSeenAsAnEllipseOnTheRadiograph(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range 50 {
		c := Radiographic{unit.Angle(80*r.Float64()) * unit.Degree, unit.Angle(-40+90*r.Float64()) * unit.Degree}
		toPlane := PlaneFromCup(c.Axis())
		// The rim's circle, 50 mm wide, projected along X on the coronal plane: its
		// greatest and least diameter.
		widest, narrowest, lean := 0.0, math.Inf(1), unit.Angle(0)
		for k := range 36000 {
			s, co := (unit.Angle(k) * unit.Degree / 200).Sincos()
			e := r3.Scale(25, toPlane.Apply(r3.Vec{X: co, Y: s}))
			w := 2 * math.Hypot(e.Y, e.Z)
			if w > widest {
				widest, lean = w, unit.Angle(math.Atan2(e.Y, e.Z))
			}
			narrowest = math.Min(narrowest, w)
		}
		got, err := RadiographicFromEllipse(c.Inclination, narrowest, widest, c.Anteversion < 0)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, fmt.Sprintf("anteversion from an ellipse %.4f by %.4f mm", narrowest, widest), got.Anteversion, c.Anteversion, 0.01)
		// The long axis of the ellipse lies at the inclination to the transverse line.
		if off := (lean.Abs() - c.Inclination); c.Anteversion.Abs() > 5*unit.Degree && min(off.Abs(), (180*unit.Degree-lean.Abs()-c.Inclination).Abs()) > 0.05*unit.Degree {
			t.Errorf("long axis of the ellipse leans %.3f°, want the inclination %.3f°", lean.Degrees(), c.Inclination.Degrees())
		}
	}
}

func TestAnImpossibleEllipseIsRefused(t *testing.T) {
	for _, axes := range [][2]float64{{51, 50}, {-1, 50}, {10, 0}, {10, -5}, {math.NaN(), 50}, {10, math.NaN()}, {10, math.Inf(1)}, {math.Inf(1), math.Inf(1)}} {
		if got, err := RadiographicFromEllipse(40*unit.Degree, axes[0], axes[1], false); err == nil {
			t.Errorf("RadiographicFromEllipse(minor %v, major %v) = %v, want an error", axes[0], axes[1], got)
		}
	}
	for _, axes := range [][2]float64{{0, 50}, {50, 50}} {
		if _, err := RadiographicFromEllipse(40*unit.Degree, axes[0], axes[1], false); err != nil {
			t.Errorf("RadiographicFromEllipse(minor %v, major %v): %v, want no error", axes[0], axes[1], err)
		}
	}
}
