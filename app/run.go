package app

import (
	"io"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/app/view"
	"rimclear/kinematics"
)

// Run opens the window, works until it is closed, and returns the exit code.
func Run(a fyne.App, args []string, errors io.Writer) int {
	words := present.English()
	th := &control.Theme{}
	a.Settings().SetTheme(th)
	s := session.New(kinematics.Default(), fyne.Do, time.Now)
	defer s.Close()
	w := a.NewWindow("Rimclear")
	hint := control.NewHint(after)
	c := &view.Context{Session: s, Words: words, Theme: th, Hint: hint, Post: fyne.Do, After: after, Now: time.Now}
	e := view.NewExplore(c)
	w.SetPadded(false)
	defer e.Close()
	w.SetContent(container.NewStack(e.Object(), hint))
	w.Resize(fyne.NewSize(1280, 800))
	w.ShowAndRun()
	return 0
}

// after calls f later on the goroutine that draws.
func after(d time.Duration, f func()) func() {
	t := time.AfterFunc(d, func() { fyne.Do(f) })
	return func() { t.Stop() }
}
