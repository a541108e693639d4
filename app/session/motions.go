package session

import (
	"bytes"
	"slices"
	"sync"

	"rimclear/app/casefile"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// BuiltIn returns the activities and criteria that come with the program.
var BuiltIn = sync.OnceValue(func() motion.Library {
	var all motion.Library
	for _, data := range assets.Activities() {
		l, err := motion.Read(bytes.NewReader(data))
		if err == nil {
			all, err = all.With(l)
		}
		if err != nil {
			panic(err) // a test reads the same files
		}
	}
	return all
})

// Motions is what there is to require: a library, and the recordings the case
// on screen keeps.
type Motions struct {
	Library    motion.Library
	Recordings []casefile.Recording
	turns      int // grows when Recordings change

	last asked // what list answers
	list []motion.Requirement
	lost []string
}

// asked is all that a list of requirements depends on.
type asked struct {
	tilts      hip.Tilts
	mechanical unit.Angle
	motions    kinematics.Motions
	criteria   string
	recordings int
}

// NewMotions returns the built-in library without recordings.
func NewMotions() *Motions { return &Motions{Library: BuiltIn()} }

// Follow takes over the recordings of the case a session is at, now and
// whenever they change.
func (m *Motions) Follow(s *Session) *Motions {
	s.Watch(func(*Snapshot) { m.Keep(s.File().Recordings) })
	m.Keep(s.File().Recordings)
	return m
}

// Keep takes over the recordings of a case, which must not change afterwards.
func (m *Motions) Keep(list []casefile.Recording) {
	if !slices.EqualFunc(m.Recordings, list, casefile.Recording.Same) {
		m.Recordings = list
		m.turns++
	}
}

// Required returns what a case requires, made ready for its patient: criteria,
// then activities in the order of the library, then recordings. lost are the
// keys of which nothing is known here. Both are the same slices until the case
// asks for something else, and must not be changed.
func (m *Motions) Required(c *kinematics.Case) (list []motion.Requirement, lost []string) {
	a := asked{c.Hip.Tilts, c.Goal.Mechanical, c.Goal.Motions, c.Goal.Criteria, m.turns}
	if a != m.last || m.list == nil {
		m.last = a
		m.list, m.lost = m.require(c)
	}
	return m.list, m.lost
}

func (m *Motions) require(c *kinematics.Case) ([]motion.Requirement, []string) {
	list, lost := []motion.Requirement{}, []string(nil)
	if key := c.Goal.Criteria; key != "" {
		if set, ok := m.Library.Set(key); ok {
			list = append(list, set.Requirements()...)
		} else {
			lost = append(lost, key)
		}
	}
	keys := c.Goal.Motions.Keys()
	setting := c.Setting()
	for _, a := range m.Library.Activities {
		if slices.Contains(keys, a.Key) {
			list = append(list, a.Requirement(setting))
		}
	}
	for _, r := range m.Recordings {
		if slices.Contains(keys, r.Key) {
			list = append(list, r.Requirement(r.Key, r.Name, r.Risk, setting))
		}
	}
	for _, key := range keys {
		if !m.knows(key) {
			lost = append(lost, key)
		}
	}
	return list, lost
}

func (m *Motions) knows(key string) bool {
	if _, ok := m.Library.Activity(key); ok {
		return true
	}
	_, ok := m.Recorded(key)
	return ok
}

// Recorded returns the recording of a key and whether there is one.
func (m *Motions) Recorded(key string) (casefile.Recording, bool) {
	i := slices.IndexFunc(m.Recordings, func(r casefile.Recording) bool { return r.Key == key })
	if i < 0 {
		return casefile.Recording{}, false
	}
	return m.Recordings[i], true
}

// Requirement returns one motion of a key, required or not, made ready for the
// patient of a case.
func (m *Motions) Requirement(c *kinematics.Case, key string) (motion.Requirement, bool) {
	if r, ok := m.Recorded(key); ok {
		return r.Requirement(r.Key, r.Name, r.Risk, c.Setting()), true
	}
	a, ok := m.Library.Activity(key)
	return a.Requirement(c.Setting()), ok
}
