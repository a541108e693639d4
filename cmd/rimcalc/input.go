package main

import (
	"errors"
	"fmt"
	"io"
	"os"

	"rimclear/app/casefile"
	"rimclear/kinematics"
)

// readCase reads the case a --case value names: a file, "-" for the standard
// input, or "" for the usual hip. Fields it does not know are told.
func (t *terminal) readCase(name string) (kinematics.Case, error) {
	if name == "" {
		return kinematics.Default(), nil
	}
	in, done, err := t.open(name)
	if err != nil {
		return kinematics.Case{}, err
	}
	defer done()
	f, err := casefile.Read(in)
	if err != nil {
		return kinematics.Case{}, usageError{inFile(name, err)}
	}
	for _, field := range f.Unknown() {
		fmt.Fprintf(t.errs, "rimcalc: %s: %s is not known to this version and was passed over\n", title(name), field)
	}
	return f.Case, nil
}

// inFile puts the file's name before every problem.
func inFile(name string, err error) error {
	var list casefile.Problems
	if !errors.As(err, &list) {
		return fmt.Errorf("%s: %w", title(name), err)
	}
	var faults []error
	for _, p := range list {
		faults = append(faults, fmt.Errorf("%s: %w", title(name), p))
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
