package main

import (
	"context"
	"fmt"
	"os/exec"
	"time"
)

// stage is one step of a longer run. It counts what it finds in the tally; its
// error is a failed check of its own.
type stage struct {
	name string
	run  func(context.Context, *workshop, *tally) error
}

// work runs the stages in order, goes on after one that fails, and ends with
// the sums.
func (w *workshop) work(ctx context.Context, stages []stage) error {
	var t tally
	began := time.Now()
	for _, s := range stages {
		if ctx.Err() != nil {
			t.fail(s.name + ": not run, interrupted")
			continue
		}
		fmt.Fprintf(w.out, "## %s\n", s.name)
		start, failed := time.Now(), t.failed
		if err := s.run(ctx, w, &t); err != nil {
			fmt.Fprintln(w.out, err)
			t.fail(s.name + ": " + err.Error())
		}
		verdict := "passed"
		if t.failed > failed {
			verdict = "FAILED"
		}
		fmt.Fprintf(w.out, "## %s: %s in %.1f s\n\n", s.name, verdict, time.Since(start).Seconds())
	}
	fmt.Fprintf(w.out, "all stages: %.1f s\n", time.Since(began).Seconds())
	return t.report(w.out)
}

// limit bounds a room's tests within `dev test`, the whole of which must stay
// under a quarter of an hour; a later -timeout overrides it.
const limit = 12 * time.Minute

// goTest runs `go test` and counts its tests. prefix is a command that go test
// runs under, or nothing.
func (w *workshop) goTest(ctx context.Context, t *tally, env, prefix []string, args ...string) error {
	line := append(append(append([]string{}, prefix...), "go", "test", "-json", "-timeout="+limit.String()), args...)
	c := w.child(ctx, env, line[0], line[1:]...)
	c.Stdout = nil
	events, err := c.StdoutPipe()
	if err != nil {
		return err
	}
	if err := c.Start(); err != nil {
		return err
	}
	failed := t.failed
	reading := t.follow(events, w.out)
	ending := c.Wait()
	if reading != nil {
		return reading
	}
	if _, plain := ending.(*exec.ExitError); plain && t.failed > failed {
		return nil // counted already
	}
	return ending
}
