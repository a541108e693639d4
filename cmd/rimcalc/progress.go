package main

import (
	"io"
	"os"
	"time"

	"github.com/schollz/progressbar/v3"
)

// isTerminal reports whether somebody may be watching what is written.
func isTerminal(w io.Writer) bool {
	f, ok := w.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// progress tells on the error output how far long work is, how fast it goes
// and how much time is left. Where nobody is watching it is silent.
type progress struct{ bar *progressbar.ProgressBar }

// progress begins work of a known size, -1 where it is not known, in things
// such as "rows".
func (t *terminal) progress(title, things string, all int) *progress {
	if !isTerminal(t.errs) {
		return &progress{}
	}
	return newProgress(t.errs, title, things, all)
}

func newProgress(w io.Writer, title, things string, all int) *progress {
	return &progress{progressbar.NewOptions(all,
		progressbar.OptionSetWriter(w),
		progressbar.OptionSetDescription(title),
		progressbar.OptionShowCount(),
		progressbar.OptionShowIts(),
		progressbar.OptionSetItsString(things),
		progressbar.OptionSetPredictTime(true),
		progressbar.OptionSetWidth(24),
		progressbar.OptionThrottle(100*time.Millisecond),
		progressbar.OptionClearOnFinish(),
		progressbar.OptionSetRenderBlankState(true),
	)}
}

// of says how much is done of all there is.
func (p *progress) of(done, all int) {
	if p.bar == nil || done >= all {
		return
	}
	if p.bar.GetMax() != all {
		p.bar.ChangeMax(all)
	}
	p.bar.Set(done)
}

// clear takes the bar away, done or not.
func (p *progress) clear() {
	if p.bar != nil {
		p.bar.Clear()
	}
}
