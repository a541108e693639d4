package main

import (
	"context"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

func TestTheReleaseIsNamedOnceAndTheToolkitsFileAgrees(t *testing.T) {
	w, err := openWorkshop(os.Stdout, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	source, err := os.ReadFile(filepath.Join(w.root, "assets", "version.go"))
	if err != nil {
		t.Fatal(err)
	}
	found := releaseConstant.FindSubmatch(source)
	if found == nil {
		t.Fatal("assets/version.go names no release")
	}
	toml, err := os.ReadFile(filepath.Join(w.root, "cmd", "rimclear", "FyneApp.toml"))
	if err != nil {
		t.Fatal(err)
	}
	if want := `Version = "` + string(found[1]) + `"`; !strings.Contains(string(toml), want) {
		t.Errorf("FyneApp.toml does not say %s", want)
	}
	icon := regexp.MustCompile(`Icon = "([^"]+)"`).FindSubmatch(toml)
	if icon == nil {
		t.Fatal("FyneApp.toml names no icon")
	}
	if _, err := os.Stat(filepath.Join(w.root, "cmd", "rimclear", string(icon[1]))); err != nil {
		t.Error(err)
	}
}

// readByPerson are licences of no common kind that were read: both are of parts
// of gonum (quadrature, tests of its graph formats) that are not linked in.
var readByPerson = []string{"THIRD_PARTY_LICENSES/Bogaert-LICENSE", "THIRD_PARTY_LICENSES/W3C-TestSuite-LICENSE"}

func TestEveryLinkedModuleHasALicenceOfAKnownKind(t *testing.T) {
	w, err := openWorkshop(os.Stdout, os.Stderr)
	if err != nil {
		t.Fatal(err)
	}
	text, err := release{workshop: w, name: "r", version: "0"}.thirdParties(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	list, _, _ := strings.Cut(string(text), strings.Repeat("=", 78))
	for _, want := range []string{"Go ", "fyne.io/fyne/v2", "gonum.org/v1/gonum", "golang.org/x/image"} {
		if !strings.Contains(list, want) {
			t.Errorf("%s is not listed", want)
		}
	}
	for line := range strings.Lines(list) {
		for _, read := range readByPerson {
			line = strings.ReplaceAll(line, "other ("+read+")", "")
		}
		if strings.Contains(line, "other (") || strings.Contains(line, "GPL") {
			t.Errorf("to be read by a person: %s", line)
		}
	}
}

func TestALicenceIsKnownByItsWords(t *testing.T) {
	for text, want := range map[string]string{
		"Apache License\nVersion 2.0": "Apache-2.0", "Permission is hereby granted, free of\ncharge, to any person": "MIT",
		"Redistributions in binary form must\n ... Neither the name of": "BSD-3-Clause", "All rights reserved.": "other",
	} {
		if got := licenceKind([]byte(text)); got != want {
			t.Errorf("%q is %s, want %s", text, got, want)
		}
	}
}
