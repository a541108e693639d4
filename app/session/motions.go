package session

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"sync"

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

// Recorded is a recording that was read in this session.
type Recorded struct {
	Key, Name string
	Risk      motion.Risk
	motion.Recording
}

// Motions is what there is to require: a library, and the recordings read in
// this session.
type Motions struct {
	Library    motion.Library
	Recordings []Recorded

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

// Required returns what a case requires, made ready for its patient: criteria,
// then activities in the order of the library, then recordings. lost are the
// keys of which nothing is known here. Both are the same slices until the case
// asks for something else, and must not be changed.
func (m *Motions) Required(c *kinematics.Case) (list []motion.Requirement, lost []string) {
	a := asked{c.Hip.Tilts, c.Goal.Mechanical, c.Goal.Motions, c.Goal.Criteria, len(m.Recordings)}
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
func (m *Motions) Recorded(key string) (Recorded, bool) {
	i := slices.IndexFunc(m.Recordings, func(r Recorded) bool { return r.Key == key })
	if i < 0 {
		return Recorded{}, false
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

// Add takes a recording in under a key made of its name, and returns the key.
func (m *Motions) Add(name string, risk motion.Risk, r motion.Recording) string {
	stem := plainKey(name)
	key := stem
	for n := 2; m.knows(key); n++ {
		key = fmt.Sprintf("%s_%d", stem, n)
	}
	m.Recordings = append(m.Recordings, Recorded{key, name, risk, r})
	return key
}

// plainKey makes a key of a name.
func plainKey(name string) string {
	key := strings.Map(func(c rune) rune {
		switch {
		case c >= 'a' && c <= 'z' || c >= '0' && c <= '9':
			return c
		case c >= 'A' && c <= 'Z':
			return c + 'a' - 'A'
		}
		return '_'
	}, name)
	key = "recorded_" + strings.Trim(key, "_")
	return strings.Trim(key[:min(len(key), 50)], "_")
}
