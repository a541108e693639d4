package main

import (
	"slices"
	"strings"
	"testing"
)

func TestEveryRoomImportsOnlyWhatItsRuleAllows(t *testing.T) {
	h, err := survey("../..")
	if err != nil {
		t.Fatal(err)
	}
	if h["cmd/dev"] == nil || !h["cmd/dev"].imports["go/ast"] {
		t.Fatalf("the survey missed this very package: %d rooms seen", len(h))
	}
	for _, b := range breaches(h, rules) {
		t.Error(b)
	}
}

// plant is a house of one room with one import.
func plant(path, imported string, test bool) house {
	h := house{}
	r := h.room(path)
	if test {
		r.testImports[imported] = true
	} else {
		r.imports[imported] = true
	}
	return h
}

func TestPlantedBreachIsFound(t *testing.T) {
	for _, c := range []struct{ room, imported string }{
		{"kinematics/hip", "rimclear/app/present"},
		{"kinematics/hip", "rimclear/kinematics/aperture"},
		{"kinematics/unit", vectors},
		{"kinematics/implant", "rimclear/kinematics/sphere"},
		{"kinematics", "rimclear/assets"},
		{"kinematics", "rimclear/app/store"},
		{"kinematics/motion", "rimclear/kinematics/implant"},
		{"assets", "rimclear/kinematics"},
		{"app/store", "rimclear/assets"},
		{"app/figure", "rimclear/kinematics/unit"},
		{"app/figure", "fyne.io/fyne/v2/canvas"},
		{"app/figure", vectors},
		{"app/present", "gonum.org/v1/gonum/optimize"},
		{"app/present", "rimclear/app/figure"},
		{"app/report", "rimclear/app/view"},
		{"app/session", "fyne.io/fyne/v2"},
		{"app/view", "fyne.io/fyne/v2/app"},
		{"app", "fyne.io/fyne/v2/app"},
		{"cmd/rimcalc", "rimclear/app/control"},
		{"cmd/rimcalc", "fyne.io/fyne/v2"},
		{"cmd/dev", "github.com/urfave/cli/v3"},
		{"app/control", "C"},
		{"app/unheard", "fmt"},
	} {
		if got := breaches(plant(c.room, c.imported, false), rules); len(got) != 1 || got[0].room != c.room {
			t.Errorf("breaches(%s imports %s) = %v, want that one", c.room, c.imported, got)
		}
	}
}

func TestLawfulImportsAreNoBreach(t *testing.T) {
	for _, c := range []struct{ room, imported string }{
		{"kinematics/hip", vectors},
		{"kinematics/aperture", "rimclear/kinematics/unit"}, // through implant
		{"kinematics", "rimclear/kinematics/hip"},           // through motion
		{"app/session", "rimclear/kinematics/unit"},         // through casefile and kinematics
		{"app/report", "rimclear/app/figure"},
		{"app/view", "fyne.io/fyne/v2/widget"},
		{"app/view", vectors}, // kinematics speaks in them
		{"cmd/rimclear", "fyne.io/fyne/v2/app"},
		{"cmd/rimcalc", "rimclear/assets"},
		{"cmd/rimcalc", cli},
		{"assets/words", "embed"},
	} {
		if got := breaches(plant(c.room, c.imported, false), rules); len(got) != 0 {
			t.Errorf("breaches(%s imports %s) = %v, want none", c.room, c.imported, got)
		}
	}
}

func TestTestsMayUseTestToolsButNotFyneInAPureRoom(t *testing.T) {
	for _, c := range []struct {
		room, imported string
		want           int
	}{
		{"kinematics/hip", "pgregory.net/rapid", 0},
		{"kinematics/hip", "rimclear/assets", 0},
		{"app/present", "fyne.io/fyne/v2/test", 1},
		{"app/present", "rimclear/app/control", 1},
		{"app/control", "fyne.io/fyne/v2/test", 0},
		{"app/view", "fyne.io/fyne/v2/app", 1},
	} {
		if got := breaches(plant(c.room, c.imported, true), rules); len(got) != c.want {
			t.Errorf("breaches(test of %s imports %s) = %v, want %d", c.room, c.imported, got, c.want)
		}
	}
}

func TestEveryRuleNamesRoomsAboveItself(t *testing.T) {
	for i, r := range rules {
		for _, named := range r.rooms {
			if !slices.ContainsFunc(rules[:i], func(above rule) bool { return above.covers(named) }) {
				t.Errorf("the rule of %s names %s, which stands below it or nowhere", r.room, named)
			}
		}
		if path := strings.TrimSuffix(r.room, "/..."); !r.covers(path) {
			t.Errorf("the rule of %s does not cover %s", r.room, path)
		}
	}
}

func TestFyneIsFoundThroughARoomBetween(t *testing.T) {
	h := plant("app/view", "rimclear/app/control", false)
	h.room("app/control").imports["fyne.io/fyne/v2/widget"] = true
	h.room("app/control").testImports["rimclear/app/present"] = true
	h.room("app/present").testImports["fyne.io/fyne/v2/test"] = true
	h.room("app/chart").imports["rimclear/app/present"] = true
	for path, want := range map[string]bool{"app/view": true, "app/control": true, "app/present": true, "app/chart": false} {
		if got := h.needsFyne(path); got != want {
			t.Errorf("needsFyne(%s) = %v, want %v", path, got, want)
		}
	}
}
