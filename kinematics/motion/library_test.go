package motion

import (
	"bytes"
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// builtIn reads the built-in library.
func builtIn(t testing.TB) Library {
	t.Helper()
	var all Library
	for i, data := range assets.Activities() {
		l, err := Read(bytes.NewReader(data))
		if err != nil {
			t.Fatalf("file %d: %v", i+1, err)
		}
		if all, err = all.With(l); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

func TestEveryBuiltInActivityStatesItsSourceAndHasWaysToGo(t *testing.T) {
	l := builtIn(t)
	if len(l.Activities) < 40 || len(l.Criteria) < 6 {
		t.Fatalf("%d activities and %d sets are built in", len(l.Activities), len(l.Criteria))
	}
	seen := [CategoryCount]int{}
	for _, a := range l.Activities {
		seen[a.Category]++
		if a.Source == "" || a.Name != "" {
			t.Errorf("%s: source %q, name %q", a.Key, a.Source, a.Name)
		}
		if a.Basis() == Own {
			t.Errorf("%s rests on nothing", a.Key)
		}
		for _, p := range a.Paths(Setting{}) {
			if p.Legs() < 1 {
				t.Errorf("%s has a path without a leg", a.Key)
			}
		}
	}
	for c, n := range seen {
		if n == 0 {
			t.Errorf("no activity is %s", Category(c).Key())
		}
	}
	for _, s := range l.Criteria {
		if s.Source == "" || s.Basis() == Own {
			t.Errorf("%s: source %q, basis %s", s.Key, s.Source, s.Basis().Key())
		}
	}
}

func TestSeparateMaximaAreTestedAtEveryCornerOfTheirBox(t *testing.T) {
	stoop, _ := builtIn(t).Activity("stoop")
	paths := stoop.Paths(Setting{})
	want := map[hip.Posture]bool{}
	for _, f := range []float64{0, 117} {
		for _, a := range []float64{0, -21} {
			for _, r := range []float64{0, -18} {
				want[posture(f, a, r)] = true
			}
		}
	}
	delete(want, hip.Neutral)
	if len(paths) != len(want) {
		t.Errorf("%d corners, want %d", len(paths), len(want))
	}
	for _, p := range paths {
		if len(p.Waypoints) != 2 || p.Waypoints[0] != hip.Neutral || !want[p.Waypoints[1]] {
			t.Errorf("path %v is not straight from neutral to a corner", p.Waypoints)
		}
	}
}

func TestABoxOfBothSignsHasItsZeroInsideAndEightCorners(t *testing.T) {
	shoe, _ := builtIn(t).Activity("shoe_on_floor")
	if n := len(shoe.Paths(Setting{})); n != 8 {
		t.Errorf("%d corners, want 8", n)
	}
	least, most := shoe.Range()
	if least[hip.Adduction].Degrees() > -18.9 || most[hip.Adduction].Degrees() < 16.9 {
		t.Errorf("adduction from %v to %v", least[hip.Adduction].Degrees(), most[hip.Adduction].Degrees())
	}
	if shoe.Basis() != Assumed {
		t.Errorf("basis %s: one of its values is assumed", shoe.Basis().Key())
	}
}

func TestAFileOfTheUsersAddsActivitiesButCannotReplaceBuiltInOnes(t *testing.T) {
	l := builtIn(t)
	file := `{"format": "rimclear-motions", "version": 1, "activities": [{"key": "KEY", "name": "Gardening",
		"category": "everyday", "simultaneous": "composite", "risk": "posterior", "source": "own estimate",
		"through": [{"flexion_deg": 95, "adduction_deg": 5, "internal_rotation_deg": 0}]}]}`
	own, err := Read(strings.NewReader(strings.Replace(file, "KEY", "gardening", 1)))
	if err != nil {
		t.Fatal(err)
	}
	both, err := l.With(own)
	if err != nil {
		t.Fatal(err)
	}
	a, found := both.Activity("gardening")
	if !found || a.Name != "Gardening" || a.Basis() != Own || a.Zero.Basis != Assumed {
		t.Errorf("activity %+v", a)
	}
	if len(both.Activities) != len(l.Activities)+1 {
		t.Errorf("%d activities after adding one to %d", len(both.Activities), len(l.Activities))
	}
	taken, err := Read(strings.NewReader(strings.Replace(file, "KEY", "stoop", 1)))
	if err != nil {
		t.Fatal(err)
	}
	if _, err := l.With(taken); err == nil || !strings.Contains(err.Error(), "stoop") {
		t.Errorf("With = %v, want the taken key named", err)
	}
}

func TestEveryWrongValueOfALibraryIsNamedWithWhatIsAllowed(t *testing.T) {
	activity := func(fields string) string {
		return `{"format": "rimclear-motions", "version": 1, "activities": [{"key": "a", "source": "s", ` + fields + `}]}`
	}
	good := `"category": "everyday", "simultaneous": "yes", "risk": "none", `
	way := `"through": [{"flexion_deg": 10, "adduction_deg": 0, "internal_rotation_deg": 0}]`
	for _, c := range []struct{ file, want string }{
		{`{"format": "other", "version": 1}`, `format: "rimclear-motions" must stand here`},
		{`{"format": "rimclear-motions", "version": 2}`, "version: 2: must be 1"},
		{activity(good + `"through": []`), "through: 0: must hold 1 to 200"},
		{activity(strings.Replace(good, "everyday", "daily", 1) + way), `category: "daily": must be one of everyday, sport`},
		{activity(good + strings.Replace(way, "10", "190", 1)), "activities[0].through[0].flexion_deg: 190: must be from -180 to 180"},
		{activity(good + strings.Replace(way, `"adduction_deg": 0`, `"adduction_deg": 95`, 1)), "adduction_deg: 95: must be from -89 to 89"},
		{activity(good + strings.Replace(way, `, "internal_rotation_deg": 0`, ``, 1)), "internal_rotation_deg: is missing"},
		{activity(good + strings.Replace(way, "10", `{"value": 10, "basis": "rumour"}`, 1)), "basis: \"rumour\": must be one of own, found"},
		{activity(good + strings.Replace(way, "flexion_deg", "flexion", 1)), "no such field; there are flexion_deg"},
		{activity(good + way + `, "maxima": {}`), `belongs to "simultaneous": "no"`},
		{activity(`"category": "everyday", "simultaneous": "no", "risk": "none"`), "maxima: is missing"},
		{activity(`"category": "everyday", "simultaneous": "no", "risk": "none", "maxima": {}`), "at least one of the three joint angles"},
		{activity(`"category": "everyday", "simultaneous": "no", "risk": "none", "maxima": {"flexion_deg": [30, 10]}`), "the first must not be above the second"},
		{activity(good + way + `, "zero": {"from": "room"}`), "zero.plane: is missing"},
		{activity(good + way + `, "zero": {"from": "pelvis", "plane": "standing"}`), `belongs to motions whose zero is "posture" or "room"`},
		{activity(good + way + `, "zero": {"from": "moon"}`), "must be one of pelvis, posture, room, recording"},
		{activity(`"through": [], ` + good + `"routes": []`), `must be left out beside "routes"`},
		{`{"format": "rimclear-motions", "version": 1, "criteria": [{"key": "c", "source": "s", "least": {"flexion": 0}}]}`, "least.flexion: 0: must be from 1 to 180"},
		{`{"format": "rimclear-motions", "version": 1, "criteria": [{"key": "c", "source": "s", "least": {"adduction": 90}}]}`, "least.adduction: 90: must be from 1 to 89"},
		{`{"format": "rimclear-motions", "version": 1, "criteria": [{"key": "c", "source": "s", "least": {}}]}`, "at least one threshold"},
		{`{"format": "rimclear-motions", "version": 1, "criteria": [{"key": "Bad key", "source": "s", "least": {"flexion": 90}}]}`, "criteria[0].key"},
	} {
		if _, err := Read(strings.NewReader(c.file)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("Read(%s)\n = %v\n want an error with %q", c.file, err, c.want)
		}
	}
}

func FuzzRead(f *testing.F) {
	files := assets.Activities()
	f.Add(files[len(files)-2]) // the shortest
	f.Add([]byte(`{"format": "rimclear-motions", "version": 1, "activities": [{"key": "a", "category": "sport",
		"simultaneous": "no", "risk": "anterior", "source": "s", "maxima": {"flexion_deg": [-3, {"value": 20, "basis": "data"}]}}],
		"criteria": [{"key": "b", "source": "t", "least": {"flexion": 90}}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := Read(bytes.NewReader(data))
		if err != nil {
			return
		}
		for _, a := range l.Activities {
			for _, p := range a.Paths(Setting{Tilts: hip.Tilts{Standing: 0.1}, Mechanical: UsualMechanical}) {
				for _, q := range p.Waypoints {
					if !q.Flexion.Finite() || q.Adduction.Abs() > 89.1*unit.Degree || q.InternalRotation.Abs() > 180.1*unit.Degree {
						t.Errorf("%s goes through %v", a.Key, q)
					}
				}
			}
			a.Basis()
			a.Range()
		}
		for _, s := range l.Criteria {
			if len(s.Requirements()) == 0 {
				t.Errorf("%s asks for nothing", s.Key)
			}
		}
	})
}
