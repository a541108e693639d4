package motion

import (
	"fmt"
	"io"

	"rimclear/kinematics/form"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Library is the activities and criteria sets there are to choose from.
type Library struct {
	Activities []Activity
	Criteria   []CriteriaSet
}

// What a library file says of itself, and how much it may hold.
const (
	LibraryFormat  = "rimclear-motions"
	LibraryVersion = 1

	mostBytes     = 2 << 20
	mostEntries   = 1000
	mostRoutes    = 64
	mostWaypoints = 200
	mostText      = 400
	mostName      = 80
)

// Read reads a library file. The error is form.Problems and names every value
// that is wrong, where it stands, and what is allowed; nothing is read in part.
//
// The file is JSON: {"format": "rimclear-motions", "version": 1, "activities":
// […], "criteria": […]}. Angles are in degrees, either {"value": 105, "basis":
// "found"} or a plain number, which is the user's own.
func Read(r io.Reader) (Library, error) {
	v, err := form.Read(r, mostBytes)
	if err != nil {
		return Library{}, err
	}
	l := reader{}
	l.library(v)
	if err := l.Problems.Err(); err != nil {
		return Library{}, err
	}
	return l.Library, nil
}

// With returns a library with the entries of another added. An entry whose key
// is taken is refused: a file cannot change what is built in.
func (l Library) With(other Library) (Library, error) {
	var problems form.Problems
	taken := func(place, key string) {
		problems = append(problems, form.Problem{Place: place, Value: key, Must: "the key is taken; choose another"})
	}
	for _, a := range other.Activities {
		if _, found := l.Activity(a.Key); found {
			taken("activities", a.Key)
		}
	}
	for _, s := range other.Criteria {
		if _, found := l.Set(s.Key); found {
			taken("criteria", s.Key)
		}
	}
	if err := problems.Err(); err != nil {
		return Library{}, err
	}
	return Library{
		Activities: append(l.Activities[:len(l.Activities):len(l.Activities)], other.Activities...),
		Criteria:   append(l.Criteria[:len(l.Criteria):len(l.Criteria)], other.Criteria...),
	}, nil
}

// Activity returns the activity with a key and whether there is one.
func (l Library) Activity(key string) (Activity, bool) {
	for _, a := range l.Activities {
		if a.Key == key {
			return a, true
		}
	}
	return Activity{}, false
}

// Set returns the criteria set with a key and whether there is one.
func (l Library) Set(key string) (CriteriaSet, bool) {
	for _, s := range l.Criteria {
		if s.Key == key {
			return s, true
		}
	}
	return CriteriaSet{}, false
}

// reader builds a library and collects what is wrong on the way.
type reader struct {
	form.Reader
	Library
}

func (l *reader) library(v form.Value) {
	top := l.Fields(v, "format", "version", "activities", "criteria")
	if !top.IsFormat(LibraryFormat, LibraryVersion) {
		return
	}
	for _, v := range top.List("activities", 0, mostEntries) {
		a := l.activity(v)
		if _, twice := l.Activity(a.Key); twice && a.Key != "" {
			l.Wrong(v, fmt.Sprintf("the key %q stands twice", a.Key))
		}
		l.Activities = append(l.Activities, a)
	}
	for _, v := range top.List("criteria", 0, mostEntries) {
		s := l.set(v)
		if _, twice := l.Set(s.Key); twice && s.Key != "" {
			l.Wrong(v, fmt.Sprintf("the key %q stands twice", s.Key))
		}
		l.Criteria = append(l.Criteria, s)
	}
}

func (l *reader) activity(v form.Value) Activity {
	f := l.Fields(v, "key", "name", "category", "simultaneous", "risk", "zero", "axis", "open", "from", "through",
		"routes", "maxima", "source")
	a := Activity{
		Key:        f.Key("key"),
		Name:       f.OneLine("name", mostName),
		Category:   Category(f.Word("category", CategoryKeys, 0)),
		Together:   Together(f.Word("simultaneous", TogetherKeys, 0)),
		Risk:       Risk(f.Word("risk", RiskKeys, 0)),
		Zero:       l.zero(f),
		Mechanical: f.Word("axis", []string{"shaft", "mechanical"}, 0) == 1,
		Open:       f.True("open"),
		Source:     f.OneLine("source", mostText),
	}
	for _, key := range []string{"category", "simultaneous", "risk", "source"} {
		f.Need(key)
	}
	if a.Together == Separate {
		l.maxima(f, &a)
		return a
	}
	if f.Has("maxima") {
		l.misplaced(f, "maxima", `belongs to "simultaneous": "no"`)
	}
	l.routes(f, &a)
	return a
}

func (l *reader) misplaced(f form.Fields, key, must string) {
	if v, ok := f.Find(key); ok {
		l.Wrong(v, must)
	}
}

// routes reads "routes", or the single route of "from" and "through".
func (l *reader) routes(f form.Fields, a *Activity) {
	start := Waypoint{}
	if from, ok := f.Find("from"); ok {
		start = l.waypoint(from, *a)
	}
	add := func(list []form.Value) {
		route := []Waypoint{start}
		for _, v := range list {
			route = append(route, l.waypoint(v, *a))
		}
		a.Routes = append(a.Routes, route)
	}
	if f.Has("routes") {
		l.misplaced(f, "through", `must be left out beside "routes"`)
		for _, v := range f.List("routes", 1, mostRoutes) {
			add(l.List(v, 1, mostWaypoints))
		}
		return
	}
	if v, ok := f.Need("through"); ok {
		add(l.List(v, 1, mostWaypoints))
	}
}

// angleKeys are the three joint angles in files, in the order of
// hip.JointAngle, and how far each may go.
var angleKeys = [3]struct {
	key  string
	most float64
}{{"flexion_deg", 180}, {"adduction_deg", 89}, {"internal_rotation_deg", 180}}

func (l *reader) waypoint(v form.Value, a Activity) (w Waypoint) {
	f := l.Fields(v, "flexion_deg", "adduction_deg", "internal_rotation_deg", "pelvis")
	for k, joint := range angleKeys {
		if v, ok := f.Need(joint.key); ok {
			w.Angles[k] = l.stated(v, -joint.most, joint.most)
		}
	}
	if v, ok := f.Find("pelvis"); ok {
		if a.Zero.Reference != RoomReference {
			l.Wrong(v, `belongs to motions whose zero is "room"`)
		}
		w.Plane = hip.Plane(1 + max(0, l.Word(v, PlaneKeys[1:])))
	}
	return w
}

func (l *reader) maxima(f form.Fields, a *Activity) {
	for _, key := range []string{"from", "through", "routes", "open"} {
		l.misplaced(f, key, `must be left out where "simultaneous" is "no"`)
	}
	v, ok := f.Need("maxima")
	if !ok {
		return
	}
	box := l.Fields(v, "flexion_deg", "adduction_deg", "internal_rotation_deg")
	for k, joint := range angleKeys {
		if v, ok := box.Find(joint.key); ok {
			a.Maxima[k] = l.span(v, joint.most)
		}
	}
	if len(box.Members) == 0 && box.Kind == form.Object {
		l.Wrong(v, "must have at least one of the three joint angles")
	}
}

// span reads one stated value, or a list of two.
func (l *reader) span(v form.Value, most float64) (s Span) {
	if v.Kind != form.List {
		s.Most = l.stated(v, -most, most)
		s.Least.Basis = s.Most.Basis
		return s
	}
	if ends := l.List(v, 2, 2); ends != nil {
		s.Least, s.Most = l.stated(ends[0], -most, most), l.stated(ends[1], -most, most)
		if s.Least.Angle > s.Most.Angle {
			l.Wrong(v, "the first must not be above the second")
		}
	}
	return s
}

// stated reads an angle in degrees, a plain number or {"value", "basis"}.
func (l *reader) stated(v form.Value, lo, hi float64) Stated {
	if v.Kind != form.Object {
		return Stated{Angle: unit.Angle(l.Number(v, lo, hi)) * unit.Degree}
	}
	f := l.Fields(v, "value", "basis")
	s := Stated{}
	if v, ok := f.Need("value"); ok {
		s.Angle = unit.Angle(l.Number(v, lo, hi)) * unit.Degree
	}
	if v, ok := f.Need("basis"); ok {
		s.Basis = Basis(max(0, l.Word(v, BasisKeys)))
	}
	return s
}

// zero reads {"from", "plane", "basis"}; without it the zero is the anterior
// pelvic plane's, which is an assumption.
func (l *reader) zero(f form.Fields) Zero {
	v, ok := f.Find("zero")
	if !ok {
		return Zero{Basis: Assumed}
	}
	f = l.Fields(v, "from", "plane", "basis")
	z := Zero{
		Reference: Reference(max(0, f.Word("from", ReferenceKeys, 0))),
		Basis:     Basis(max(0, f.Word("basis", BasisKeys, int(Own)))),
	}
	f.Need("from")
	plane, named := f.Find("plane")
	switch {
	case z.Tilted() && !named:
		f.Need("plane")
	case z.Tilted():
		z.Plane = hip.Plane(1 + max(0, l.Word(plane, PlaneKeys[1:])))
	case named:
		l.Wrong(plane, `belongs to motions whose zero is "posture" or "room"`)
	}
	return z
}

func (l *reader) set(v form.Value) CriteriaSet {
	f := l.Fields(v, "key", "name", "zero", "least", "source")
	s := CriteriaSet{Key: f.Key("key"), Name: f.OneLine("name", mostName), Zero: l.zero(f), Source: f.OneLine("source", mostText)}
	f.Need("source")
	if s.Zero.Reference == RoomReference {
		l.misplaced(f, "zero", "a threshold is a joint angle; its zero cannot be the room's")
	}
	v, ok := f.Need("least")
	if !ok {
		return s
	}
	least := l.Fields(v, MovementKeys...)
	for m := range MovementCount {
		if v, ok := least.Find(m.Key()); ok {
			s.Criteria = append(s.Criteria, Criterion{m, l.stated(v, 1, m.Farthest().Degrees())})
		}
	}
	if len(s.Criteria) == 0 && least.Kind == form.Object {
		l.Wrong(v, "must have at least one threshold")
	}
	return s
}
