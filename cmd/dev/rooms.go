package main

import (
	"go/ast"
	"go/build/constraint"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// module is the path all rooms (packages) of this module begin with.
const module = "rimclear"

// fyneModule is the toolkit of the window; what imports it needs cgo to link.
const fyneModule = "fyne.io/fyne/v2"

// room is one package of the module as its source files show it, for every
// operating system and build tag at once.
type room struct {
	path        string          // below the module: "kinematics/hip"; "" is the root
	imports     map[string]bool // of the program's files
	testImports map[string]bool // of the test files
	tests       bool            // has test files
	concurrent  bool            // starts goroutines or shares memory between them
	fuzzers     []string        // names of its Fuzz functions
	benchmarks  bool            // has Benchmark functions
}

// house holds the rooms by their path.
type house map[string]*room

// eachSource visits every Go file of the module below root: not those in
// hidden folders or testdata.
func eachSource(root string, visit func(name string) error) error {
	return filepath.WalkDir(root, func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && name != root && unseen(e.Name()):
			return filepath.SkipDir
		case e.IsDir() || !strings.HasSuffix(name, ".go"):
			return nil
		}
		return visit(name)
	})
}

// survey reads the imports of every Go file below root but those marked
// "ignore".
func survey(root string) (house, error) {
	h := house{}
	err := eachSource(root, func(name string) error {
		below, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		return h.read(name, filepath.ToSlash(below))
	})
	return h, err
}

func unseen(folder string) bool {
	return strings.HasPrefix(folder, ".") || strings.HasPrefix(folder, "_") || folder == "testdata" || folder == "out"
}

// read adds one source file; below is its slash-separated path in the module.
func (h house) read(name, below string) error {
	source, err := os.ReadFile(name)
	if err != nil {
		return err
	}
	file, err := parser.ParseFile(token.NewFileSet(), below, source, parser.ParseComments|parser.SkipObjectResolution)
	if err != nil {
		return err
	}
	if ignored(file) {
		return nil
	}
	r := h.room(strings.TrimPrefix(path.Dir(below), "."))
	test := strings.HasSuffix(below, "_test.go")
	into := r.imports
	if test {
		into, r.tests = r.testImports, true
	}
	for _, spec := range file.Imports {
		if imported, err := strconv.Unquote(spec.Path.Value); err == nil {
			into[imported] = true
		}
	}
	r.note(file, test)
	return nil
}

func (h house) room(path string) *room {
	if h[path] == nil {
		h[path] = &room{path: path, imports: map[string]bool{}, testImports: map[string]bool{}}
	}
	return h[path]
}

// ignored reports whether the file says "//go:build ignore".
func ignored(file *ast.File) bool {
	for _, group := range file.Comments {
		for _, c := range group.List {
			if c.Pos() > file.Package || !constraint.IsGoBuild(c.Text) {
				continue
			}
			expr, err := constraint.Parse(c.Text)
			if err == nil && expr.String() == "ignore" {
				return true
			}
		}
	}
	return false
}

// note records what the file's own code says about the room.
func (r *room) note(file *ast.File, test bool) {
	if imports := r.imports; !test && (imports["sync"] || imports["sync/atomic"]) {
		r.concurrent = true
	}
	ast.Inspect(file, func(n ast.Node) bool {
		if _, ok := n.(*ast.GoStmt); ok {
			r.concurrent = true
		}
		if f, ok := n.(*ast.FuncDecl); ok && test && f.Recv == nil {
			r.benchmarks = r.benchmarks || strings.HasPrefix(f.Name.Name, "Benchmark")
			if strings.HasPrefix(f.Name.Name, "Fuzz") {
				r.fuzzers = append(r.fuzzers, f.Name.Name)
			}
		}
		return true
	})
}

// needsFyne reports whether the room or its tests reach Fyne through any chain
// of imports within the module.
func (h house) needsFyne(path string) bool { return h.reaches(path, true, map[string]bool{}) }

func (h house) reaches(path string, tests bool, seen map[string]bool) bool {
	r := h[path]
	if r == nil || seen[path] && !tests {
		return false
	}
	seen[path] = true
	imports := slices.Collect(maps.Keys(r.imports))
	if tests {
		imports = slices.AppendSeq(imports, maps.Keys(r.testImports))
	}
	return slices.ContainsFunc(imports, func(i string) bool {
		return within(i, fyneModule) || within(i, module) && h.reaches(below(i), false, seen)
	})
}

// within reports whether the import path is the module or package named, or
// lies below it.
func within(imported, above string) bool {
	return imported == above || strings.HasPrefix(imported, above+"/")
}

// below strips the module's own path off an import path.
func below(imported string) string {
	return strings.TrimPrefix(strings.TrimPrefix(imported, module), "/")
}

// choose returns the rooms for which keep holds as arguments of the go
// command, in order.
func (h house) choose(keep func(*room) bool) []string {
	var chosen []string
	for _, path := range slices.Sorted(maps.Keys(h)) {
		if keep(h[path]) {
			chosen = append(chosen, "./"+path)
		}
	}
	return chosen
}
