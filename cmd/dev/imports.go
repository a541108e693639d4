package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// rule says what a room may import besides the standard library.
type rule struct {
	room    string   // its path; "a/..." covers a and all below it
	rooms   []string // rooms of this module, and so whatever those may import of it
	outside []string // packages of other modules, with all below them
}

const (
	vectors = "gonum.org/v1/gonum/spatial/r3"
	turns   = "gonum.org/v1/gonum/num/quat"
	cli     = "github.com/urfave/cli/v3"
)

// rules is the order of the house: each room sees only rooms further up in
// this list. A room that is not in the list may not be built.
var rules = []rule{
	{room: "kinematics/unit"},
	{room: "kinematics/solve"},
	{room: "kinematics/sphere", rooms: []string{"kinematics/unit"}, outside: []string{vectors}},
	{room: "kinematics/hip", rooms: []string{"kinematics/unit"}, outside: []string{vectors, turns}},
	{room: "kinematics/implant", rooms: []string{"kinematics/unit"}},
	{
		room:    "kinematics/aperture",
		rooms:   []string{"kinematics/implant", "kinematics/sphere", "kinematics/solve"},
		outside: []string{vectors},
	},
	{room: "kinematics/form"},
	{room: "kinematics/motion", rooms: []string{"kinematics/hip", "kinematics/form"}, outside: []string{vectors}},
	{
		room:    "kinematics",
		rooms:   []string{"kinematics/aperture", "kinematics/motion"},
		outside: []string{"gonum.org/v1/gonum"},
	},
	{room: "assets/mesh/gen", outside: []string{vectors}}, // a program run by hand, imported by nobody
	{room: "assets/..."},
	{room: "kinematics/tabletest", rooms: []string{"kinematics/unit", "assets"}}, // imported by tests alone
	{room: "kinematics/seeded", outside: []string{"pgregory.net/rapid"}},         // imported by tests alone
	{room: "app/store"},
	{room: "app/store/killed"}, // imported by tests alone
	{room: "app/casefile", rooms: []string{"app/store", "assets", "kinematics"}},
	{room: "app/session", rooms: []string{"app/casefile"}},
	{room: "app/playback", rooms: []string{"kinematics"}},
	{room: "app/present", rooms: []string{"assets", "kinematics"}},
	{room: "app/figure", outside: []string{"golang.org/x/image", "codeberg.org/go-pdf/fpdf"}},
	{room: "app/scene", rooms: []string{"app/figure", "app/present", "kinematics"}},
	{room: "app/chart", rooms: []string{"app/figure", "app/present", "kinematics"}},
	{room: "app/report", rooms: []string{"app/scene", "app/chart"}},
	{room: "app/evidence", rooms: []string{"app/session", "app/present", "kinematics"}},
	{room: "app/cohort", rooms: []string{"app/session", "app/chart", "kinematics"}},
	{room: "app/e2e"},
	{
		room:    "app/control",
		rooms:   []string{"app/figure", "app/scene", "app/chart", "app/present"},
		outside: []string{fyneModule},
	},
	{
		room:    "app/view",
		rooms:   []string{"app/control", "app/session", "app/playback", "app/report"},
		outside: []string{fyneModule},
	},
	{room: "app", rooms: []string{"app/view"}, outside: []string{fyneModule}},
	{room: "cmd/rimclear/...", rooms: []string{"app"}, outside: []string{fyneModule}},
	{
		room:    "cmd/rimcalc/...",
		rooms:   []string{"app/report", "app/session", "app/playback", "app/evidence", "app/cohort"},
		outside: []string{cli, "github.com/google/jsonschema-go"},
	},
	{room: "cmd/dev"},
}

// testTools are packages any test may use.
var testTools = []string{"pgregory.net/rapid", "github.com/google/go-cmp", "go.uber.org/goleak", "github.com/google/jsonschema-go", vectors, turns}

// breach is an import no rule allows.
type breach struct {
	room, imported, reason string
}

func (b breach) String() string {
	return fmt.Sprintf("%s imports %s: %s", b.room, b.imported, b.reason)
}

// breaches returns every import in the house that the rules forbid, in order.
func breaches(h house, rules []rule) []breach {
	var found []breach
	for _, path := range slices.Sorted(maps.Keys(h)) {
		r := h[path]
		law, ok := ruleOf(path, rules)
		if !ok {
			found = append(found, breach{path, "anything", "the room has no import rule yet (cmd/dev/imports.go)"})
			continue
		}
		for _, imported := range slices.Sorted(maps.Keys(r.imports)) {
			if reason := law.forbids(path, imported, rules); reason != "" {
				found = append(found, breach{path, imported, reason})
			}
		}
		for _, imported := range slices.Sorted(maps.Keys(r.testImports)) {
			if reason := law.forbidsTest(path, imported, rules); reason != "" {
				found = append(found, breach{path + " (test)", imported, reason})
			}
		}
	}
	return found
}

func ruleOf(path string, rules []rule) (rule, bool) {
	for _, r := range rules {
		if r.covers(path) {
			return r, true
		}
	}
	return rule{}, false
}

func (r rule) covers(path string) bool {
	above, open := strings.CutSuffix(r.room, "/...")
	return path == above || open && strings.HasPrefix(path, above+"/")
}

// forbids returns why the room at path may not import the package, or "".
func (r rule) forbids(path, imported string, rules []rule) string {
	switch {
	case within(imported, fyneModule+"/app") && !within(path, "cmd/rimclear"):
		return "only cmd/rimclear makes the Fyne app"
	case within(imported, module):
		if r.allowsRoom(below(imported), rules) {
			return ""
		}
		return "the rule of " + r.room + " does not reach that room"
	case standard(imported) || anyWithin(imported, r.outside):
		return ""
	case anyWithin(imported, []string{vectors, turns}) && r.allowsRoom("kinematics", rules):
		return "" // kinematics speaks in them
	}
	return "the rule of " + r.room + " names no such module"
}

// forbidsTest is forbids for test files, which may use the test tools, and
// any room that does not bring Fyne into a room that is free of it.
func (r rule) forbidsTest(path, imported string, rules []rule) string {
	if anyWithin(imported, testTools) || within(imported, module) && !bringsFyne(below(imported), rules) {
		return ""
	}
	return r.forbids(path, imported, rules)
}

// allowsRoom follows the rules from room to room.
func (r rule) allowsRoom(path string, rules []rule) bool {
	if r.covers(path) {
		return true
	}
	return slices.ContainsFunc(r.rooms, func(named string) bool {
		next, ok := ruleOf(named, rules)
		return ok && next.allowsRoom(path, rules)
	})
}

// bringsFyne reports whether the room's rule lets Fyne in.
func bringsFyne(path string, rules []rule) bool {
	r, ok := ruleOf(path, rules)
	return !ok || slices.Contains(r.outside, fyneModule)
}

func anyWithin(imported string, above []string) bool {
	return slices.ContainsFunc(above, func(a string) bool { return within(imported, a) })
}

// standard reports whether the import path is the standard library's: its
// first element has no dot. "C" is cgo, which no room may use by itself.
func standard(imported string) bool {
	first, _, _ := strings.Cut(imported, "/")
	return imported != "C" && !strings.Contains(first, ".")
}
