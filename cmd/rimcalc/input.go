package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"rimclear/app/casefile"
	"rimclear/kinematics"
	"rimclear/kinematics/form"
)

// readCase reads the case a --case value names: a file, "-" for the standard
// input, or "" for the usual hip. Fields it does not know are told.
func (t *terminal) readCase(name string) (kinematics.Case, error) {
	if name == "" {
		return kinematics.Default(), nil
	}
	f, err := t.readFile(name)
	return f.Case, err
}

// readFile reads a case file, or "-" for the standard input. Fields it does not
// know are told.
func (t *terminal) readFile(name string) (casefile.File, error) {
	in, done, err := t.open(name)
	if err != nil {
		return casefile.File{}, err
	}
	defer done()
	f, err := casefile.Read(in)
	if err != nil {
		return f, usageError{inFile(name, err)}
	}
	for _, field := range f.Unknown() {
		fmt.Fprintf(t.errs, "rimcalc: %s: %s is not known to this version and was passed over\n", title(name), field)
	}
	return f, nil
}

// inFile puts the file's name before every problem.
func inFile(name string, err error) error {
	var faults []error
	var ofCase casefile.Problems
	var ofForm form.Problems
	switch {
	case errors.As(err, &ofCase):
		for _, p := range ofCase {
			faults = append(faults, fmt.Errorf("%s: %w", title(name), p))
		}
	case errors.As(err, &ofForm):
		for _, p := range ofForm {
			faults = append(faults, fmt.Errorf("%s: %w", title(name), p))
		}
	default:
		faults = []error{fmt.Errorf("%s: %w", title(name), err)}
	}
	return errors.Join(faults...)
}

// open opens a file or the standard input ("-").
func (t *terminal) open(name string) (io.Reader, func(), error) {
	if name == "-" {
		return t.in, func() {}, nil
	}
	f, err := os.Open(name)
	if err != nil {
		return nil, nil, usageError{err}
	}
	return f, func() { f.Close() }, nil
}

func title(name string) string {
	if name == "-" {
		return "standard input"
	}
	return name
}
