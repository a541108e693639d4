package view

import (
	"time"

	"rimclear/app/chart"
	"rimclear/app/playback"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Transport plays one motion by moving the session's posture; the bars of all
// views show it and steer it.
type Transport struct {
	*Context
	player *playback.Player
	now    motion.Requirement // what is in it
	loaded bool
	fitted fit
	traced tracing
	trace  playback.Trace
	bars   []*playbar
	pace   *pacer
	ticks  bool

	// Loaded is told which motion is in it.
	Loaded func(key string)
}

// fit is what a clip is made for.
type fit struct {
	tilts      hip.Tilts
	mechanical unit.Angle
}

// tracing is what a trace is made for.
type tracing struct {
	hip    kinematics.Hip
	design kinematics.Design
	key    string
	set    string
	fit    fit
}

// frame is how often the posture moves while it plays.
const frame = time.Second / 60

// samples is at how many moments the margin is drawn.
const samples = 241

func newTransport(c *Context) *Transport {
	t := &Transport{Context: c, player: playback.NewPlayer(c.Now)}
	t.pace = &pacer{Context: c, every: wordsEvery, do: t.retrace}
	c.Session.Watch(t.display)
	return t
}

// transport returns the one transport of a window.
func (c *Context) transport() *Transport {
	if c.Motions == nil {
		c.Motions = session.NewMotions().Follow(c.Session)
	}
	if c.Play == nil {
		c.Play = newTransport(c)
	}
	return c.Play
}

// Load puts a motion in and goes to its start.
func (t *Transport) Load(r motion.Requirement) {
	if len(r.Paths) == 0 {
		return
	}
	t.now, t.loaded = r, true
	s := t.Session.Now()
	t.player.Load(t.clip(s))
	t.fitted = t.fit(s)
	t.retrace()
	t.move()
	if t.Loaded != nil {
		t.Loaded(r.Key)
	}
}

// LoadKey puts the motion of a key in.
func (t *Transport) LoadKey(key string) {
	s := t.Session.Now()
	list, _ := t.Motions.Required(&s.Case)
	for _, r := range list {
		if r.Key == key {
			t.Load(r)
			return
		}
	}
	if r, ok := t.Motions.Requirement(&s.Case, key); ok {
		t.Load(r)
	}
}

func (t *Transport) fit(s *session.Snapshot) fit {
	return fit{s.Case.Hip.Tilts, s.Case.Goal.Mechanical}
}

// clip makes the motion ready for the patient on screen: a recording as it was,
// of several ways the one that comes closest to contact.
func (t *Transport) clip(s *session.Snapshot) playback.Clip {
	if r, ok := t.Motions.Recorded(t.now.Key); ok && t.now.Kind == motion.OfRecording {
		return playback.Timed(r.Recording, s.Case.Setting())
	}
	i := 0
	if len(t.now.Paths) > 1 {
		i = s.Joint.LeastOf(t.now.Paths).Path
	}
	return playback.Paced(t.now.Paths[i])
}

// display keeps up with a snapshot.
func (t *Transport) display(s *session.Snapshot) {
	if !t.loaded {
		return
	}
	if f := t.fit(s); f != t.fitted {
		t.fitted = f
		if t.now.Kind != motion.OfCriterion {
			if r, ok := t.Motions.Requirement(&s.Case, t.now.Key); ok {
				t.now = r
			}
		}
		t.player.Replace(t.clip(s))
	}
	if t.tracing(s) != t.traced {
		t.pace.wish()
	}
	t.refresh()
}

func (t *Transport) tracing(s *session.Snapshot) tracing {
	k := tracing{hip: s.Case.Hip, design: *s.Design(), key: t.now.Key, set: t.now.Set, fit: t.fitted}
	k.design.Name = ""
	return k
}

// retrace follows the motion with the joint on screen.
func (t *Transport) retrace() {
	s := t.Session.Now()
	t.traced = t.tracing(s)
	t.trace = playback.TraceOf(s.Joint, t.player.Clip(), samples)
	t.refresh()
}

// course is what is drawn along the scrub bar.
func (t *Transport) course() chart.Course {
	s := t.Session.Now()
	c := chart.Course{Times: t.trace.Times, Margins: t.trace.Margins, Stops: t.trace.Stops, Contact: t.trace.Contact,
		Now: t.player.Time(), Close: s.Case.Goal.Closeness}
	if clip := t.player.Clip(); !clip.Empty() {
		c.Here = s.Joint.On(clip.Path).Margin(clip.Path.At(clip.Place(c.Now)))
	}
	return c
}

// move takes the session's posture to where the motion is at.
func (t *Transport) move() {
	clip := t.player.Clip()
	if clip.Empty() {
		return
	}
	t.Session.Edit(session.Step{Key: "playback", Design: -1}, func(c *kinematics.Case) {
		*c = setPosture(*c, clip.Posture(t.player.Time(), c.Hip.PosturePlane, c.Hip.Tilts))
	})
	t.refresh()
}

func (t *Transport) refresh() {
	for _, b := range t.bars {
		b.display()
	}
}

// Toggle plays, or pauses.
func (t *Transport) Toggle() {
	if t.player.Playing() {
		t.player.Pause()
		t.refresh()
		return
	}
	if !t.loaded {
		return
	}
	t.player.Play()
	t.refresh()
	if !t.ticks {
		t.ticks = true
		t.After(frame, t.tick)
	}
}

func (t *Transport) tick() {
	on := t.player.Playing()
	t.move()
	if !on {
		t.ticks = false
		return
	}
	t.After(frame, t.tick)
}

// Seek goes to a time.
func (t *Transport) Seek(seconds float64) {
	t.player.Seek(seconds)
	t.move()
}

// Step goes on, or back, by a share of the whole.
func (t *Transport) Step(share float64) {
	t.player.Pause()
	t.Seek(t.player.Time() + share*t.player.Clip().Duration())
}

// slow is the speed of slow motion.
const slow = 0.25

// SetSlow plays in slow motion, or at the real speed.
func (t *Transport) SetSlow(on bool) {
	t.player.SetSpeed(1)
	if on {
		t.player.SetSpeed(slow)
	}
	t.refresh()
}
