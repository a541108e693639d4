package main

import "context"

// race runs all tests under the race detector. It compiles Fyne once more, so
// `dev test` keeps to racePure.
func race(ctx context.Context, w *workshop, args []string) error {
	if err := noArguments("race", args); err != nil {
		return err
	}
	return w.work(ctx, []stage{
		{"system packages", func(ctx context.Context, w *workshop, t *tally) error { return w.prepare(ctx) }},
		{"race detector, all rooms", func(ctx context.Context, w *workshop, t *tally) error {
			return w.goTest(ctx, t, secluded(cgo), nil, "-race", "-timeout=30m", "-tags", uiTags, "./...")
		}},
	})
}

// racePure runs the race detector on the rooms that have goroutines or locks
// and are free of Fyne.
func (h house) racePure(ctx context.Context, w *workshop, t *tally) error {
	rooms := h.choose(func(r *room) bool { return r.concurrent && r.tests && !h.needsFyne(r.path) })
	return w.goTest(ctx, t, secluded(cgo), nil, append([]string{"-race", "-short", "-timeout=15m"}, rooms...)...)
}
