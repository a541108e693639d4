package view

import (
	"bytes"
	"image"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
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
	c := b.context(s, th)
	for i := 1; i < designs; i++ {
		s.Duplicate()
		s.Edit(session.Step{Key: "bearing", Design: i}, func(k *kinematics.Case) {
			*k = bearing(t, [...]string{"stemmed_36", "resurfacing_50", "dual_mobility_28"}[i-1]).Apply(*k, i)
		})
	}
	s.Activate(0)
	a := &arena{Compare: NewCompare(c), stage: b}
	b.show(t, a.Object(), width, height)
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
		if !a.contest.comparer.Busy() && !a.lineup.halts.solver.Busy() && !a.contest.plots.solver.Busy() {
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
	}
}

func TestDraggingOneTileTurnsAllAlike(t *testing.T) {
	a := compare(t, 1280, 776, 2)
	a.settled(t)
	size := a.Picture().Size()
	w, h := int(size.Width), int(size.Height)
	paint := func() [2][]byte {
		img := a.Picture().Paint(w, h).(*image.RGBA)
		var halves [2][]byte
		for y := range h {
			row := img.Pix[y*img.Stride:][:4*w]
			halves[0], halves[1] = append(halves[0], row[:2*w]...), append(halves[1], row[2*w:]...)
		}
		return halves
	}
	before, camera := paint(), a.Picture().Camera()
	a.Picture().Dragged(&fyne.DragEvent{Dragged: fyne.Delta{DX: 40}})
	a.Picture().DragEnd()
	after := paint()
	if a.Picture().Camera() == camera || bytes.Equal(before[0], after[0]) || bytes.Equal(before[1], after[1]) {
		t.Error("a drag does not turn both designs")
	}
}

func TestOneSliderMovesThePostureOfAll(t *testing.T) {
	a := compare(t, 1280, 776, 3)
	a.settled(t)
	a.choices.panel.dials["flexion_deg"].Track().TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageUp})
	want := a.Session.Now().Case.Posture
	if want == (hip.Posture{}) {
		t.Fatal("the slider did not move the posture")
	}
	for i := range 3 {
		if got := a.lineup.shown[i].Case.Posture; got != want {
			t.Errorf("design %d stands at %+v, want %+v", i, got, want)
		}
		if got, want := a.lineup.shown[i].Contact, a.Session.Joint(i).Contact(want); got != want {
			t.Errorf("design %d: contact %+v, want %+v", i, got, want)
		}
	}
}

func TestEachDesignStopsAtItsOwnContactWhileTheOthersGoOn(t *testing.T) {
	a := compare(t, 1280, 776, 3)
	a.Play.LoadKey("shoe_ankle_on_knee")
	a.settled(t)
	clip := a.Play.player.Clip()
	a.Play.Seek(clip.Duration())
	a.settled(t)
	end := a.Session.Now().Case.Posture
	stopped := 0
	for i := range 3 {
		l := a.Session.Joint(i).Limit(clip.Path)
		at := a.lineup.shown[i]
		if l.Status == kinematics.Free {
			if at.Case.Posture != end || a.lineup.held[i] {
				t.Errorf("design %d is free and stands at %+v, not at the end %+v", i, at.Case.Posture, end)
			}
			continue
		}
		stopped++
		if m := at.Contact.Margin.Degrees(); !a.lineup.held[i] || math.Abs(m) > heldMargin {
			t.Errorf("design %d meets the rim and stands %v° from it", i, m)
		}
		want := a.Words.JointAngle(l.Moving, l.Angle)
		if got := a.Picture().Tile(i).Lines[0]; !strings.Contains(got, want) {
			t.Errorf("design %d is marked %q, want %q", i, got, want)
		}
		if got, want := a.Picture().Tile(i).Lines[1], a.Words.Clock(l.Contact.Azimuth); !strings.Contains(got, want) {
			t.Errorf("design %d is marked %q, want %q", i, got, want)
		}
	}
	if stopped == 0 || stopped == 3 {
		t.Fatalf("%d of 3 designs stop: the motion does not tell them apart", stopped)
	}
	a.choices.panel.dials["flexion_deg"].Track().TypedKey(&fyne.KeyEvent{Name: fyne.KeyLeft})
	for i := range 3 {
		if a.lineup.held[i] {
			t.Errorf("design %d is held at a contact of a motion that was left", i)
		}
	}
}

func TestBeforeItsContactADesignIsNotHeld(t *testing.T) {
	a := compare(t, 1280, 776, 3)
	a.Play.LoadKey("shoe_ankle_on_knee")
	a.settled(t)
	a.Play.Seek(0.1 * a.Play.player.Clip().Duration())
	for i := range 3 {
		if a.lineup.held[i] {
			t.Errorf("design %d is held at the start", i)
		}
	}
}

func TestAnotherBaseTurnsTheDifferencesRound(t *testing.T) {
	a := compare(t, 1280, 776, 3)
	a.settled(t)
	if got := a.contest.table.Rows()[0].Cells; got[0].Change != "" || got[2].Change == "" {
		t.Fatalf("beside A the row reads %+v", got)
	}
	lost := a.contest.table.Rows()[0].Cells[2].Change
	a.contest.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	a.contest.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	got := a.contest.table.Rows()[0].Cells
	if a.contest.base != 2 || got[2].Change != "" || got[0].Change != strings.Replace(lost, "−", "+", 1) {
		t.Errorf("beside C the row reads %+v; beside A C differed by %s", got, lost)
	}
	a.Session.Activate(2)
	a.Session.Remove()
	a.settled(t)
	if a.contest.base != 1 || len(a.contest.table.Rows()[0].Cells) != 2 {
		t.Errorf("after C was taken out the base is %d of %d", a.contest.base, len(a.contest.table.Rows()[0].Cells))
	}
}

func TestABearingTheSocketCannotHoldIsNotTakenAndThatIsSaid(t *testing.T) {
	a := compare(t, 1280, 776, 2)
	tie := func(rule kinematics.SocketRule) {
		if f := a.Session.Edit(session.Step{Key: "socket", Design: -1}, func(c *kinematics.Case) { c.Hip.Socket.Rule = rule }); f != nil {
			t.Fatal(f)
		}
		a.settled(t)
	}
	choose := func(key string) {
		for i, b := range bearings() {
			if b.Key == key {
				a.choices.bearing.Choose(i + 1)
			}
		}
		a.settled(t)
	}
	tie(kinematics.SocketTied)
	before := a.Session.Now().Case
	choose("resurfacing_54")
	if a.Session.Now().Case != before || !strings.Contains(a.choices.note.Text, "this socket cannot hold it") {
		t.Errorf("tied: the note reads %q", a.choices.note.Text)
	}
	tie(kinematics.SocketUntied)
	choose("resurfacing_54")
	if got := a.Session.Now().Design().Rim.HeadDiameter; got != 54 || !strings.HasPrefix(a.choices.note.Text, "Free") {
		t.Errorf("free: head %v, the note reads %q", got, a.choices.note.Text)
	}
	if got := a.Picture().Tile(0).Title; got != "A  Resurfacing, 54 mm head" {
		t.Errorf("the design is called %q", got)
	}
	a.Session.Set(kinematics.ParameterByKey("cup_arc_deg"), 150)
	a.settled(t)
	if got := a.Picture().Tile(0).Title; got != "A  Resurfacing, 54 mm head, changed" {
		t.Errorf("with another arc the design is called %q", got)
	}
}

func TestComparisonFollowsADesignThatChanges(t *testing.T) {
	a := compare(t, 1280, 776, 2)
	a.settled(t)
	before := a.Headline()
	a.Session.Set(kinematics.ParameterByKey("head_diameter_mm"), 22)
	a.settled(t)
	if a.Headline() == before {
		t.Errorf("with a head of 22 mm the answer is still %q", before)
	}
}

func TestEachDoubtIsWhatOneDeviationDoes(t *testing.T) {
	c := kinematics.Default()
	c.Designs[0].Rim.HeadDiameter = 22
	j := kinematics.NewJoint(c.Hip, c.Designs[0])
	var sd [kinematics.VariableCount]unit.Angle
	sd[kinematics.CupAnteversion] = 5 * unit.Degree
	got := present.DoubtOf(c.Hip, c.Designs[0], j.Aperture, sd)
	for k, q := range present.ComparedQuestions {
		up, down := c.Designs[0], c.Designs[0]
		up.Cup.Anteversion += 5 * unit.Degree
		down.Cup.Anteversion -= 5 * unit.Degree
		want := (kinematics.NewJoint(c.Hip, up).Answer(c.Hip, q).Reading - kinematics.NewJoint(c.Hip, down).Answer(c.Hip, q).Reading).Abs() / 2
		if d := (got[k] - want).Abs(); d > 1e-9*unit.Degree {
			t.Errorf("%s: a deviation of 5° moves it by %v, want %v", q.Key, got[k], want)
		}
	}
	sd[kinematics.CupAnteversion] = 0
	for k, d := range present.DoubtOf(c.Hip, c.Designs[0], j.Aperture, sd) {
		if d != 0 {
			t.Errorf("without scatter %s is in doubt by %v", present.ComparedQuestions[k].Key, d)
		}
	}
}

func TestADesignThatHasNotChangedKeepsItsAnswers(t *testing.T) {
	a := compare(t, 1280, 776, 3)
	a.settled(t)
	a.Session.Set(kinematics.ParameterByKey("head_diameter_mm"), 26)
	a.settled(t)
	a.Session.Set(kinematics.ParameterByKey("cup_plane"), 2)
	a.settled(t)
	s := a.Session.Now()
	for i, r := range a.contest.rivals {
		q := compareQuestion{key: a.contest.key(s), joints: []kinematics.Joint{a.Session.Joint(0), a.Session.Joint(1), a.Session.Joint(2)}}
		q.required, _ = a.Motions.Required(&s.Case)
		want := rivalOf(&q, i)
		if r.Theta != want.Theta || !slices.Equal(r.Doubt, want.Doubt) || r.Jump != want.Jump || r.Verdict.Count != want.Verdict.Count {
			t.Errorf("design %d is answered as it was before the change", i)
		}
		for k := range r.Answers {
			if r.Answers[k].Reading != want.Answers[k].Reading {
				t.Errorf("design %d, %s: %v, want %v", i, r.Answers[k].Question.Key, r.Answers[k].Reading, want.Answers[k].Reading)
			}
		}
	}
}

func TestEveryNumberOfCompareCanBeAskedAbout(t *testing.T) {
	a := compare(t, 1280, 776, 2)
	a.settled(t)
	asked := ""
	a.Ask = func(key string) { asked = key }
	for _, r := range a.contest.table.Rows() {
		complete(t, r.Name, r.About)
		asked = ""
		a.contest.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
		if asked != r.About {
			t.Errorf("F2 on %q asks about %q, want %q", r.Name, asked, r.About)
		}
		a.contest.table.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	}
	for i := range a.contest.plots.list {
		a.contest.plots.pick(i)
		asked = ""
		a.contest.info.Tapped(nil)
		complete(t, a.contest.plots.kind.Key, asked)
	}
	complete(t, "the answer", "difference")
}

func TestNothingOfCompareLeavesItsPlace(t *testing.T) {
	for _, scale := range []float32{1, 1.4} {
		for _, size := range []fyne.Size{{Width: 1024, Height: 676}, {Width: 1280, Height: 776}, {Width: 2560, Height: 1416}} {
			a := compareWith(t, size.Width, size.Height, 4, &control.Theme{Brightness: control.AlwaysDark, Scale: scale})
			a.settled(t)
			inside := func(name string, o fyne.CanvasObject, in fyne.CanvasObject) {
				if !o.Visible() {
					return
				}
				p, s := o.Position(), o.Size()
				if p.X < 0 || p.Y < 0 || p.X+s.Width > in.Size().Width+0.5 || p.Y+s.Height > in.Size().Height+0.5 {
					t.Errorf("%v at scale %v: %s at %v, %v leaves %v", size, scale, name, p, s, in.Size())
				}
			}
			c := a.contest
			inside("answer", c.headline, c.object)
			inside("table", c.scroll, c.object)
			inside("chart", c.plots.plot, c.object)
			inside("designs", a.Picture(), a.lineup.object)
			inside("playback", a.lineup.bar.object, a.lineup.object)
			if c.headline.Size().Height < c.headline.MinSize().Height {
				t.Errorf("%v at scale %v: the answer has %v of %v", size, scale, c.headline.Size().Height, c.headline.MinSize().Height)
			}
			if c.headline.Position().Y+c.headline.Size().Height > c.scroll.Position().Y && c.scroll.Visible() {
				t.Errorf("%v at scale %v: the answer lies on the table", size, scale)
			}
			if s := a.Picture().Size(); s.Width < 200 || s.Height < 200 {
				t.Errorf("%v at scale %v: the designs have %v", size, scale, s)
			}
		}
	}
}
