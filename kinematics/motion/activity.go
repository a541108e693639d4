package motion

import (
	"math"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Activity is what a person does with a hip, as joint angles with what each of
// them rests on. It holds no words: Key finds its everyday name; one from a
// user's file brings its own Name.
type Activity struct {
	Key      string
	Name     string // of a user's activity; "" for one built in
	Category Category
	Together Together
	Risk     Risk
	Zero     Zero
	// Mechanical says that the angles are those of the mechanical axis.
	Mechanical bool
	// Open says that the last leg goes on until contact: the limit is asked for,
	// and there is no target to be met.
	Open   bool
	Routes [][]Waypoint // unless the values are separate maxima
	Maxima Box          // if they are
	Source string
}

// Category is where a user looks for an activity.
type Category int

const (
	Everyday Category = iota
	Sport
	Manoeuvre // of an examiner, or of what is known to dislocate
	Gait
	CategoryCount
)

// CategoryKeys are the words for a category in files, in their order.
var CategoryKeys = []string{"everyday", "sport", "manoeuvre", "gait"}

// Key returns the word for the category in files.
func (c Category) Key() string { return CategoryKeys[c] }

// Risk is the side to which the head would dislocate.
type Risk int

const (
	NoRisk Risk = iota
	Posterior
	Anterior
	RiskCount
)

// RiskKeys are the words for a risk in files, in their order.
var RiskKeys = []string{"none", "posterior", "anterior"}

// Key returns the word for the risk in files.
func (r Risk) Key() string { return RiskKeys[r] }

// Together says whether the joint angles belong to one moment.
type Together int

const (
	Simultaneous Together = iota // measured at one moment
	Separate                     // each the greatest of its own: every corner of their box is tested
	Composite                    // put into one pose from several sources
	TogetherCount
)

// TogetherKeys are the words for simultaneous in files, in their order.
var TogetherKeys = []string{"yes", "no", "composite"}

// Key returns the word for it in files.
func (t Together) Key() string { return TogetherKeys[t] }

// Stated is an angle and what it rests on.
type Stated struct {
	Angle unit.Angle
	Basis Basis
}

// Waypoint is a posture on the way, by joint angle (flexion, adduction,
// internal rotation). Plane is that of a room-referred motion where the pelvis
// changes its posture on the way; hip.APP leaves it to the activity's zero.
type Waypoint struct {
	Angles [3]Stated
	Plane  hip.Plane
}

// Posture returns the waypoint's joint angles.
func (w Waypoint) Posture() hip.Posture {
	return hip.Posture{
		Flexion:          w.Angles[hip.Flexion].Angle,
		Adduction:        w.Angles[hip.Adduction].Angle,
		InternalRotation: w.Angles[hip.InternalRotation].Angle,
	}
}

// Span is from the least to the greatest value of one joint angle.
type Span struct{ Least, Most Stated }

// Box is the separate maxima of the three joint angles.
type Box [3]Span

// Basis returns the weakest basis of the activity's values. The end of an open
// leg is none of them.
func (a Activity) Basis() Basis {
	worst := Own
	for _, route := range a.Routes {
		if a.Open {
			route = route[:len(route)-1]
		}
		for _, w := range route {
			for _, v := range w.Angles {
				worst = max(worst, v.Basis)
			}
		}
	}
	if a.Together == Separate {
		for _, s := range a.Maxima {
			worst = max(worst, s.Least.Basis, s.Most.Basis)
		}
	}
	return worst
}

// Paths returns the motions of the activity: its routes, or the straight way
// from neutral to every corner of the box that zero and the stated maxima span.
func (a Activity) Paths(s Setting) []Path {
	if a.Together == Separate {
		return a.corners(s)
	}
	paths := make([]Path, len(a.Routes))
	for i, route := range a.Routes {
		planes := make([]hip.Plane, len(route))
		postures := make([]hip.Posture, len(route))
		for k, w := range route {
			planes[k], postures[k] = a.Zero.plane(w.Plane), w.Posture()
		}
		paths[i] = s.path(planes, postures, a.Mechanical)
	}
	return paths
}

func (a Activity) corners(s Setting) []Path {
	var paths []Path
	plane := a.Zero.plane(hip.APP)
	for _, f := range a.Maxima[hip.Flexion].ends() {
		for _, d := range a.Maxima[hip.Adduction].ends() {
			for _, r := range a.Maxima[hip.InternalRotation].ends() {
				corner := hip.Posture{Flexion: f, Adduction: d, InternalRotation: r}
				if corner != hip.Neutral {
					paths = append(paths, s.path([]hip.Plane{plane}, []hip.Posture{hip.Neutral, corner}, a.Mechanical))
				}
			}
		}
	}
	return paths
}

// ends returns the ends of the span that zero and the stated values cover.
func (s Span) ends() []unit.Angle {
	lo := min(0, s.Least.Angle, s.Most.Angle)
	hi := max(0, s.Least.Angle, s.Most.Angle)
	if lo == hi {
		return []unit.Angle{0}
	}
	return []unit.Angle{lo, hi}
}

// Range returns the least and greatest value of each joint angle that the
// activity states, for a line of text that describes it.
func (a Activity) Range() (least, most [3]unit.Angle) {
	if a.Together == Separate {
		for k, s := range a.Maxima {
			least[k], most[k] = min(0, s.Least.Angle, s.Most.Angle), max(0, s.Least.Angle, s.Most.Angle)
		}
		return least, most
	}
	for k := range least {
		least[k], most[k] = unit.Angle(math.Inf(1)), unit.Angle(math.Inf(-1))
		for _, route := range a.Routes {
			for _, w := range route {
				least[k], most[k] = min(least[k], w.Angles[k].Angle), max(most[k], w.Angles[k].Angle)
			}
		}
	}
	return least, most
}
