package view

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
)

// auditorium is an Explain on the toolkit's test driver, with a clock that
// stands until it is moved.
type auditorium struct {
	*Explain
	window fyne.Window
	stage  stage
	now    time.Time
}

func openExplain(t testing.TB, c kinematics.Case, width, height float32, th *control.Theme) *auditorium {
	t.Helper()
	return openExplainIn(t, present.English(), c, width, height, th)
}

// openExplainIn is openExplain in a language.
func openExplainIn(t testing.TB, words *present.Words, c kinematics.Case, width, height float32, th *control.Theme) *auditorium {
	t.Helper()
	test.NewTempApp(t)
	fyne.CurrentApp().Settings().SetTheme(th)
	a := &auditorium{now: time.Date(2026, 1, 2, 9, 0, 0, 0, time.UTC)}
	clock := func() time.Time { return a.now }
	s := session.New(c, a.stage.post, clock)
	ctx := &Context{
		Session: s, Words: words, Theme: th, Post: a.stage.post, Now: clock,
		After: func(d time.Duration, f func()) func() {
			a.stage.later = append(a.stage.later, later{a.now.Add(d), f})
			return func() {}
		},
	}
	ctx.Hint = control.NewHint(ctx.After)
	a.Explain = NewExplain(ctx)
	a.Object().Show()
	a.display(s.Now())
	a.window = test.NewTempWindow(t, a.Object())
	a.window.SetPadded(false)
	a.window.Resize(fyne.NewSize(width, height))
	t.Cleanup(func() { a.Close(); s.Close() })
	return a
}

// wait lets time pass.
func (a *auditorium) wait(d time.Duration) {
	a.now = a.now.Add(d)
	a.stage.catchUp(a.now)
}

// end waits until the movement is where it stops.
func (a *auditorium) end() { a.wait(explainRest + reaching(a.shown.stop) + 100*time.Millisecond) }
