package present

import (
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func answersOf(c *kinematics.Case) []kinematics.Answer {
	return kinematics.NewJoint(c.Hip, c.Designs[0]).Answers(c.Hip)
}

func rowOf(t *testing.T, c *kinematics.Case, key string) (Row, kinematics.Answer) {
	t.Helper()
	for _, a := range answersOf(c) {
		if a.Question.Key == key {
			return English().Row(c, a), a
		}
	}
	t.Fatalf("no question %q", key)
	return Row{}, kinematics.Answer{}
}

func resurfacing() kinematics.Case {
	c := kinematics.Default()
	d := &c.Designs[0]
	d.Rim.HeadDiameter, d.Rim.Arc, d.Rim.Wall, d.Neck.Diameter = 50, 168*unit.Degree, 3, 44
	return c
}

func TestALimitBeyondTheNativeRangeIsNoPromise(t *testing.T) {
	c := kinematics.Default()
	r, a := rowOf(t, &c, "flexion")
	if !a.BeyondNative() {
		t.Fatalf("flexion stops at %.1f°, want beyond native", a.Reading.Degrees())
	}
	if !r.Grey || r.Reading != "beyond 121°" || !strings.Contains(r.Note, "from memory") {
		t.Errorf("row = %+v, want it grey, beyond 121°, with its source", r)
	}
	if s := English().Limit(&c, a); strings.Contains(s, Digits(a.Reading.Degrees(), 1)) {
		t.Errorf("%q states the computed angle", s)
	}
}

func TestAMovementThatAnEarlierLegStopsNamesThatLeg(t *testing.T) {
	c := resurfacing()
	_, flexion := rowOf(t, &c, "flexion")
	r, a := rowOf(t, &c, "internal_at_110")
	if a.Reached {
		t.Fatal("110° of flexion was reached")
	}
	want := "not reached: flexion stops at " + Digits(flexion.Reading.Degrees(), 1) + "°"
	if r.Note != want || r.Reading != "-" {
		t.Errorf("row = %+v, want note %q", r, want)
	}
}

func TestGivenAbductionIsNotCalledAdduction(t *testing.T) {
	c := kinematics.Default()
	c.Hip.GivenAdduction = -7.5 * unit.Degree
	if r, _ := rowOf(t, &c, "flexion_given_adduction"); r.Question != "Flexion at 7.5° abduction" {
		t.Errorf("question = %q", r.Question)
	}
}

func TestTheHeadlineNamesTheTightestMovement(t *testing.T) {
	c := resurfacing()
	s := English().Headline(&c, answersOf(&c))
	least, name := unit.Angle(1), ""
	for _, a := range answersOf(&c) {
		if a.Reached && a.Question.Native.Known() && reserve(a) < least {
			least, name = reserve(a), English().Question(&c, a.Question)
		}
	}
	if least >= 0 || !strings.HasPrefix(s, name) || !strings.Contains(s, "o'clock") || !strings.Contains(s, "lever") {
		t.Errorf("headline %q, want it to start with %q (%.1f°)", s, name, least.Degrees())
	}
}

func TestTheHeadIsLeveredAwayFromTheContact(t *testing.T) {
	c := kinematics.Default()
	_, a := rowOf(t, &c, "internal_at_90")
	touch := a.Limit.Contact
	if r3.Dot(touch.Escape, touch.RimPoint) >= 0 {
		t.Errorf("escape %v points to the contact at %v", touch.Escape, touch.RimPoint)
	}
	if keys := DirectionKeys(touch.Escape); len(keys) == 0 || keys[0] != "posterior" {
		t.Errorf("internal rotation in flexion levers the head %v, want posterior", keys)
	}
	_, a = rowOf(t, &c, "external_at_extension_10")
	if keys := DirectionKeys(a.Limit.Contact.Escape); len(keys) == 0 || keys[0] != "anterior" {
		t.Errorf("external rotation in extension levers the head %v, want anterior", keys)
	}
}

func TestDirectionsOfTheBody(t *testing.T) {
	for _, tt := range []struct {
		v    r3.Vec
		want string
	}{
		{r3.Vec{X: 1}, "forwards"},
		{r3.Vec{X: -1, Y: 0.2}, "backwards"},
		{r3.Vec{X: -1, Y: 0.9}, "backwards and upwards"},
		{r3.Vec{Y: -0.5, Z: 1}, "outwards and downwards"},
		{r3.Vec{Z: -2}, "inwards"},
		{r3.Vec{}, ""},
	} {
		if got := English().Direction(tt.v); got != tt.want {
			t.Errorf("Direction(%v) = %q, want %q", tt.v, got, tt.want)
		}
	}
}

func TestHoursRunFromOneToTwelve(t *testing.T) {
	for degrees, want := range map[float64]int{0: 12, 14: 12, 16: 1, 90: 3, -90: 9, 180: 6, -14: 12, -16: 11, 345.5: 12} {
		if got := Hour(unit.Angle(degrees) * unit.Degree); got != want {
			t.Errorf("Hour(%v°) = %d, want %d", degrees, got, want)
		}
	}
}

func TestPosturesAreSaid(t *testing.T) {
	c := kinematics.Default()
	j := kinematics.NewJoint(c.Hip, c.Designs[0])
	if s := English().Posture(j.Contact(hip.Neutral)); !strings.Contains(s, "clear of the rim") {
		t.Errorf("neutral: %q", s)
	}
	deep := j.Contact(hip.Posture{Flexion: 90 * unit.Degree, InternalRotation: 120 * unit.Degree})
	if s := English().Posture(deep); !deep.InContact() || !strings.Contains(s, "into the rim") {
		t.Errorf("deep: %q", s)
	}
	_, a := rowOf(t, &c, "internal_at_90")
	if s := English().Posture(a.Limit.Contact); !strings.Contains(s, "just touches") {
		t.Errorf("at the limit: %q", s)
	}
}

func TestFaultsNameValueAndRange(t *testing.T) {
	c := kinematics.Default()
	c.Designs[0].Neck.Diameter = 40
	c.Designs[0].Cup.Anteversion = 100 * unit.Degree
	var all []string
	for _, f := range kinematics.Validate(&c) {
		all = append(all, English().FaultText(f))
	}
	got := strings.Join(all, "\n")
	for _, want := range []string{"Anteversion 100°: it must be from -90° to 90°.", "Neck diameter 40 mm: the neck must be narrower than the head, which is 32 mm."} {
		if !strings.Contains(got, want) {
			t.Errorf("faults:\n%s\nwant %q", got, want)
		}
	}
}

func TestEveryFaultIsSaidInWords(t *testing.T) {
	for r := kinematics.OutOfRange; r <= kinematics.SocketFree; r++ {
		f := kinematics.Fault{Key: "rim_radius_mm", Value: 9, Min: 1, Max: 2, Reason: r}
		if r == kinematics.TooManyDesigns {
			f.Key = "designs"
		}
		if s := English().FaultText(f); strings.ContainsAny(s, "{}[]") || len(s) < 20 {
			t.Errorf("reason %d: %q", r, s)
		}
	}
}

func TestDigitsHaveNoNegativeZero(t *testing.T) {
	if got := Digits(-0.04, 1); got != "0.0" {
		t.Errorf("Digits(-0.04) = %q", got)
	}
	if got := Shortest(-1e-9, 5); got != "0" {
		t.Errorf("Shortest(-1e-9) = %q", got)
	}
	if got := Shortest(40.10, 5); got != "40.1" {
		t.Errorf("Shortest(40.1) = %q", got)
	}
}
