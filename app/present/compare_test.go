package present

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// rivals returns the default design and one changed from it, answered by the
// engine, with so much doubt in each limit.
func rivals(doubt unit.Angle, change func(*kinematics.Design)) []Rival {
	c := kinematics.Default()
	other := c.Designs[0]
	change(&other)
	var list []Rival
	for i, d := range []kinematics.Design{c.Designs[0], other} {
		j := kinematics.NewJoint(c.Hip, d)
		r := Rival{Letter: Letter(i), Ratio: d.HeadNeckRatio(), Verdict: j.Judge(nil, 0)}
		r.Theta, r.Round = j.Aperture.Theta()
		for _, q := range ComparedQuestions {
			r.Answers = append(r.Answers, j.Answer(c.Hip, q))
			r.Doubt = append(r.Doubt, doubt)
		}
		r.Jump = j.Stability(d, kinematics.Loads[0], kinematics.CobaltChrome).LeastJump
		list = append(list, r)
	}
	return list
}

// smallHead makes a head so small that the neck stops it within native ranges.
func smallHead(d *kinematics.Design) { d.Rim.HeadDiameter = 22 }

func TestEachChangeIsTheDifferenceOfTheValuesShown(t *testing.T) {
	list := rivals(0, smallHead)
	w, checked := English(), 0
	number := func(s string) (float64, bool) {
		s = strings.NewReplacer("−", "-", "°", "", " %", "", "›", "").Replace(s)
		v, err := strconv.ParseFloat(s, 64)
		return v, err == nil
	}
	for _, base := range []int{0, 1} {
		for _, r := range w.CompareRows(list, base) {
			c, b := r.Cells[1-base], r.Cells[base]
			if b.Change != "" {
				t.Errorf("%s: the base differs from itself by %s", r.Key, b.Change)
			}
			x, okX := number(c.Value)
			y, okY := number(b.Value)
			d, ok := number(c.Change)
			if !ok && c.Change == "" {
				d, ok = 0, true
			}
			if okX && okY && ok {
				checked++
				if math.Abs(x-y-d) > 0.11 {
					t.Errorf("%s: %s less %s is not %s", r.Key, c.Value, b.Value, c.Change)
				}
			}
		}
	}
	if checked < 16 {
		t.Errorf("only %d differences could be checked", checked)
	}
}

func TestALimitBeyondTheNativeRangeCountsOnlyUpToIt(t *testing.T) {
	list := rivals(0, func(d *kinematics.Design) { d.Rim.HeadDiameter = 36 })
	for k := range ComparedQuestions {
		a, b := list[0].Answers[k], list[1].Answers[k]
		d, ok := further(&list[1], &list[0], k)
		if a.BeyondNative() && b.BeyondNative() && (!ok || d != 0) {
			t.Errorf("%s: %v and %v, both beyond native, differ by %v", a.Question.Key, a.Reading, b.Reading, d)
		}
		if a.BeyondNative() && b.Reading == a.Reading {
			t.Errorf("%s does not change with the head", a.Question.Key)
		}
	}
}

func TestTheAnswerNamesTheDesignThatGoesFurtherAndWhatItCosts(t *testing.T) {
	w := English()
	list := rivals(2*unit.Degree, smallHead)
	text := w.Differs(list, 1, 0) // A beside the small head
	k, _ := extremes(&list[0], &list[1])
	d, _ := further(&list[0], &list[1], k)
	for _, want := range []string{"A ", w.Degrees(d) + " further", " than B.", "One standard deviation of placement moves this limit by 2.0°", "No limit compared here falls"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
	text = w.Differs(list, 0, 1) // and the other way round
	for _, want := range []string{"B goes no further than A", "loses " + w.Degrees(d)} {
		if !strings.Contains(text, want) {
			t.Errorf("%q lacks %q", text, want)
		}
	}
}

func TestMoreAnteversionBuysFlexionAndCostsExtension(t *testing.T) {
	w := English()
	c := kinematics.Default()
	base := func(d *kinematics.Design) { d.Rim.HeadDiameter = 22 }
	list := rivals(9*unit.Degree, base)
	turned := rivals(9*unit.Degree, func(d *kinematics.Design) { base(d); d.Cup.Anteversion += 8 * unit.Degree })
	list[0], list[1] = list[1], turned[1]
	list[0].Letter = "A"
	text := w.Differs(list, 0, 1)
	gain, loss := extremes(&list[1], &list[0])
	if gain < 0 || loss < 0 {
		t.Fatalf("a turned cup gains at %d and loses at %d; the case %+v does not show both", gain, loss, c.Designs[0].Cup)
	}
	lost, _ := further(&list[1], &list[0], loss)
	if want := "It costs " + w.Degrees(-lost); !strings.Contains(text, want) {
		t.Errorf("%q lacks %q", text, want)
	}
	if got, _ := further(&list[1], &list[0], gain); got <= 9*unit.Degree && !strings.Contains(text, "within placement error") {
		t.Errorf("a gain of %v with a doubt of 9°: %q does not say that it is within placement error", got, text)
	}
}

func TestAGainIsToldWithTheMarginItTakesFromTheOtherSide(t *testing.T) {
	w := English()
	base := func(d *kinematics.Design) { d.Rim.HeadDiameter = 22 }
	list := rivals(0, base)
	list[0], list[0].Letter = list[1], "A"
	list[1] = rivals(0, func(d *kinematics.Design) { base(d); d.Cup.Anteversion += 8 * unit.Degree })[1]
	list[0].Verdict.Anterior = kinematics.Flank{Known: true, Margin: 13.7 * unit.Degree}
	for _, tt := range []struct {
		left unit.Angle
		told bool
	}{{3.3 * unit.Degree, true}, {-2 * unit.Degree, true}, {13.2 * unit.Degree, false}, {20 * unit.Degree, false}} {
		list[1].Verdict.Anterior = kinematics.Flank{Known: true, Margin: tt.left}
		text := w.Differs(list, 0, 1)
		want := w.Degrees(13.7*unit.Degree-tt.left) + " of least margin with the risk forwards (left: " + w.Margin(tt.left) + ")"
		if strings.Contains(text, want) != tt.told || strings.Contains(text, "risk forwards") != tt.told {
			t.Errorf("13.7° forwards become %v: %q", tt.left, text)
		}
	}
}

func TestDesignsOfOneShapeAreCalledAlike(t *testing.T) {
	w := English()
	if got := w.Differs(rivals(0, func(*kinematics.Design) {}), 0, 1); !strings.HasPrefix(got, "No limit of B and A differs") {
		t.Errorf("equal designs: %q", got)
	}
	if got := w.Differs(rivals(0, smallHead)[:1], 0, 0); got != "" {
		t.Errorf("one design is compared: %q", got)
	}
}

func TestTheSocketNoteNamesWhatItCouldNotHold(t *testing.T) {
	w, c := English(), kinematics.Default()
	c.Count = 2
	c.Designs[1] = c.Designs[0]
	c.Designs[1].Rim.HeadDiameter = 60
	c.Hip.Socket = kinematics.Socket{Outer: 56, Shell: 4, LeastLiner: 4}
	if got := w.SocketNote(&c); !strings.Contains(got, "B: ") || !strings.Contains(got, "60 mm") || strings.Contains(got, "A: ") {
		t.Errorf("free, with a head of 60 mm in B: %q", got)
	}
	c.Designs[1].Rim.HeadDiameter = 36
	if got := w.SocketNote(&c); !strings.HasPrefix(got, "Free") || !strings.Contains(got, "would hold all") {
		t.Errorf("free, all fit: %q", got)
	}
	c.Hip.Socket.Rule = kinematics.SocketTied
	if got := w.SocketNote(&c); !strings.Contains(got, "held to one socket of 56 mm") {
		t.Errorf("tied: %q", got)
	}
}

func TestADesignInContactFromTheStartIsNotCalledAlike(t *testing.T) {
	w := English()
	wedged := func(d *kinematics.Design) { d.Neck.Diameter = d.Rim.HeadDiameter - 1 }
	list := rivals(0, wedged)
	if !list[1].stuck() || list[0].stuck() {
		t.Fatal("a neck nearly as wide as its head is to touch in neutral, the other not")
	}
	for _, text := range []string{w.Differs(list, 0, 1), w.Differs(list, 1, 0), w.Differs(list, 0, 0)} {
		if !strings.HasPrefix(text, "In B neck and rim touch in neutral already") {
			t.Errorf("said: %q", text)
		}
	}
	both := []Rival{list[1], list[1]}
	both[0].Letter = "A"
	if text := w.Differs(both, 0, 1); !strings.HasPrefix(text, "In both B and A") {
		t.Errorf("of two wedged designs: %q", text)
	}
}
