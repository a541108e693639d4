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
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// targetStage is a Target on the toolkit's test driver.
type targetStage struct {
	*Target
	later *stage
}

// openTarget returns a Target on the first sample in a window of a size.
func openTarget(t testing.TB, width, height float32) *targetStage {
	t.Helper()
	return openTargetWith(t, width, height, &control.Theme{Brightness: control.AlwaysLight})
}

func openTargetWith(t testing.TB, width, height float32, th *control.Theme) *targetStage {
	t.Helper()
	test.NewTempApp(t)
	fyne.CurrentApp().Settings().SetTheme(th)
	f, err := casefile.Decode(assets.Demo().Data)
	if err != nil {
		t.Fatal(err)
	}
	b := &stage{}
	s := session.New(f.Case, b.post, time.Now)
	c := b.context(s, th)
	e := &targetStage{NewTarget(c), b}
	b.show(t, e.Object(), width, height)
	t.Cleanup(func() { e.Close(); s.Close() })
	return e
}

// paint draws the map as the toolkit's painter has it drawn.
func (e *targetStage) paint() *image.RGBA {
	e.later.catchUp(time.Now())
	s := e.Map().Size()
	return e.Map().Paint(int(s.Width), int(s.Height)).(*image.RGBA)
}

// settle waits until a part of what is on screen is worked out and written, and
// ends the rest.
func (e *targetStage) settle(t testing.TB, part session.Part) {
	t.Helper()
	e.later.rest()
	want := e.verdict.question(e.Session.Now())
	done := func() bool {
		return e.verdict.known.Same(want) && (e.verdict.answer.Known > part || len(want.Required) == 0) && !e.aim.solver.Busy()
	}
	for end := time.Now().Add(2 * time.Minute); !done(); time.Sleep(2 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("the target is not worked out in two minutes")
		}
		e.later.posted()
	}
	e.verdict.solver.Stop()
	e.later.rest()
	e.later.rest()
}

// press presses the map at a place of its data and lets go at another.
func (e *targetStage) press(from, to [2]float64) {
	at := func(v [2]float64) fyne.Position {
		p := e.Map().Frame().At(v[0], v[1])
		return fyne.NewPos(float32(p.X), float32(p.Y))
	}
	e.Map().MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at(from)}, Button: desktop.MouseButtonPrimary})
	e.Map().Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at(to)}})
	e.Map().DragEnd()
}

// row returns the row of a sheet whose name starts so.
func row(t testing.TB, s *control.Sheet, name string) int {
	t.Helper()
	i := slices.IndexFunc(s.Rows(), func(r control.SheetRow) bool { return strings.HasPrefix(r.Name, name) })
	if i < 0 {
		t.Fatalf("no row %q", name)
	}
	return i
}

func TestDraggingTheRingPlacesTheCup(t *testing.T) {
	e := openTarget(t, 1280, 776)
	before := slices.Clone(e.paint().Pix)
	e.press([2]float64{40, 15}, [2]float64{52.2, 24.8})
	cup := e.Session.Now().Design().Cup
	if i, a := cup.Inclination.Degrees(), cup.Anteversion.Degrees(); math.Abs(i-52) > 0.01 || math.Abs(a-25) > 0.01 {
		t.Errorf("the cup is at %.2f/%.2f, want 52/25", i, a)
	}
	if bytes.Equal(before, e.paint().Pix) {
		t.Error("the map looks as before")
	}
	if other := e.Session.Now().Case.Designs[1].Cup; other.Inclination != 40*unit.Degree {
		t.Error("the other design moved too")
	}
	if step, _ := e.Session.Undoable(); step.Key != "placement" {
		t.Errorf("the step is called %q", step.Key)
	}
	e.Session.Undo()
	if cup := e.Session.Now().Design().Cup; cup.Inclination != 40*unit.Degree {
		t.Errorf("undone, the cup is at %.2f°", cup.Inclination.Degrees())
	}
}

func TestTheRingOfAnotherDefinitionStaysUnderThePointer(t *testing.T) {
	e := openTarget(t, 1280, 776)
	for _, definition := range []float64{1, 2} {
		e.Session.Set(kinematics.ParameterByKey("cup_definition"), definition)
		e.Session.Set(kinematics.ParameterByKey("cup_plane"), 2)
		e.Session.Set(kinematics.ParameterByKey("tilt_standing_deg"), -8)
		e.paint()
		e.press([2]float64{45, 12}, [2]float64{47, 14})
		e.paint()
		if x, y := e.aim.chart.Placed(); math.Abs(x-47) > 1e-6 || math.Abs(y-14) > 1e-6 {
			t.Errorf("the ring is at %.3f/%.3f, want 47/14", x, y)
		}
	}
}

func TestTheMapOfVersionsMovesCupAndStem(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.aim.choose(kinematics.VersionMap)
	e.paint()
	e.press([2]float64{15, 15}, [2]float64{22, 30})
	d := e.Session.Now().Design()
	if a, s := d.Cup.Anteversion.Degrees(), d.Stem.Anteversion.Degrees(); math.Abs(a-22) > 0.01 || math.Abs(s-30) > 0.01 || math.Abs(d.Cup.Inclination.Degrees()-40) > 0.01 {
		t.Errorf("cup %.2f/%.2f, stem %.2f, want 40/22 and 30", d.Cup.Inclination.Degrees(), a, s)
	}
}

func TestArrowKeysNudgeTheCup(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.paint()
	e.Map().TypedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	e.paint()
	e.Map().TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	cup := e.Session.Now().Design().Cup
	if math.Abs(cup.Inclination.Degrees()-40.5) > 1e-9 || math.Abs(cup.Anteversion.Degrees()-14.5) > 1e-9 {
		t.Errorf("the cup is at %v/%v, want 40.5/14.5", cup.Inclination.Degrees(), cup.Anteversion.Degrees())
	}
}

func TestTickingAMotionRequiresItAndTheAnswerFollows(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.settle(t, session.AimPart)
	before, n := e.Headline(), len(e.Session.Now().Case.Goal.Motions.Keys())
	e.goals.sheet.OnTick(row(t, e.goals.sheet, "Tying a shoe, foot"))
	e.settle(t, session.AimPart)
	s := e.Session.Now()
	if got := len(s.Case.Goal.Motions.Keys()); got != n+1 {
		t.Errorf("%d motions are required, want %d", got, n+1)
	}
	if e.Headline() == before || !strings.Contains(e.Headline(), "Tying a shoe, foot on the floor") {
		t.Errorf("the answer reads %q", e.Headline())
	}
	if got := e.verdict.sheet.Rows(); len(got) != n+3 {
		t.Errorf("%d rows, want two sides and %d motions", len(got), n+1)
	}
	e.goals.sheet.OnTick(row(t, e.goals.sheet, "Tying a shoe, foot"))
	e.settle(t, session.AimPart)
	if e.Headline() != before {
		t.Errorf("taken out again, the answer reads %q, want %q", e.Headline(), before)
	}
}

func TestEverySetOfCriteriaCanBeRequired(t *testing.T) {
	e := openTarget(t, 1280, 776)
	for i, set := range e.Motions.Library.Criteria {
		e.goals.sets.Choose(i + 1)
		s := e.Session.Now()
		list, lost := e.Motions.Required(&s.Case)
		if want := len(set.Criteria) + len(s.Case.Goal.Motions.Keys()); s.Case.Goal.Criteria != set.Key || len(list) != want || len(lost) > 0 {
			t.Errorf("%s: %q with %d motions, want %d", set.Key, s.Case.Goal.Criteria, len(list), want)
		}
	}
}

func TestEveryTabOfTheVerdictSaysSomething(t *testing.T) {
	for design := range 2 {
		e := openTarget(t, 1280, 776)
		e.Session.Activate(design)
		e.settle(t, session.SharePart)
		for i := range e.verdict.tabs {
			e.verdict.turn(i)
			if rows := e.verdict.sheet.Rows(); len(rows) < 4 {
				t.Errorf("design %d, tab %d has %d rows: %+v", design, i, len(rows), rows)
			}
			for _, r := range e.verdict.sheet.Rows() {
				if strings.Contains(r.Name+r.Value+r.Below, "[") || strings.Contains(r.Name+r.Value+r.Below, "{") {
					t.Errorf("tab %d: %+v", i, r)
				}
			}
		}
		patch := false
		e.verdict.turn(verdictHold)
		for _, r := range e.verdict.sheet.Rows() {
			patch = patch || strings.HasPrefix(r.Name, "Contact patch")
		}
		if resurfacing := e.Session.Now().Design().Bearing == kinematics.Resurfacing; patch != resurfacing {
			t.Errorf("design %d: contact patch %v, resurfacing %v", design, patch, resurfacing)
		}
	}
}

func TestStoppingEndsTheWorkUntilSomethingChanges(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.settle(t, session.AimPart)
	e.verdict.halt()
	for e.verdict.solver.Busy() {
		time.Sleep(time.Millisecond)
	}
	e.later.rest()
	if e.verdict.answer.Known > session.MostPart || e.verdict.stop.Visible() {
		t.Errorf("stopped, %d parts are known and there is something to stop: %v", e.verdict.answer.Known, e.verdict.stop.Visible())
	}
	e.Session.Set(kinematics.ParameterByKey("stem_anteversion_deg"), 16)
	e.settle(t, session.SharePart)
	if e.verdict.halted {
		t.Error("a change does not begin it anew")
	}
}

func TestAHiddenTargetWorksNothingOut(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.settle(t, session.AimPart)
	e.Object().Hide()
	asked := e.verdict.asked
	e.Session.Set(kinematics.ParameterByKey("stem_anteversion_deg"), 20)
	e.later.rest()
	if !e.verdict.asked.Same(asked) {
		t.Error("a hidden view asks for a target")
	}
}

func TestAMotionThatIsChosenMovesThePosture(t *testing.T) {
	e := openTarget(t, 1280, 776)
	e.ShowMotion("low_chair")
	if !e.Play.player.Playing() || !e.aim.picture.Visible() {
		t.Fatal("the motion is not shown")
	}
	e.Play.Seek(e.Play.player.Clip().Duration())
	if f := e.Session.Now().Case.Posture.Flexion.Degrees(); math.Abs(f-115) > 1e-6 {
		t.Errorf("at its end the hip is bent %.2f°, want 115", f)
	}
	if step, _ := e.Session.Undoable(); step.Key != "playback" {
		t.Errorf("the step is called %q", step.Key)
	}
	if len(e.Play.trace.Times) != samples || e.Play.trace.Stops {
		t.Errorf("a trace of %d, stops %v", len(e.Play.trace.Times), e.Play.trace.Stops)
	}
}

func TestNothingOfTargetIsCutOff(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1024, Height: 676}, {Width: 1280, Height: 776}, {Width: 2560, Height: 1416}} {
		for _, scale := range []float32{1, 1.3} {
			e := openTargetWith(t, size.Width, size.Height, &control.Theme{Scale: scale})
			e.goals.turn(1)
			e.later.rest()
			within(t, e.object, fyne.NewPos(0, 0), fyne.NewPos(0, 0), size, func(text string, at fyne.Position, m fyne.Size) {
				t.Errorf("%v, text ×%v: %q at %v, %v is cut off", size, scale, text, at, m)
			})
		}
	}
}

func TestTheKeyboardTicksAMotion(t *testing.T) {
	e := openTarget(t, 1280, 776)
	n := len(e.Session.Now().Case.Goal.Motions.Keys())
	s := e.goals.sheet
	s.FocusGained()
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeyDown})
	s.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	if got := len(e.Session.Now().Case.Goal.Motions.Keys()); got != n+1 {
		t.Errorf("%d motions are required, want %d", got, n+1)
	}
}

// BenchmarkStemDrag is our own work for one picture of Target while the stem
// slider is dragged: 20 motions over 61×61 cup positions, drawn, with what is
// written fifteen times a second. The target itself is looked for meanwhile.
func BenchmarkStemDrag(b *testing.B) {
	e := openTarget(b, 1280, 776)
	var keys []string
	for _, a := range e.Motions.Library.Activities {
		if !a.Open && len(keys) < 20 {
			keys = append(keys, a.Key)
		}
	}
	e.Session.Edit(session.Step{}, func(c *kinematics.Case) { c.Goal.Motions = kinematics.JoinMotions(keys...) })
	e.goals.turn(1)
	e.settle(b, session.AimPart)
	track := e.goals.panel.dials["stem_anteversion_deg"].Track()
	var took []time.Duration
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		start := time.Now()
		x := track.Size().Width * float32(0.5-0.2*math.Cos(float64(i)/40))
		track.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, 8)}})
		e.paint()
		took = append(took, time.Since(start))
		i++
	}
	slices.Sort(took)
	for name, share := range map[string]float64{"least-ms": 0, "median-ms": 0.5, "worst-ms": 1} {
		at := took[int(share*float64(len(took)-1))]
		b.ReportMetric(float64(at.Microseconds())/1e3, name)
	}
}

// BenchmarkRingDrag is the same while the cup is dragged on the map.
func BenchmarkRingDrag(b *testing.B) {
	e := openTarget(b, 1280, 776)
	e.settle(b, session.AimPart)
	e.paint()
	i := 0
	for b.Loop() {
		e.press([2]float64{40, 15}, [2]float64{45 + 5*math.Cos(float64(i)/40), 15})
		e.paint()
		i++
	}
}
