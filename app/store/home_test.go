package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

func TestReadStopsAtItsLimit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "f")
	if err := os.WriteFile(path, []byte("12345"), 0o600); err != nil {
		t.Fatal(err)
	}
	if got, err := Read(path, 5); err != nil || string(got) != "12345" {
		t.Errorf("Read(5 bytes, limit 5) = %q, %v", got, err)
	}
	if got, err := Read(path, 4); !errors.Is(err, ErrTooLarge) || got != nil {
		t.Errorf("Read(5 bytes, limit 4) = %q, %v, want ErrTooLarge", got, err)
	}
	if _, err := Read(path+"x", 4); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("Read of an absent file = %v, want fs.ErrNotExist", err)
	}
}

func TestHomeIsWhereTheEnvironmentPutsIt(t *testing.T) {
	want := filepath.Join(t.TempDir(), "carried", "along")
	t.Setenv(HomeVariable, want)
	home, err := UserHome()
	if err != nil || string(home) != want {
		t.Fatalf("UserHome() = %q, %v, want %q", home, err, want)
	}
	if info, err := os.Stat(want); err != nil || !info.IsDir() {
		t.Errorf("UserHome made no folder: %v", err)
	}
}

func TestSettingsComeBackWhole(t *testing.T) {
	home := Home(t.TempDir())
	if got, err := home.LoadSettings(); err != nil || !reflect.DeepEqual(got, Settings{}) {
		t.Errorf("LoadSettings without a file = %+v, %v, want the defaults", got, err)
	}
	var want Settings
	fill(reflect.ValueOf(&want).Elem())
	if err := home.SaveSettings(want); err != nil {
		t.Fatal(err)
	}
	if got, err := home.LoadSettings(); err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("LoadSettings = %+v, %v, want %+v", got, err, want)
	}
}

// fill gives every field but Others a value that is not its zero.
func fill(v reflect.Value) {
	for i := range v.NumField() {
		switch f := v.Field(i); f.Kind() {
		case reflect.String:
			f.SetString(fmt.Sprint("word ", i))
		case reflect.Float64:
			f.SetFloat(float64(i) + 0.5)
		case reflect.Bool:
			f.SetBool(true)
		}
	}
}

func TestSettingsOfANewerVersionAreWrittenBack(t *testing.T) {
	home := Home(t.TempDir())
	if err := os.WriteFile(home.Path(settingsFile), []byte(`{"theme":"dark","later":{"a":[1,2]}}`), 0o600); err != nil {
		t.Fatal(err)
	}
	s, err := home.LoadSettings()
	if err != nil || s.Theme != "dark" {
		t.Fatalf("LoadSettings = %+v, %v", s, err)
	}
	s.Theme = "light"
	if err := home.SaveSettings(s); err != nil {
		t.Fatal(err)
	}
	got, err := home.LoadSettings()
	if err != nil || got.Theme != "light" || !strings.HasPrefix(string(got.Others["later"]), "{") || len(got.Others) != 1 {
		t.Errorf("LoadSettings after saving = %+v, %v, want the light theme and the later field", got, err)
	}
}

func TestDamagedOwnFilesAreNamedAndDefaultsServe(t *testing.T) {
	home := Home(t.TempDir())
	for _, damage := range []string{"", "{", `{"theme":3}`, `[]`, "\x00\x00", strings.Repeat(" ", ownLimit+1)} {
		for _, name := range []string{settingsFile, recentsFile} {
			if err := os.WriteFile(home.Path(name), []byte(damage), 0o600); err != nil {
				t.Fatal(err)
			}
		}
		s, err := home.LoadSettings()
		if !strings.Contains(fmt.Sprint(err), settingsFile) || !reflect.DeepEqual(s, Settings{}) {
			t.Errorf("LoadSettings of %.20q = %+v, %v, want defaults and a fault that names the file", damage, s, err)
		}
		if strings.HasPrefix(damage, `{"theme"`) {
			continue // sound as a list of recent cases
		}
		r, err := home.LoadRecents()
		if !strings.Contains(fmt.Sprint(err), recentsFile) || len(r) != 0 {
			t.Errorf("LoadRecents of %.20q = %v, %v, want none and a fault that names the file", damage, r, err)
		}
	}
}

func TestRecentsAreNewestFirstOnceAndFew(t *testing.T) {
	var r Recents
	for i := range 20 {
		r = r.With(fmt.Sprint(i))
	}
	r = r.With("15")
	if len(r) != recentsKept || r[0] != "15" || r[1] != "19" || r[5] != "14" {
		t.Errorf("Recents = %v, want 15, 19, 18, 17, 16, 14, ... (%d of them)", r, recentsKept)
	}
	if got := r.Without("19"); len(got) != recentsKept-1 || got[1] != "18" || r[1] != "19" {
		t.Errorf("Without(19) = %v and left %v", got, r)
	}
	home := Home(t.TempDir())
	if err := home.SaveRecents(r); err != nil {
		t.Fatal(err)
	}
	if got, err := home.LoadRecents(); err != nil || !reflect.DeepEqual(got, r) {
		t.Errorf("LoadRecents = %v, %v, want %v", got, err, r)
	}
}
