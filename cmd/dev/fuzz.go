package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"time"
)

// fuzz runs each fuzz test of the module for a while. A crash is kept by
// `go test` in the room's testdata/fuzz and fails ever after.
func fuzz(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev fuzz", flag.ContinueOnError)
	length := f.Duration("for", 20*time.Second, "how long each fuzz test runs")
	only := f.String("only", "", "regular expression: only fuzz tests whose name matches")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	chosen, err := regexp.Compile(*only)
	if err != nil {
		return err
	}
	h, err := survey(w.root)
	if err != nil {
		return err
	}
	stages := h.fuzzStages(*length, chosen)
	if len(stages) == 0 {
		return errors.New("no fuzz test matches")
	}
	return w.work(ctx, stages)
}

func (h house) fuzzStages(length time.Duration, chosen *regexp.Regexp) []stage {
	var stages []stage
	for _, path := range slices.Sorted(maps.Keys(h)) {
		settings := []string{pure}
		if h.needsFyne(path) {
			settings = []string{cgo}
		}
		for _, name := range h[path].fuzzers {
			if !chosen.MatchString(name) {
				continue
			}
			line := []string{
				"test", "-tags", uiTags, "-run", "^$", "-fuzz", "^" + name + "$", "-fuzztime", length.String(), "./" + path,
			}
			stages = append(stages, stage{fmt.Sprintf("%s in %s", name, path), func(ctx context.Context, w *workshop, t *tally) error {
				t.check(name, w.child(ctx, secluded(settings...), "go", line...).Run())
				return nil
			}})
		}
	}
	return stages
}
