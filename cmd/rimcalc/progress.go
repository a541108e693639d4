package main

import (
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"
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
// and how much time is left. Where nobody is watching it is silent. It is a few
// lines of our own, since the usual library can serve its state to a browser
// and so would link the network into a program that has no use for it.
type progress struct {
	to            io.Writer // nil where nobody is watching
	title, things string
	begun, told   time.Time

	mu    sync.Mutex
	width int // of what stands there
}

// progress begins work in things such as "rows".
func (t *terminal) progress(title, things string, all int) *progress {
	if !isTerminal(t.errs) {
		return &progress{}
	}
	return newProgress(t.errs, title, things, all)
}

func newProgress(w io.Writer, title, things string, all int) *progress {
	p := &progress{to: w, title: title, things: things, begun: time.Now()}
	p.write(0, all, p.begun)
	return p
}

// How often the bar is drawn at most, and how wide its line of marks is.
const (
	progressEvery = 100 * time.Millisecond
	progressWidth = 24
)

// of says how much is done of all there is.
func (p *progress) of(done, all int) {
	if p.to == nil || done >= all {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	if now := time.Now(); now.Sub(p.told) >= progressEvery {
		p.write(done, all, now)
	}
}

// write draws the bar over the one before.
func (p *progress) write(done, all int, now time.Time) {
	p.told = now
	share := 0.0
	if all > 0 {
		share = float64(done) / float64(all)
	}
	marks := int(share * progressWidth)
	line := fmt.Sprintf("%s %3.0f %% [%s%s]", p.title, 100*share, strings.Repeat("#", marks), strings.Repeat(".", progressWidth-marks))
	if spent := now.Sub(p.begun).Seconds(); done > 0 && spent > 0 {
		rate := float64(done) / spent
		left := time.Duration(float64(all-done) / rate * float64(time.Second)).Round(time.Second)
		line += fmt.Sprintf(" %d of %d, %.3g %s a second, %v left", done, all, rate, p.things, left)
	}
	fmt.Fprintf(p.to, "\r%-*s", p.width, line)
	p.width = len(line)
}

// clear takes the bar away, done or not.
func (p *progress) clear() {
	if p.to == nil {
		return
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	fmt.Fprintf(p.to, "\r%*s\r", p.width, "")
}
