package casefile

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"rimclear/app/store"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// featured is a sound case in which the parameter with that key, and all that
// belong to the same part, differ from their defaults.
func featured(t testing.TB, key string) kinematics.Case {
	t.Helper()
	c := kinematics.Default()
	c.Designs[0].Rim.HeadDiameter, c.Designs[0].Rim.Wall = 60, 9
	part, _, _ := strings.Cut(key, "_")
	if part == "socket" {
		c.Designs[0].Rim.HeadDiameter = 32
	}
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if of, _, _ := strings.Cut(p.Key, "_"); of != part || p.Derived {
			continue
		}
		v := p.Default + p.Step*float64(1+k%3)
		switch {
		case p.Key == "rim_radius_mm":
			v = 36 // outside the head
		case p.Optional:
			v = p.Min + (p.Max-p.Min)/4
		case p.Kind == kinematics.Choice:
			v = 1
		case v > p.Max:
			v = p.Default - p.Step
		case strings.HasSuffix(p.Key, "_end_mm"):
			v = p.Max / 2
		}
		c = p.Set(c, 0, v)
	}
	if faults := kinematics.Validate(&c); len(faults) > 0 {
		t.Fatalf("%s: %v", key, faults)
	}
	return c
}

// varied is a case of three unlike designs.
func varied(t testing.TB) File {
	c := kinematics.Default()
	c.Label, c.Count = "a \"label\" <with> ünïcode", 3
	for i, key := range []string{"trapezoid_width_mm", "taper_end_mm", "lip_height_deg"} {
		c.Designs[i] = featured(t, key).Designs[0]
		c.Designs[i].Name = fmt.Sprint("design ", i)
	}
	c.Hip.Side, c.Hip.Tilts.Standing = hip.Left, -3.25*unit.Degree
	return File{Case: c}
}

func TestEveryParameterComesBack(t *testing.T) {
	for k := range kinematics.Parameters {
		p := &kinematics.Parameters[k]
		if p.Derived {
			continue
		}
		want := featured(t, p.Key)
		if v := p.Get(&want, 0); v == p.Default {
			t.Errorf("%s was left at its default, %v", p.Key, v)
		}
		data, err := Encode(File{Case: want})
		if err != nil {
			t.Errorf("%s: %v", p.Key, err)
			continue
		}
		got, err := Decode(data)
		if err != nil {
			t.Errorf("%s: %v", p.Key, err)
			continue
		}
		sameValues(t, &got.Case, &want)
	}
}

func TestDerivedValuesMustBeLeftOut(t *testing.T) {
	_, err := Decode([]byte(`{"format":"rimclear-case","version":1,"designs":[{"lip_height_mm":3}]}`))
	if err == nil || !strings.Contains(err.Error(), "designs[0].lip_height_mm: 3: must be left out") {
		t.Errorf("error %v", err)
	}
}

func sameValues(t *testing.T, got, want *kinematics.Case) {
	t.Helper()
	if got.Label != want.Label || got.Count != want.Count {
		t.Errorf("label %q, %d designs, want %q, %d", got.Label, got.Count, want.Label, want.Count)
	}
	for i := range want.Count {
		if got.Designs[i].Name != want.Designs[i].Name {
			t.Errorf("name %q, want %q", got.Designs[i].Name, want.Designs[i].Name)
		}
		for k := range kinematics.Parameters {
			p := &kinematics.Parameters[k]
			if g, w := p.Get(got, i), p.Get(want, i); g != w && !p.Derived {
				t.Errorf("designs[%d].%s = %v, want %v", i, p.Key, g, w)
			}
		}
	}
}

func TestACaseComesBackAsItWasSaved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a"+Extension)
	want := varied(t)
	if err := Save(path, want); err != nil {
		t.Fatal(err)
	}
	got, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	sameValues(t, &got.Case, &want.Case)
	again, err := Encode(got)
	first, _ := os.ReadFile(path)
	if err != nil || string(again) != string(first) {
		t.Errorf("saved again it differs: %v\n%s\n%s", err, again, first)
	}
}

func TestWhatIsLeftOutHasItsDefault(t *testing.T) {
	f, err := Decode([]byte(`{"format":"rimclear-case","version":1,"designs":[{}]}`))
	if err != nil {
		t.Fatal(err)
	}
	want := kinematics.Default()
	sameValues(t, &f.Case, &want)
}

func TestCupAnglesAreThoseOfTheStatedDefinition(t *testing.T) {
	f, err := Decode([]byte(`{"format":"rimclear-case","version":1,
		"designs":[{"cup_anteversion_deg":20,"cup_inclination_deg":45,"cup_definition":"operative"}]}`))
	want := kinematics.Cup{Definition: hip.ByOperation, Inclination: 45 * unit.Degree, Anteversion: 20 * unit.Degree}
	if got := f.Case.Designs[0].Cup; err != nil || got != want {
		t.Errorf("cup = %+v, %v, want %+v", got, err, want)
	}
}

func TestUnknownFieldsAreKeptAndNamed(t *testing.T) {
	f, err := Decode([]byte("\xef\xbb\xbf" + `{"format":"rimclear-case","version":1,"later":{"a":[1,2,{}]},
		"designs":[{"name":"A"},{"name":"B","colour":"#123","head_diameter_mm":36}]}`))
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(f.Unknown(), " "); got != "later designs[1].colour" {
		t.Errorf("Unknown() = %q", got)
	}
	data, err := Encode(f)
	if err != nil {
		t.Fatal(err)
	}
	g, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if got := strings.Join(g.Unknown(), " "); got != "later designs[1].colour" {
		t.Errorf("after saving: Unknown() = %q", got)
	}
	if got := string(g.DesignOthers[1][0].Value); got != `"#123"` {
		t.Errorf("after saving: colour = %s", got)
	}
}

func TestFaultsNameLineFieldValueAndWhatIsAllowed(t *testing.T) {
	head := "{\n\"format\": \"rimclear-case\",\n\"version\": 1,\n"
	for _, tt := range []struct{ name, file, want string }{
		{"range", head + "\"designs\": [{}, {\n\"head_diameter_mm\": 500}]}",
			"line 5: designs[1].head_diameter_mm: 500: must be a number from 18 to 70 mm"},
		{"type", head + "\"designs\": [{\"cup_arc_deg\": \"wide\"}]}",
			`line 4: designs[0].cup_arc_deg: "wide": must be a number from 130 to 220 degrees`},
		{"choice", head + "\"side\": \"up\", \"designs\": [{}]}", `line 4: side: "up": must be one of right, left`},
		{"relation", head + "\"designs\": [{\n\n\"neck_diameter_mm\": 40}]}",
			"line 6: designs[0].neck_diameter_mm: 40: must be below the diameter of the head, 32 mm"},
		{"twice", head + "\"side\": \"left\",\n\"side\": \"right\", \"designs\": [{}]}", "line 5: side: stands twice"},
		{"none", head + "\"designs\": []}", "line 4: designs: 0 designs: must be a list of 1 to 4 designs"},
		{"five", head + "\"designs\": [{},{},{},{},{}]}", "line 4: designs: 5 designs: must be"},
		{"absent", head + "\"label\": \"x\"}", "line 1: designs: must be a list"},
		{"design", head + "\"designs\": [3]}", "line 4: designs[0]: 3: must be an object"},
		{"huge", head + "\"designs\": [{\"wall_mm\": 1e999}]}", "designs[0].wall_mm: 1e999: must be a number"},
		{"label", head + "\"label\": \"a\\u001b[2J\", \"designs\": [{}]}", "line 4: label: "},
		{"long", head + "\"label\": \"" + strings.Repeat("é", 201) + "\", \"designs\": [{}]}", "at most 200 characters"},
		{"format", "{\n\"format\": \"else\"}", `line 2: format: "else": "rimclear-case" must stand here`},
		{"no format", `{"version":1}`, `line 1: format: "rimclear-case" must stand here`},
		{"version", `{"format":"rimclear-case","version":0.5}`, "line 1: version: 0.5: must be a whole number from 1 to 2"},
		{"syntax", "{\n\"format\":\n}", "line 3: must be JSON: "},
		{"cut", "{\n\"format\": \"rim", "line 2: must be JSON: "},
		{"empty", "", "must be JSON"},
		{"list", "[]", "line 1: must be an object"},
		{"bytes", "{\n\"format\xff\": 1}", "line 2: must be text in UTF-8"},
	} {
		f, err := Decode([]byte(tt.file))
		if err == nil || !strings.Contains(err.Error(), tt.want) || f.Case.Count != 0 {
			t.Errorf("%s: error %v, want %q and no case", tt.name, err, tt.want)
		}
	}
}

func TestEverythingThatIsWrongIsSaid(t *testing.T) {
	_, err := Decode([]byte(`{"format":"rimclear-case","version":1,"side":1,"designs":[{"wall_mm":-1,"inset_mm":null}]}`))
	var list Problems
	if !errors.As(err, &list) || len(list) != 3 {
		t.Errorf("error %v, want 3 problems", err)
	}
}

func TestANewerVersionIsRefused(t *testing.T) {
	_, err := Decode([]byte(`{"format":"rimclear-case","version":3,"designs":"else"}`))
	if !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), "later version") || strings.Contains(err.Error(), "designs") {
		t.Errorf("error %v, want only that it is newer", err)
	}
}

func TestTooLargeAFileIsNotRead(t *testing.T) {
	if _, err := Read(strings.NewReader(strings.Repeat(" ", MaxBytes+1))); !errors.Is(err, store.ErrTooLarge) {
		t.Errorf("Read = %v, want ErrTooLarge", err)
	}
}

func TestACaseThatCannotBeIsNotSaved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a"+Extension)
	if err := Save(path, varied(t)); err != nil {
		t.Fatal(err)
	}
	old, _ := os.ReadFile(path)
	bad := varied(t)
	bad.Case.Designs[0].Neck.Taper.StartDiameter = 99
	if err := Save(path, bad); err == nil || !strings.Contains(err.Error(), "taper_start_diameter_mm") {
		t.Errorf("Save = %v, want the field named", err)
	}
	if now, _ := os.ReadFile(path); string(now) != string(old) {
		t.Error("the old file was changed")
	}
}

func TestSamplesAreWholeCases(t *testing.T) {
	samples := assets.Cases()
	if len(samples) == 0 {
		t.Fatal("no samples")
	}
	for _, s := range samples {
		f, err := Decode(s.Data)
		if err != nil {
			t.Errorf("%s: %v", s.Name, err)
			continue
		}
		if _, err := Encode(f); err != nil {
			t.Errorf("%s: it cannot be saved again: %v", s.Name, err)
		}
		if !strings.Contains(f.Case.Label, "common practice, no source") || len(f.Unknown()) > 0 {
			t.Errorf("%s: label %q and unknown fields %v", s.Name, f.Case.Label, f.Unknown())
		}
	}
}

func FuzzCaseFile(f *testing.F) {
	for _, s := range assets.Cases() {
		f.Add(s.Data)
	}
	whole := kept(f, walked(4))
	whole.Weighing = Weighing{"a": {Rule: "x\ny", Answer: "z"}}
	for _, file := range []File{varied(f), whole} {
		data, err := Encode(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Add([]byte(`{"format":"rimclear-case","version":1,"x":[{"a":"\ud800"}],"designs":[{"y":{}},{"z":[ ]}]}`))
	f.Fuzz(func(t *testing.T, data []byte) {
		first, err := Decode(data)
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without a word")
			}
			return
		}
		if faults := kinematics.Validate(&first.Case); len(faults) > 0 {
			t.Fatalf("a case with faults was read: %v", faults)
		}
		saved, err := Encode(first)
		if err != nil {
			t.Fatalf("what was read cannot be saved: %v", err)
		}
		second, err := Decode(saved)
		if err != nil {
			t.Fatalf("what was saved cannot be read: %v\n%s", err, saved)
		}
		if again, err := Encode(second); err != nil || string(again) != string(saved) {
			t.Fatalf("saved twice it differs: %v\n%s\n%s", err, saved, again)
		}
	})
}
