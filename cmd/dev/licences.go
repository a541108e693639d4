package main

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
)

// thirdParties lists every module that is linked into the programs with its
// version and the text of its licences, from the module cache. A module without
// a licence is an error.
func (r release) thirdParties(ctx context.Context) ([]byte, error) {
	modules, err := r.linked(ctx)
	if err != nil {
		return nil, err
	}
	var list, texts bytes.Buffer
	fmt.Fprintf(&list, "What is linked into Rimclear %s besides its own code, and its licences\n\n", r.version)
	for _, m := range modules {
		files, err := licenceFiles(m.folder)
		if err != nil {
			return nil, err
		}
		if len(files) == 0 {
			return nil, fmt.Errorf("%s %s has no licence", m.path, m.version)
		}
		var kinds []string
		for _, f := range files {
			text, err := os.ReadFile(f)
			if err != nil {
				return nil, err
			}
			below, _ := filepath.Rel(m.folder, f)
			kind := licenceKind(text)
			if kind == "other" {
				kind = "other (" + filepath.ToSlash(below) + ")"
			}
			if !slices.Contains(kinds, kind) {
				kinds = append(kinds, kind)
			}
			fmt.Fprintf(&texts, "\n%s\n%s %s: %s\n\n%s\n", strings.Repeat("=", 78), m.path, m.version, filepath.ToSlash(below), bytes.TrimSpace(text))
		}
		fmt.Fprintf(&list, "%-45s %-40s %s\n", m.path, m.version, strings.Join(kinds, ", "))
	}
	return append(list.Bytes(), texts.Bytes()...), nil
}

// goModule is a module in the module cache.
type goModule struct{ path, version, folder string }

// linked returns the modules of which a package is linked in, and Go itself.
func (r release) linked(ctx context.Context) ([]goModule, error) {
	var out bytes.Buffer
	c := r.child(ctx, environment(cgo), "go", "list", "-deps", "-tags", uiTags, "-f",
		"{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", "./cmd/rimclear", "./cmd/rimcalc")
	c.Stdout = &out
	if err := c.Run(); err != nil {
		return nil, fmt.Errorf("listing what is linked: %w", err)
	}
	lines := slices.Sorted(strings.Lines(out.String()))
	modules := []goModule{{"Go", runtime.Version(), ""}}
	for _, line := range slices.Compact(lines) {
		if f := strings.Split(strings.TrimSpace(line), "\t"); len(f) == 3 {
			modules = append(modules, goModule{f[0], f[1], f[2]})
		}
	}
	out.Reset()
	c = r.child(ctx, environment(), "go", "env", "GOROOT")
	c.Stdout = &out
	if err := c.Run(); err != nil {
		return nil, err
	}
	modules[0].folder = strings.TrimSpace(out.String())
	return modules, nil
}

var licenceName = regexp.MustCompile(`(?i)^(un)?(licen[cs]e|copying|notice|patents|ofl)([-._].*)?$|-licen[cs]e(\.(txt|md))?$`)

// licenceFiles finds the licences of a module: its own, and those of what it
// brings along in folders. Of Go itself its own suffices.
func licenceFiles(folder string) ([]string, error) {
	var found []string
	err := filepath.WalkDir(folder, func(name string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && name != folder && (unseen(e.Name()) || e.Name() == "src" || e.Name() == "pkg" && !strings.Contains(folder, "@")):
			return filepath.SkipDir
		case !e.IsDir() && licenceName.MatchString(e.Name()) && !strings.HasSuffix(e.Name(), ".go"):
			found = append(found, name)
		}
		return nil
	})
	return found, err
}

// licenceKind names a licence by its words; "other" is to be read.
func licenceKind(text []byte) string {
	says := func(words string) bool {
		return bytes.Contains(bytes.ToLower([]byte(strings.Join(strings.Fields(string(text)), " "))), []byte(words))
	}
	switch {
	case says("apache license"):
		return "Apache-2.0"
	case says("boost software license"):
		return "BSL-1.0"
	case says("mozilla public license"):
		return "MPL-2.0"
	case says("sil open font license"):
		return "OFL-1.1"
	case says("gnu general public license"), says("gnu lesser general public license"):
		return "GPL or LGPL"
	case says("neither the name"), says("neither the names"), says("names of its contributors"), says("name of the copyright holder"), says("may not be used to endorse"):
		return "BSD-3-Clause"
	case says("redistributions in binary form"):
		return "BSD-2-Clause"
	case says("permission to use, copy, modify, and/or distribute"), says("permission to use, copy, modify, and distribute"):
		return "ISC"
	case says("permission is hereby granted, free of charge"):
		return "MIT"
	case says("freetype"):
		return "FTL"
	case says("altered source versions must be plainly marked"):
		return "zlib"
	case says("international color consortium"):
		return "ICC profile"
	case says("patent"):
		return "patent grant"
	}
	return "other"
}
