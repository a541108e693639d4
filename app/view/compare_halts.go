package view

import (
	"rimclear/app/playback"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// halt is where a design stops in a motion.
type halt struct {
	Stops  bool
	Time   float64        // s
	Moving hip.JointAngle // the joint angle that was moving
	Limit  unit.Angle     // its value there
}

// halts finds where each design stops in the motion that plays, away from the
// goroutine that draws.
type halts struct {
	*Context
	at     [kinematics.MaxDesigns]halt
	known  haltKey
	asked  haltKey
	solver *session.Latest[haltQuestion, [kinematics.MaxDesigns]halt]
	found  func()
}

// haltKey is all that the stops depend on.
type haltKey struct {
	of      tracing
	designs [kinematics.MaxDesigns]kinematics.Design
	count   int
}

type haltQuestion struct {
	key    haltKey
	clip   playback.Clip
	joints []kinematics.Joint
}

func newHalts(c *Context, found func()) *halts {
	h := &halts{Context: c, found: found}
	h.solver = session.NewLatest(solveHalts, c.Post, h.solved)
	return h
}

func solveHalts(q haltQuestion) (at [kinematics.MaxDesigns]halt) {
	for i, j := range q.joints {
		at[i] = haltOf(j, q.clip)
	}
	return at
}

// haltOf returns where a design stops in a motion.
func haltOf(j kinematics.Joint, c playback.Clip) halt {
	l := j.Limit(c.Path)
	if l.Status == kinematics.Free {
		return halt{}
	}
	h := halt{Stops: true, Moving: l.Moving, Limit: l.Angle}
	if l.Status == kinematics.Stopped {
		h.Time = c.Time(l.At)
	}
	return h
}

func (h *halts) solved(q haltQuestion, at [kinematics.MaxDesigns]halt) {
	h.known, h.at = q.key, at
	h.found()
}

func (h *halts) key(s *session.Snapshot) haltKey {
	k := haltKey{of: h.Play.tracing(s), count: s.Case.Count}
	k.of.design = kinematics.Design{}
	copy(k.designs[:], s.Case.Active())
	return k
}

// display has the stops found if they have changed.
func (h *halts) display(s *session.Snapshot) {
	if !h.Play.loaded {
		return
	}
	k := h.key(s)
	if k == h.asked {
		return
	}
	h.asked = k
	q := haltQuestion{key: k, clip: h.Play.player.Clip()}
	for i := range s.Case.Active() {
		q.joints = append(q.joints, h.Session.Joint(i))
	}
	h.solver.Ask(q)
}

// posture returns where the motion has left a design behind: its posture at its
// own contact. ok is false before that, and where the posture on screen is not
// the motion's.
func (h *halts) posture(s *session.Snapshot, i int) (p hip.Posture, ok bool) {
	t := h.Play
	if !t.loaded || h.known != h.asked || !h.at[i].Stops || t.player.Time() < h.at[i].Time {
		return p, false
	}
	clip := t.player.Clip()
	here := func(seconds float64) hip.Posture {
		c := setPosture(s.Case, clip.Posture(seconds, s.Case.Hip.PosturePlane, s.Case.Hip.Tilts))
		return c.Posture
	}
	if !onClip(s.Case.Posture, here(t.player.Time())) {
		return p, false
	}
	return clip.Posture(h.at[i].Time, s.Case.Hip.PosturePlane, s.Case.Hip.Tilts), true
}

// onClip reports whether two postures agree to what a motion is held to.
func onClip(a, b hip.Posture) bool {
	for k := hip.Flexion; k <= hip.InternalRotation; k++ {
		if (a.Angle(k) - b.Angle(k)).Abs() > 1e-6*unit.Degree {
			return false
		}
	}
	return true
}
