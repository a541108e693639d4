package kinematics

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

func catalogue(t testing.TB) map[string]Bearing {
	t.Helper()
	all := map[string]Bearing{}
	for _, data := range assets.Bearings() {
		list, err := ReadCatalogue(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range list {
			if _, twice := all[b.Key]; twice {
				t.Errorf("%s stands in two files", b.Key)
			}
			all[b.Key] = b
		}
	}
	return all
}

// fitted is the default case with a built-in bearing.
func fitted(t testing.TB, key string) Case {
	t.Helper()
	b, ok := catalogue(t)[key]
	if !ok {
		t.Fatalf("no bearing %s", key)
	}
	return b.Apply(Default(), 0)
}

func TestEveryBuiltInBearingIsValidAndSaysWhatItsValuesRestOn(t *testing.T) {
	all := catalogue(t)
	if len(all) < 15 {
		t.Fatalf("%d bearings are built in", len(all))
	}
	kinds := map[BearingKind]int{}
	for key, b := range all {
		c := b.Apply(Default(), 0)
		if faults := Validate(&c); len(faults) > 0 {
			t.Errorf("%s: %+v", key, faults)
		}
		kinds[c.Designs[0].Bearing]++
		if b.Source == "" || b.Name != "" {
			t.Errorf("%s: source %q, name %q", key, b.Source, b.Name)
		}
		for _, v := range b.Values {
			if v.Basis == motion.Own {
				t.Errorf("%s: %s rests on nothing", key, v.Key)
			}
			if v.Basis == motion.Found && v.Source == "" && !strings.Contains(b.Source, ":") {
				t.Errorf("%s: %s is found, but not where", key, v.Key)
			}
		}
	}
	for _, k := range []BearingKind{FixedLiner, Resurfacing, DualMobility} {
		if kinds[k] == 0 {
			t.Errorf("no bearing of kind %d", k)
		}
	}
}

func TestBearingsHaveTheRangeTheyAreKnownFor(t *testing.T) {
	for key, want := range map[string]float64{"stemmed_32": 136, "stemmed_32_shallow": 136, "resurfacing_50_round": 69, "stemmed_36": 141.06, "stemmed_28": 129.25} {
		d := fitted(t, key).Designs[0]
		theta, round := aperture.Build(d.Rim, d.Neck).Theta()
		if got := 2 * theta.Degrees(); !round || math.Abs(got-want) > 0.5 {
			t.Errorf("%s: edge to edge %.2f°, want %g", key, got, want)
		}
	}
}

func TestTheResurfacingsNeckLies4AndAHalfMillimetresBehindTheHeadsFront(t *testing.T) {
	for _, key := range []string{"resurfacing_46", "resurfacing_50", "resurfacing_54"} {
		c := fitted(t, key)
		d := c.Designs[0]
		if got := d.Rim.HeadDiameter/2 - d.Neck.Section(90*deg(1)); math.Abs(got-4.5) > 1e-9 {
			t.Errorf("%s: anterior offset %.3f mm, want 4.5", key, got)
		}
		if ratio := d.HeadNeckRatio(); ratio < 1.1 || ratio > 1.3 {
			t.Errorf("%s: head over neck %.2f, want 1.1 to 1.3 (from memory)", key, ratio)
		}
		if w := Warnings(&c); len(w) > 0 {
			t.Errorf("%s: %+v", key, w)
		}
	}
}

func TestALippedLinerStopsNoMotionLaterThanThePlainOne(t *testing.T) {
	plain, lipped := fitted(t, "stemmed_32").Designs[0], fitted(t, "lipped_20").Designs[0]
	a, b := NewJoint(Hip{}, plain), NewJoint(Hip{}, lipped)
	shorter := 0
	for _, q := range Questions {
		p := q.Path(Hip{})
		x, y := a.Limit(p), b.Limit(p)
		if y.At.Leg > x.At.Leg || y.At.Leg == x.At.Leg && y.At.Fraction > x.At.Fraction+1e-9 {
			t.Errorf("%s: the lip gains", q.Key)
		}
		if y.At != x.At {
			shorter++
		}
	}
	if shorter == 0 {
		t.Error("a lip of 20° costs nothing anywhere")
	}
}

func TestABearingLeavesPlacementAndOtherDesignsAlone(t *testing.T) {
	c := Default()
	c.Count = 2
	c.Designs[1].Name = "second"
	c.Designs[1].Cup = Cup{Definition: hip.ByOperation, Inclination: deg(44), Anteversion: deg(21)}
	c.Designs[1].Stem.Anteversion = deg(3)
	c.Designs[1].Rim.Notch.Height = deg(9) // of the bearing, so it goes
	after := catalogue(t)["lipped_10"].Apply(c, 1)
	if after.Designs[0] != c.Designs[0] || after.Hip != c.Hip {
		t.Error("another design or the hip changed")
	}
	was, is := c.Designs[1], after.Designs[1]
	if is.Cup != was.Cup || is.Stem != was.Stem || is.Name != was.Name {
		t.Error("the placement changed")
	}
	if is.Rim.Notch.Present() || !is.Rim.Lips[0].Present() {
		t.Errorf("rim %+v", is.Rim)
	}
	if again := catalogue(t)["lipped_10"].Apply(after, 1); again != after {
		t.Error("a second time changes something")
	}
}

func TestABearingWithASectionHasNoCylinder(t *testing.T) {
	for key, want := range map[string]float64{"oval_neck_32": 0, "trapezoid_neck_32": 0, "tapered_neck_36": 0, "resurfacing_50": 0, "stemmed_32": 12} {
		if got := fitted(t, key).Designs[0].Neck.Diameter; got != want {
			t.Errorf("%s: neck diameter %g, want %g", key, got, want)
		}
	}
}

func TestAUsersFileOfBearingsIsReadOrRefusedByPlaceAndValue(t *testing.T) {
	file := func(values string) string {
		return `{"format": "rimclear-bearings", "version": 1, "bearings": [{"key": "own", "name": "Own", "source": "a drawing", "values": {` + values + `}}]}`
	}
	list, err := ReadCatalogue(strings.NewReader(file(`"head_diameter_mm": 30, "neck_diameter_mm": {"value": 11.5, "basis": "own"}, "mobile_head_mm": 0`)))
	if err != nil || len(list) != 1 || list[0].Basis() != motion.Own || list[0].Name != "Own" {
		t.Fatalf("%+v, %v", list, err)
	}
	if d := list[0].Apply(Default(), 0).Designs[0]; d.Rim.HeadDiameter != 30 || d.Neck.Diameter != 11.5 {
		t.Errorf("design %+v", d)
	}
	for values, want := range map[string]string{
		`"head_diameter_mm": 300`:                                          "bearings[0].values.head_diameter_mm: 300: must be from 18 to 70",
		`"head_mm": 30`:                                                    "values.head_mm: no such field; there are bearing, head_diameter_mm",
		`"cup_inclination_deg": 40`:                                        "values.cup_inclination_deg: no such field",
		`"bearing": "ball"`:                                                `"ball": must be one of fixed_liner, resurfacing, dual_mobility`,
		`"bearing": 1`:                                                     "must be text",
		`"head_diameter_mm": {"value": 30}`:                                "basis: is missing",
		`"head_diameter_mm": {"basis": "own"}`:                             "value: is missing",
		`"head_diameter_mm": {"value": null, "basis": "own"}`:              "must be a number",
		`"head_diameter_mm": 28, "neck_diameter_mm": 30`:                   "values.neck_diameter_mm: 30: the neck must be narrower than 28",
		`"bearing": "dual_mobility"`:                                       "mobile_head_mm: 0: is needed",
		`"oval_width_mm": 14`:                                              "oval_depth_mm: 0: is needed",
		`"lip_height_deg": 10, "lip_plateau_deg": 300, "lip_ramp_deg": 60`: "lip_plateau_deg: 300: must be at most 240",
		`"neck_diameter_mm": 0`:                                            "neck_diameter_mm: 0: the neck needs a diameter",
		`"head_diameter_mm": 30, "head_diameter_mm": 30`:                   "stands twice",
		`"taper_start_diameter_mm": 12, "taper_end_mm": 10, "taper_end_diameter_mm": 13, "taper_start_mm": 20`: "the taper must end after 20",
	} {
		if _, err := ReadCatalogue(strings.NewReader(file(values))); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("values %s: %v, want an error with %q", values, err, want)
		}
	}
}

func FuzzReadCatalogue(f *testing.F) {
	f.Add([]byte(`{"format": "rimclear-bearings", "version": 1, "bearings": [{"key": "a", "source": "s", "values": {"bearing": "dual_mobility",
		"head_diameter_mm": {"value": 46, "basis": "memory"}, "mobile_head_mm": 28, "mobile_arc_deg": 220, "lip_height_deg": 5}}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		list, err := ReadCatalogue(bytes.NewReader(data))
		if err != nil {
			return
		}
		for _, b := range list {
			c := b.Apply(Default(), 0)
			if faults := Validate(&c); len(faults) > 0 {
				t.Errorf("%s is read and is not valid: %+v", b.Key, faults)
			}
		}
	})
}
