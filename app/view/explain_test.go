package view

import (
	"image"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// twoHips is a stemmed hip beside a resurfacing, the left one or the right.
func twoHips(side hip.Side) kinematics.Case {
	c := kinematics.Default()
	c.Count, c.Hip.Side = 2, side
	c.Designs[1] = c.Designs[0]
	c.Designs[1].Bearing = kinematics.Resurfacing
	for key, v := range map[string]float64{"head_diameter_mm": 50, "neck_diameter_mm": 38, "cup_arc_deg": 168, "wall_mm": 3} {
		c = kinematics.ParameterByKey(key).Set(c, 1, v)
	}
	return c
}

func bright() *control.Theme { return &control.Theme{Brightness: control.AlwaysLight} }

// seen returns the texts a person can read on an object, with what draws them.
func seen(o fyne.CanvasObject, tell func(*canvas.Text)) {
	if !o.Visible() {
		return
	}
	switch o := o.(type) {
	case *canvas.Text:
		tell(o)
	case *fyne.Container:
		for _, x := range o.Objects {
			seen(x, tell)
		}
	case fyne.Widget:
		for _, x := range test.WidgetRenderer(o).Objects() {
			seen(x, tell)
		}
	}
}

// unfit are the beginnings of words a patient is not to meet: those of the
// trade, those that promise, and those that order.
var unfit = regexp.MustCompile(`(?i)\b(imping|antever|retrover|inclin|contact|disloc|luxat|sublux|flex|exten[sd]|adduct|abduct|rotat|supin|pron|acetab|femor|femur|pelvi|trochan|condyl|prosthe|implant|arthro|resurfac|bearing|liner|stem|offset|tilt|kinemat|posterior|anterior|lateral|medial|superior|inferior|internal|external|proximal|distal|safe|margin|risk|danger|harm|recommend|guarant|must|should|never|always|forbid|permit|prohibit|success|fail|normal|optimal|best|correct|worn|wear|jump|lever|head-neck|osteo|degrees of freedom|range of motion)|°|[0-9]\.[0-9]`)

func TestNoUnfitWordIsOnScreen(t *testing.T) {
	for _, side := range []hip.Side{hip.Right, hip.Left} {
		a := openExplain(t, twoHips(side), 1280, 770, bright())
		look := func(where, text string) {
			if bad := unfit.FindString(text); bad != "" {
				t.Errorf("%s says %q, with %q in it", where, text, bad)
			}
		}
		a.Choose()
		n := 0
		seen(a.Object(), func(c *canvas.Text) { n++; look("the list", c.Text) })
		if n < len(scene.Acts) {
			t.Fatalf("only %d texts in the list", n)
		}
		for _, designs := range [][]int{{0}, {1}, {0, 1}} {
			a.designs = designs
			for i, act := range scene.Acts {
				a.Show(i)
				n = 0
				seen(a.Object(), func(c *canvas.Text) { n++; look(act.Key, c.Text) })
				if n < 12 {
					t.Fatalf("%s: only %d texts are seen", act.Key, n)
				}
				look(act.Key, a.told(a.shown))
				look(act.Key, a.Words.EverydaySide(a.shown.cast[0].shown.Joint.Side()))
			}
		}
	}
}

// The words that could be shown are more than those of two hips.
func TestNoUnfitWordCanBeShown(t *testing.T) {
	w := present.English()
	for _, key := range []string{
		"explain_fixed", "explain_of", "explain_back", "explain_next", "explain_all", "explain_play", "explain_pause", "explain_step", "explain_picture",
		"explain_film", "explain_full", "explain_leave", "explain_touching", "explain_joint", "window_explain", "window_explain_help",
	} {
		if bad := unfit.FindString(w.Phrase(key)); bad != "" {
			t.Errorf("%s has %q in it", key, bad)
		}
	}
	for share := 0.0; share <= 1; share += 0.01 {
		for _, told := range []present.Told{{Touches: true, Share: share}, {Bone: true, Touches: true, Share: share}, {Room: unit.Angle(share) * 40 * unit.Degree}} {
			text := w.Told([]present.Told{told}, []int{0})
			if bad := unfit.FindString(text); bad != "" || strings.Contains(text, "[") || strings.Contains(text, "{") {
				t.Errorf("%q is said, with %q in it", text, bad)
			}
			if !strings.Contains(text, "about ") || !strings.Contains(text, "In this model") {
				t.Errorf("%q says a number without about, or not of what", text)
			}
		}
	}
	for _, word := range []string{"contact", "Flexion", "unsafe or safe", "the femoral neck", "12.5", "38°"} {
		if !unfit.MatchString(word) {
			t.Errorf("%q would pass", word)
		}
	}
}

func TestAllOfTheViewIsInLargeType(t *testing.T) {
	for _, size := range []fyne.Size{{Width: 1280, Height: 770}, {Width: 1024, Height: 670}} {
		a := openExplain(t, twoHips(hip.Right), size.Width, size.Height, bright())
		a.strip.Hide()
		for _, open := range []func(){func() {}, a.Choose} {
			open()
			seen(a.Object(), func(c *canvas.Text) {
				if c.Text != "" && c.TextSize < 24 {
					t.Errorf("%q is in %v points, want 24 or more", c.Text, c.TextSize)
				}
			})
		}
	}
}

func TestEveryBuiltInActivityIsShownOrLeftOut(t *testing.T) {
	leftOut := map[string]string{
		"extension_turned_out": "as turning_round", "golf_turned_out": "half a swing names nothing", "golf_turned_in": "half a swing names nothing",
		"cycling": "no bicycle is drawn", "lift_beside_foot": "as lift_between_feet", "lift_one_knee": "as kneel", "chair_seated_turned_out": "as cross_legged",
		"intimacy_flexed": "not for a picture", "chair_maxima": "measured twice", "walking_maxima": "measured twice", "simulator_cycle": "of a machine",
		"squat_heels_flat": "measured twice", "squat_greatest": "measured twice", "squat_after_replacement": "measured twice",
		"seated_recorded": "measured twice", "sit_to_stand_recorded": "measured twice", "squat_recorded": "measured twice",
	}
	for _, act := range session.BuiltIn().Activities {
		why, out := leftOut[act.Key]
		if shown := scene.ActByKey(act.Key) != nil; shown == (out || act.Category == motion.Manoeuvre) {
			t.Errorf("%s: shown %v, left out because %q", act.Key, shown, why)
		}
	}
}

func TestOneKeyStepsThroughTheActivities(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	press := func(k fyne.KeyName) string { a.TypedKey(&fyne.KeyEvent{Name: k}); return a.text.title.Text }
	first := a.text.title.Text
	names := []string{first}
	for range len(scene.Acts) - 1 {
		names = append(names, press(fyne.KeySpace))
	}
	slices.Sort(names)
	if n := len(slices.Compact(names)); n != len(scene.Acts) {
		t.Errorf("%d names in a round of %d activities", n, len(scene.Acts))
	}
	if got := press(fyne.KeyRight); got != first {
		t.Errorf("after a whole round %q, want %q", got, first)
	}
	press(fyne.KeySpace)
	if got := press(fyne.KeyLeft); got != first {
		t.Errorf("one on and one back is %q, want %q", got, first)
	}
	a.Choose()
	test.Tap(a.list.Content.(*fyne.Container).Objects[6].(fyne.Tappable).(fyne.CanvasObject).(interface {
		fyne.CanvasObject
		fyne.Tappable
	}))
	if a.text.title.Text != "Tying a shoe" || a.choice.Visible() {
		t.Errorf("picked %q, the list open: %v", a.text.title.Text, a.choice.Visible())
	}
}

// The movement stops where the model's neck and rim meet, and goes on to its end
// where they do not.
func TestThePersonStopsWhereTheModelTouches(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.designs = []int{0, 1}
	touched, free := 0, 0
	for i, act := range scene.Acts {
		a.Show(i)
		for _, m := range a.shown.cast {
			margin := m.shown.Joint.Margin(m.posture(m.place(m.stop)))
			r, _ := a.Motions.Requirement(&m.shown.Case, act.Key)
			least := m.shown.Joint.LeastOf(r.Paths)
			switch {
			case m.touches:
				touched++
				if math.Abs(margin.Degrees()) > 1e-6 || !m.lit(m.stop) || m.lit(m.stop-0.01) && m.stop > 0 {
					t.Errorf("%s: the margin where it stops, at %.3f, is %v°", act.Key, m.stop, margin.Degrees())
				}
			default:
				free++
				if m.stop != 1 || least.Margin <= 0 || m.told.Room != least.Margin || m.lit(1) {
					t.Errorf("%s: stops at %v, told %v°, least %v°", act.Key, m.stop, m.told.Room.Degrees(), least.Margin.Degrees())
				}
			}
			if touches := least.Margin <= kinematics.Touch; touches != m.touches {
				t.Errorf("%s: touches %v, least margin %v°", act.Key, m.touches, least.Margin.Degrees())
			}
		}
		a.end()
		if got := a.share(); math.Abs(got-a.shown.stop) > 1e-9 {
			t.Errorf("%s: shown at %v when it should rest at %v", act.Key, got, a.shown.stop)
		}
	}
	if touched < 5 || free < 5 {
		t.Errorf("%d joints touch and %d do not: too few to tell", touched, free)
	}
}

func TestTheSentenceSaysTheModelsNumber(t *testing.T) {
	w := present.English()
	for told, want := range map[present.Told]string{
		{Room: 12.4 * unit.Degree}: "about 12 degrees of room", {Room: 1.2 * unit.Degree}: "about 1 degree of room",
		{Room: 0.3 * unit.Degree}: "less than about 1 degree", {Touches: true, Share: 0.74}: "about three quarters of the way",
		{Touches: true, Share: 0.52}: "about half way", {Touches: true, Share: 0}: "about the start", {Touches: true, Share: 0.99}: "about the end of the movement",
		{Bone: true, Touches: true, Share: 0.35}: "the bone neck touches the edge of the cup about a third",
	} {
		if got := w.Told([]present.Told{told}, []int{0}); !strings.Contains(got, want) {
			t.Errorf("%+v is told as %q, want %q in it", told, got, want)
		}
	}
}

func TestWhereMovementIsNotWantedAPersonMovesByStepsOnly(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.Context.Still = true
	a.Show(6)
	at := a.share()
	if at != a.shown.stop {
		t.Errorf("begins at %v, want where it ends, %v", at, a.shown.stop)
	}
	for range 20 {
		a.wait(200 * time.Millisecond)
		if a.share() != at {
			t.Fatalf("moved by itself to %v", a.share())
		}
	}
	var steps []float64
	for range stillSteps + 1 {
		a.Play()
		steps = append(steps, a.share())
	}
	if steps[0] != 0 || !slices.IsSorted(steps) || math.Abs(steps[stillSteps]-a.shown.stop) > 1e-9 {
		t.Errorf("steps %v, want from 0 to %v", steps, a.shown.stop)
	}
	a.Context.Still = false
	a.Show(7)
	if a.wait(2 * time.Second); a.share() == 0 || !a.playing {
		t.Error("does not move although it is wanted again")
	}
	a.Context.Still = true
	if a.wait(time.Second); a.playing || a.share() != a.shown.stop {
		t.Error("goes on moving after movement was done without")
	}
}

func TestAPauseHoldsAndGoesOnFromThere(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.wait(explainRest + time.Second)
	was := a.share()
	a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyP})
	a.wait(5 * time.Second)
	if a.share() != was || was <= 0 || was >= 1 {
		t.Errorf("paused at %v and then at %v", was, a.share())
	}
	a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyP})
	if math.Abs(a.share()-was) > 1e-6 {
		t.Errorf("goes on from %v, want %v", a.share(), was)
	}
	a.wait(100 * time.Millisecond)
	if a.share() <= was {
		t.Error("does not go on")
	}
}

func TestAnotherViewStopsTheClock(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.Object().Hide()
	for range 10 {
		a.wait(100 * time.Millisecond)
	}
	if n := len(a.stage.later); n > 0 {
		t.Errorf("%d things are still to be done while it is not seen", n)
	}
}

func TestF11FillsTheScreenAndEscapeLeavesIt(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF11})
	if !a.window.FullScreen() || a.strip.Visible() {
		t.Errorf("full %v, strip %v", a.window.FullScreen(), a.strip.Visible())
	}
	a.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if a.window.FullScreen() || !a.strip.Visible() {
		t.Errorf("after Escape full %v, strip %v", a.window.FullScreen(), a.strip.Visible())
	}
}

func TestOneOrTwoJointsAreShown(t *testing.T) {
	a := openExplain(t, twoHips(hip.Right), 1280, 770, bright())
	a.toggle(1)
	if len(a.shown.cast) != 2 || !strings.Contains(a.Headline(), "Joint A: ") || !strings.Contains(a.Headline(), "Joint B: ") {
		t.Errorf("%d joints: %q", len(a.shown.cast), a.Headline())
	}
	a.toggle(0)
	a.toggle(1)
	if len(a.shown.cast) != 1 || a.shown.cast[0].design != 1 || strings.Contains(a.Headline(), "Joint") {
		t.Errorf("%d joints: %q", len(a.shown.cast), a.Headline())
	}
	a.Session.Remove()
	if len(a.designs) != 1 || a.designs[0] >= a.Session.Now().Case.Count {
		t.Errorf("after a design is gone %v are shown", a.designs)
	}
}

func TestALeftHipsPersonIsTheMirrorImage(t *testing.T) {
	var pictures [2]*image.RGBA
	for i, side := range []hip.Side{hip.Right, hip.Left} {
		a := openExplain(t, twoHips(side), 1280, 770, bright())
		a.Show(2)
		img := image.NewRGBA(image.Rect(0, 0, 300, 300))
		c := a.shown.camera
		new(scene.Renderer).Draw(img, c, scene.Light, a.shown.person(nil, 0.5))
		pictures[i] = img
	}
	same, mirrored := 0, 0
	for y := range 300 {
		for x := range 300 {
			p := pictures[0].RGBAAt(x, y)
			q, r := pictures[1].RGBAAt(299-x, y), pictures[1].RGBAAt(x, y)
			if near(int(p.R), int(q.R)) && near(int(p.B), int(q.B)) {
				mirrored++
			}
			if near(int(p.R), int(r.R)) && near(int(p.B), int(r.B)) {
				same++
			}
		}
	}
	if mirrored < 87000 || same >= mirrored {
		t.Errorf("of 90000 pixels %d are mirrored and %d the same", mirrored, same)
	}
}

func near(a, b int) bool { return max(a-b, b-a) < 40 }
