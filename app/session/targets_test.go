package session

import (
	"sync"
	"testing"
	"time"

	"rimclear/app/casefile"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/unit"
)

// bench is a solver whose answers are noted as they come.
type targetBench struct {
	*Targets
	mu       sync.Mutex
	answers  []TargetAnswer
	asked    []TargetQuestion
	progress int
}

func newTargetBench(t testing.TB) *targetBench {
	b := &targetBench{}
	post := func(f func()) {
		b.mu.Lock()
		defer b.mu.Unlock()
		f()
	}
	b.Targets = NewTargets(post,
		func(q TargetQuestion, a TargetAnswer) { b.asked, b.answers = append(b.asked, q), append(b.answers, a) },
		func(Part, int, int) { b.progress++ })
	t.Cleanup(b.Close)
	return b
}

func (b *targetBench) await(t testing.TB, part Part) TargetAnswer {
	t.Helper()
	for end := time.Now().Add(time.Minute); time.Now().Before(end); time.Sleep(time.Millisecond) {
		b.mu.Lock()
		n := len(b.answers)
		if n > 0 && b.answers[n-1].Known > part {
			a := b.answers[n-1]
			b.mu.Unlock()
			return a
		}
		b.mu.Unlock()
	}
	t.Fatalf("part %d did not come in a minute", part)
	return TargetAnswer{}
}

func demo(t testing.TB) kinematics.Case {
	t.Helper()
	f, err := casefile.Decode(assets.Demo().Data)
	if err != nil {
		t.Fatal(err)
	}
	return f.Case
}

func questionOf(c kinematics.Case, design int, m *Motions) TargetQuestion {
	d := c.Designs[design]
	list, _ := m.Required(&c)
	return TargetQuestion{Hip: c.Hip, Goal: c.Goal, Design: d, Required: list, Aperture: aperture.Build(d.Rim, d.Neck)}
}

func TestATargetComesInPartsAndTheBestCupFirst(t *testing.T) {
	c, m := demo(t), NewMotions()
	b := newTargetBench(t)
	b.Layer = true
	b.Ask(questionOf(c, 0, m))
	a := b.await(t, LayerPart)
	for i, known := range []Part{AimPart, SharePart, MostPart, LayerPart} {
		if b.answers[i].Known != known+1 {
			t.Errorf("answer %d holds parts up to %d, want %d", i, b.answers[i].Known, known+1)
		}
	}
	if b.progress == 0 {
		t.Error("no progress was told")
	}
	if a.Target.Constrained.Margin < a.Share.Margin-1e-9 {
		t.Errorf("the best cup within the bounds has a margin of %.2f°, the placed one %.2f°",
			a.Target.Constrained.Margin.Degrees(), a.Share.Margin.Degrees())
	}
	if a.Most.Share.Share < a.Share.Share-4*a.Share.StandardError {
		t.Errorf("the position of the greatest share has %.3f, the placed one %.3f", a.Most.Share.Share, a.Share.Share)
	}
	if want := layerSide * layerSide; len(a.Layer.Share) != want {
		t.Errorf("the layer has %d positions, want %d", len(a.Layer.Share), want)
	}
}

// A layer's share at the placed cup is that of the placement itself, within
// what both may err.
func TestTheLayerAgreesWithThePlacementAtAPosition(t *testing.T) {
	c, m := demo(t), NewMotions()
	c.Designs[0].Cup.Inclination, c.Designs[0].Cup.Anteversion = 45*unit.Degree, 20*unit.Degree
	b := newTargetBench(t)
	b.Layer = true
	b.Ask(questionOf(c, 0, m))
	a := b.await(t, LayerPart)
	// 45 is the middle of 15 to 75, 20 is two thirds of -20 to 40.
	at := 16*layerSide + 12
	if got, want := a.Layer.Share[at], a.Share.Share; got < want-0.1 || got > want+0.1 {
		t.Errorf("share %.3f on the map, %.3f at the position", got, want)
	}
}

func TestTheLatestTargetWins(t *testing.T) {
	c, m := demo(t), NewMotions()
	b := newTargetBench(t)
	for i := range 20 {
		c.Designs[0].Stem.Anteversion = unit.Angle(i) * unit.Degree
		b.Ask(questionOf(c, 0, m))
	}
	b.await(t, MostPart)
	b.mu.Lock()
	defer b.mu.Unlock()
	for i, a := range b.answers {
		if a.Known > AimPart+1 && b.asked[i].Design.Stem.Anteversion != 19*unit.Degree && a.Known == PartCount {
			t.Errorf("stem version %.0f° was worked out to the end", b.asked[i].Design.Stem.Anteversion.Degrees())
		}
	}
	if last := b.asked[len(b.asked)-1]; last.Design.Stem.Anteversion != 19*unit.Degree {
		t.Errorf("the last answer is for stem version %.0f°", last.Design.Stem.Anteversion.Degrees())
	}
}

func TestNothingRequiredHasNoTarget(t *testing.T) {
	c, m := demo(t), NewMotions()
	c.Goal.Motions = ""
	b := newTargetBench(t)
	b.Ask(questionOf(c, 0, m))
	if a := b.await(t, AimPart); a.Target.Asked || a.Known != AimPart+1 {
		t.Errorf("answer %+v", a)
	}
}

func TestMotionsNobodyKnowsAreNamed(t *testing.T) {
	c, m := demo(t), NewMotions()
	c.Goal.Motions, c.Goal.Criteria = kinematics.JoinMotions("stoop", "gone_1"), "gone_2"
	list, lost := m.Required(&c)
	if len(list) != 1 || len(lost) != 2 {
		t.Errorf("%d motions, lost %q", len(list), lost)
	}
	again, _ := m.Required(&c)
	if &again[0] != &list[0] {
		t.Error("the list is made anew though nothing changed")
	}
	c.Hip.Tilts.Standing = 0.1
	if other, _ := m.Required(&c); &other[0] == &list[0] {
		t.Error("the list stays though the tilt changed")
	}
}

func BenchmarkTargetParts(b *testing.B) {
	c, m := demo(b), NewMotions()
	for i, name := range []string{"round", "oval"} {
		q := questionOf(c, i, m)
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				t := NewTargets(func(f func()) {}, nil, nil)
				t.aim(q)
			}
		})
	}
}
