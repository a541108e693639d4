package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
)

// evidencePage is where the page of evidence stands, below the root.
const evidencePage = "assets/evidence/evidence.md"

// evidence writes the page anew. It is written even where a value does not
// hold, which then stands in it; the command fails.
func evidence(ctx context.Context, w *workshop, args []string) error {
	if err := noArguments("evidence", args); err != nil {
		return err
	}
	page, failing := w.evidencePage(ctx)
	if len(page) == 0 {
		return failing
	}
	path := filepath.Join(w.root, evidencePage)
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(path, page, 0o644); err != nil {
		return err
	}
	fmt.Fprintln(w.out, evidencePage)
	return failing
}

// evidencePage has rimcalc compute the page.
func (w *workshop) evidencePage(ctx context.Context) ([]byte, error) {
	calc := w.built("rimcalc")
	if err := w.child(ctx, environment(pure), "go", "build", "-o", calc, "./cmd/rimcalc").Run(); err != nil {
		return nil, fmt.Errorf("building rimcalc: %w", err)
	}
	var page bytes.Buffer
	c := w.child(ctx, environment(pure), calc, "evidence", "--markdown")
	c.Stdout = &page
	err := c.Run()
	return page.Bytes(), err
}

// evident checks that every value holds and that the page is what is computed.
func evident(ctx context.Context, w *workshop, t *tally) error {
	page, err := w.evidencePage(ctx)
	t.check("evidence", err)
	kept, err := os.ReadFile(filepath.Join(w.root, evidencePage))
	if err == nil && !bytes.Equal(page, kept) {
		err = errors.New("out of date: run go run ./cmd/dev evidence, and look at what changed")
	}
	t.check(evidencePage, err)
	return nil
}
