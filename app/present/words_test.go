package present

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics"
)

// demanded returns every word the tables and the code ask for, as
// section.key.
func demanded(t *testing.T) map[string]bool {
	t.Helper()
	want := map[string]bool{"language.name": true, "language.point": true, "unit.mm": true, "unit.deg": true, "reason.out_of_range_optional": true,
		"reason.not_this_socket_exactly": true, "reason.not_this_socket_at_most": true}
	add := func(section, key string) { want[section+"."+key] = true }
	for _, p := range kinematics.Parameters {
		add(nameSection, p.Key)
		add(helpSection, p.Key)
		if p.Source != "" {
			add(sourceSection, p.Source)
		}
		for _, c := range p.Choices {
			add(choiceSection, p.Key+"."+c)
		}
	}
	for _, q := range kinematics.Questions {
		add(questionSection, q.Key)
		if q.Native.Known() {
			add(sourceSection, q.Native.Source)
		}
	}
	for _, key := range groupKeys {
		add(groupSection, key)
	}
	for _, key := range movementKeys {
		add(movementSection, key)
	}
	for _, key := range reasonKeys {
		add(reasonSection, key)
	}
	for _, pair := range directionKeys {
		add(directionSection, pair[0])
		add(directionSection, pair[1])
	}
	for _, key := range []string{"limit", "none", "contact_at_start", "not_reached"} {
		add(statusSection, key)
	}
	demandedOfMotion(t, add)
	demandedOfTargets(add)
	demandedOfNumbers(add)
	demandedOfGuide(add)
	for key := range literalsInCode(t).asked {
		add(phraseSection, key)
	}
	return want
}

// literals are the strings that stand in the program's code: those that are
// certainly keys of phrases, all that may be, and what is put before or after.
type literals struct{ asked, all, beginnings, endings map[string]bool }

// literalsInCode reads the code of the program. A key is asked for where it
// stands in a call of Phrase, is assigned to a variable named phrase, or starts
// like the keys of a part of the program.
func literalsInCode(t *testing.T) literals {
	l := literals{map[string]bool{}, map[string]bool{}, map[string]bool{}, map[string]bool{}}
	for _, root := range []string{"../../app", "../../cmd"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
			if err == nil { // else the compiler says so
				ast.Inspect(file, l.look)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return l
}

var startsLikeAKey = regexp.MustCompile(`^(window|chart|view|report)_[a-z0-9_]*[a-z0-9]$`)

func (l literals) look(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.BasicLit:
		s := unquoted(n)
		l.all[s] = true
		if startsLikeAKey.MatchString(s) {
			l.asked[s] = true
		}
	case *ast.CallExpr:
		if f, ok := n.Fun.(*ast.SelectorExpr); ok && f.Sel.Name == "Phrase" && len(n.Args) > 0 {
			if s := unquoted(n.Args[0]); s != "" {
				l.asked[s] = true
			}
		}
	case *ast.AssignStmt:
		if id, ok := n.Lhs[0].(*ast.Ident); ok && id.Name == "phrase" {
			l.asked[unquoted(n.Rhs[0])] = true
		}
	case *ast.BinaryExpr:
		if s := unquoted(n.Y); n.Op == token.ADD && strings.HasPrefix(s, "_") {
			l.endings[s] = true
		}
		if s := unquoted(n.X); n.Op == token.ADD && strings.HasSuffix(s, "_") {
			l.beginnings[s] = true
		}
	}
	return true
}

func unquoted(e ast.Expr) string {
	if l, ok := e.(*ast.BasicLit); ok && l.Kind == token.STRING {
		if s, err := strconv.Unquote(l.Value); err == nil {
			return s
		}
	}
	return ""
}

// uses reports whether a phrase's key may be asked for.
func (l literals) uses(key string) bool {
	if l.all[key] {
		return true
	}
	for beginning := range l.beginnings {
		if end, ok := strings.CutPrefix(key, beginning); ok && l.all[end] {
			return true
		}
	}
	for ending := range l.endings {
		if start, ok := strings.CutSuffix(key, ending); ok && l.all[start] {
			return true
		}
	}
	return false
}

func TestEveryLanguageHasEveryWordAndNoneWithoutUse(t *testing.T) {
	want := demanded(t)
	if len(want) < 100 {
		t.Fatalf("only %d words are asked for", len(want))
	}
	code := literalsInCode(t)
	for _, language := range assets.Languages() {
		w, err := In(language)
		if err != nil {
			t.Fatal(err)
		}
		for _, missing := range difference(want, w) {
			t.Errorf("%s has no word for %s", language, missing)
		}
		for section, words := range w.sections {
			for _, key := range slices.Sorted(maps.Keys(words)) {
				if !want[section+"."+key] && !(section == phraseSection && code.uses(key)) {
					t.Errorf("%s has %s.%s, which nothing asks for", language, section, key)
				}
				if strings.TrimSpace(words[key]) == "" {
					t.Errorf("%s has an empty word for %s.%s", language, section, key)
				}
			}
		}
	}
}

func difference(want map[string]bool, w *Words) []string {
	var missing []string
	for id := range want {
		section, key, _ := strings.Cut(id, ".")
		if _, ok := w.sections[section][key]; !ok {
			missing = append(missing, id)
		}
	}
	slices.Sort(missing)
	return missing
}

func TestAMissingWordIsNamed(t *testing.T) {
	w := &Words{language: "xx", sections: map[string]map[string]string{}}
	if got := w.Name("head_diameter_mm"); got != "[name.head_diameter_mm]" {
		t.Errorf("Name = %q, want its key in brackets", got)
	}
	want := demanded(t)
	if missing := difference(want, w); len(missing) != len(want) {
		t.Errorf("an empty language misses %d of %d words", len(missing), len(want))
	}
}

func TestEveryReasonHasAKey(t *testing.T) {
	for r := kinematics.OutOfRange; r <= kinematics.SocketFree; r++ {
		if reasonKeys[r] == "" {
			t.Errorf("reason %d has no key", r)
		}
	}
}

func TestALanguageIsFoundByRegion(t *testing.T) {
	for _, tag := range []string{"en", "en-GB", "en_US", "EN"} {
		if w, err := In(tag); err != nil || w.Language() != "en" {
			t.Errorf("In(%q) = %v, %v, want English", tag, w, err)
		}
	}
	if _, err := In("xx"); err == nil || !strings.Contains(err.Error(), "en") {
		t.Errorf("In(xx) = %v, want an error that lists what there is", err)
	}
}
