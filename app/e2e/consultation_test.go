package e2e

import (
	"bytes"
	"encoding/json"
	"image"
	"os"
	"path/filepath"
	"testing"
	"time"
)

// consultation is a program that is used as in a clinic, and how many actions
// its user has taken.
type consultation struct {
	*testing.T
	p       *Program
	w       Window
	actions int
}

// act does something a user does in one go and waits until the program tells
// of what was meant to come of it.
func (c *consultation) act(do func() error, what string, came func(State) bool) State {
	c.Helper()
	c.actions++
	if err := do(); err != nil {
		c.Fatal(err)
	}
	s, err := c.p.Await(what, patience, came)
	if err != nil {
		c.Fatalf("%s: %v (view %s, answer %q)", what, err, s.View, s.Answer)
	}
	return s
}

func (c *consultation) key(k Keysym, held ...Keysym) func() error {
	return func() error { return c.w.Key(k, held...) }
}

func (c *consultation) shoot(name string) *image.RGBA {
	c.Helper()
	return shoot(c.T, c.w, image.Rectangle{}, name)
}

// value returns a number of the first design in a state's case.
func value(t testing.TB, s State, key string) float64 {
	t.Helper()
	var c struct {
		Designs []map[string]any `json:"designs"`
	}
	if err := json.Unmarshal(s.Case, &c); err != nil {
		t.Fatal(err)
	}
	v, _ := c.Designs[0][key].(float64)
	return v
}

// The whole of a consultation in a real window: read the answer, aim the cup on
// the map, take everything back, leave and come back.
func TestAConsultation(t *testing.T) {
	p, w := open(t, 1280, 800)
	c := &consultation{T: t, p: p, w: w}
	first := state(t, p)
	if first.View != "explore" || first.Answer == "" {
		t.Errorf("the program starts in %q and answers %q", first.View, first.Answer)
	}
	target := c.act(c.key('t', Control), "the map", func(s State) bool { return s.View == "target" && s.Answer != "" })
	if c.actions > 3 {
		t.Errorf("the first answer on the motions took %d actions, want at most 3", c.actions)
	}
	c.shoot("4-target")

	board := place(t, p, "map")
	moved := c.act(func() error { return w.Drag(Left, Line(along(board, 0.5), along(board, 0.62), 15)...) },
		"a cup dragged on the map", func(s State) bool { return !bytes.Equal(s.Case, target.Case) })
	if a, b := value(t, target, "cup_inclination_deg"), value(t, moved, "cup_inclination_deg"); a == b {
		t.Errorf("the cup was dragged across the map and its inclination is still %v°", a)
	}
	c.shoot("5-cup-dragged")

	c.act(c.key('m', Control), "the designs side by side", func(s State) bool { return s.View == "compare" && s.Answer != "" })
	c.settled()
	c.shoot("6-compare")

	told := c.act(c.key('j', Control), "an activity for the patient", func(s State) bool { return s.View == "explain" && s.Answer != "" })
	c.act(c.key(ArrowRight), "the next activity", func(s State) bool { return s.Answer != "" && s.Answer != told.Answer })
	c.settled()
	c.shoot("7-explain")

	c.exports()

	for range 40 { // everything is taken back
		if err := w.Key('z', Control); err != nil {
			t.Fatal(err)
		}
	}
	c.act(c.key('e', Control), "the joint as it was", func(s State) bool { return s.View == "explore" && bytes.Equal(s.Case, first.Case) })

	c.act(func() error {
		slider := place(t, p, "cup_anteversion_deg")
		return w.Drag(Left, Line(along(slider, 0.5), along(slider, 0.7), 10)...)
	}, "a change before leaving", func(s State) bool { return !bytes.Equal(s.Case, first.Case) })
	changed := c.settled()
	closes(t, p, w)
	c.reopens(changed)
}

// exports saves a report by the keyboard alone.
func (c *consultation) exports() {
	c.Helper()
	path := filepath.Join(c.p.Home, "report.pdf")
	strike := func(keys ...Keysym) {
		for _, k := range keys {
			if err := c.w.Key(k); err != nil {
				c.Fatal(err)
			}
		}
		time.Sleep(time.Second)
	}
	if err := c.w.Key('p', Control); err != nil {
		c.Fatal(err)
	}
	strike()
	strike(Tab, Tab, Tab, ' ') // past paper and cancel
	strike(Tab, Tab, ' ')      // the name as it is proposed
	for end := time.Now().Add(stay); time.Now().Before(end); time.Sleep(100 * time.Millisecond) {
		if data, err := os.ReadFile(path); err == nil && bytes.HasPrefix(data, []byte("%PDF")) {
			strike()
			strike(Tab, ' ') // what was written is told
			return
		}
	}
	c.shoot("8-report-not-saved")
	c.Errorf("no report is saved at %s", path)
}

// settled returns the state once the last of a drag has been told.
func (c *consultation) settled() State {
	c.Helper()
	time.Sleep(time.Second) // the state file is written four times a second
	return state(c.T, c.p)
}

// reopens starts the program again in the same home: the case that was not
// saved is there again.
func (c *consultation) reopens(left State) {
	c.Helper()
	p, w := start(c.T, c.w.on, c.p.Home)
	if again := state(c.T, p); !bytes.Equal(again.Case, left.Case) {
		c.Errorf("after leaving and coming back the case is\n%s\nwant\n%s", again.Case, left.Case)
	}
	if os.Getenv("RIMCLEAR_E2E_OUT") != "" {
		shoot(c.T, w, image.Rectangle{}, "9-reopened")
	}
	closes(c.T, p, w)
}
