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

// arena is a Compare on the toolkit's test driver.
type arena struct {
	*Compare
	stage *stage
}

// compare returns a Compare on the stemmed design, a resurfacing, and so many
// more of the catalogue, in a window of a size.
func compare(t testing.TB, width, height float32, designs int) *arena {
	t.Helper()
	return compareWith(t, width, height, designs, &control.Theme{Brightness: control.AlwaysLight})
}

func compareWith(t testing.TB, width, height float32, designs int, th *control.Theme) *arena {
	t.Helper()
	test.NewTempApp(t)
	fyne.CurrentApp().Settings().SetTheme(th)
	b := &stage{}
	s := session.New(kinematics.Default(), b.post, time.Now)
	c := &Context{
		Session: s, Words: present.English(), Theme: th, Post: b.post, Now: time.Now,
		After: func(d time.Duration, f func()) func() {
			b.later = append(b.later, later{time.Now().Add(d), f})
			return func() {}
		},
	}
	c.Hint = control.NewHint(c.After)
	for i := 1; i < designs; i++ {
		s.Duplicate()
		s.Edit(session.Step{Key: "bearing", Design: i}, func(k *kinematics.Case) {
			*k = bearing(t, [...]string{"stemmed_36", "resurfacing_50", "dual_mobility_28"}[i-1]).Apply(*k, i)
		})
	}
	s.Activate(0)
	a := &arena{Compare: NewCompare(c), stage: b}
	b.window = test.NewTempWindow(t, a.Object())
	b.window.SetPadded(false)
	b.window.Resize(fyne.NewSize(width, height))
	t.Cleanup(func() { a.Close(); s.Close() })
	return a
}

func bearing(t testing.TB, key string) kinematics.Bearing {
	t.Helper()
	for _, b := range bearings() {
		if b.Key == key {
			return b
		}
	}
	t.Fatalf("no bearing %s", key)
	return kinematics.Bearing{}
}

// settled waits for the background and does all that is due.
func (a *arena) settled(t testing.TB) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); {
		a.stage.rest()
		if !a.contest.comparer.latest.Busy() && !a.lineup.halts.solver.Busy() && !a.contest.plots.solver.Busy() {
			a.stage.rest()
			return
		}
		time.Sleep(time.Millisecond)
	}
	t.Fatal("the background does not come to rest")
}

func TestEachDesignHasATileAndAColumn(t *testing.T) {
	for n := 1; n <= kinematics.MaxDesigns; n++ {
		a := compare(t, 1280, 776, n)
		a.settled(t)
		if a.Picture().Count() != n {
			t.Errorf("%d designs: %d tiles", n, a.Picture().Count())
		}
		for _, r := range a.contest.table.Rows() {
			if len(r.Cells) != n {
				t.Errorf("%d designs: %s has %d cells", n, r.Name, len(r.Cells))
			}
		}
		if a.Headline() == "" {
			t.Errorf("%d designs: no answer", n)
		}
		t.Log(a.Headline())
	}
}
