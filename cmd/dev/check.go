package main

import (
	"context"
	"flag"
	"fmt"
	"strconv"
)

// check holds fresh random designs against the solids of
// kinematics/solid*_test.go, which share no code with the contact solver, and
// against triangle meshes. Every run prints its seed, by which it can be run
// again.
func check(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev check", flag.ContinueOnError)
	designs := f.Int("designs", 100_000, "how many designs")
	seed := f.Uint64("seed", 0, "seed; 0 draws a fresh one")
	first := f.Int("first", 0, "number of the first design, to go on with a seed")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	if f.NArg() > 0 || *designs <= 0 || *first < 0 {
		return fmt.Errorf("check takes -designs N (above 0), -seed S and -first K (0 or more), not %q", f.Args())
	}
	c := w.child(ctx, secluded(pure), "go", "test", "./kinematics", "-v", "-count=1", "-timeout=0",
		"-run", "^(TestFreshDesignsStopWhereTheSolidsTouch|TestMeshesTouchWhereTheLimitIs)$",
		"-designs", strconv.Itoa(*designs), "-seed", strconv.FormatUint(*seed, 10),
		"-first", strconv.Itoa(*first))
	if c.Run() != nil {
		return exitCode(1)
	}
	return nil
}
