package present

import (
	"math"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Told is what a patient is told of one joint in one activity. It holds no
// angle of the leg.
type Told struct {
	Bone    bool       // the neck is of bone, as under a resurfacing
	Touches bool       // neck and edge touch
	Share   float64    // how far through the movement they do, 0 to 1
	Room    unit.Angle // otherwise, what is left between them at the tightest
}

// ToldOf returns what is told of a design whose way through a movement ends in
// a touch, or at its tightest.
func ToldOf(d *kinematics.Design, touches bool, share float64, room unit.Angle) Told {
	return Told{Bone: d.Bearing == kinematics.Resurfacing, Touches: touches, Share: share, Room: room}
}

// Everyday returns the name by which a patient calls an activity.
func (w *Words) Everyday(activity string) string { return w.Phrase("explain_act_" + activity) }

// Told says what there is to be told: of one joint one plain sentence with a
// number, of several a line each, by the letters of their designs.
func (w *Words) Told(list []Told, designs []int) string {
	if len(list) == 1 {
		return w.Phrase("explain_one", "sentence", w.told(list[0]))
	}
	text := w.Phrase("explain_several")
	for i, t := range list {
		text += "\n" + w.Phrase("explain_joint_says", "joint", w.EverydayJoint(designs[i]), "sentence", w.told(t))
	}
	return text
}

// EverydayJoint returns how a patient calls the joint of the i-th design.
func (w *Words) EverydayJoint(i int) string { return w.Phrase("explain_joint", "letter", Letter(i)) }

func (w *Words) told(t Told) string {
	neck := "explain_metal_neck"
	if t.Bone {
		neck = "explain_bone_neck"
	}
	phrase, parts := "explain_room", []string{"neck", w.Phrase(neck), "angle", w.room(t.Room)}
	switch {
	case t.Touches && t.Share < 0.05:
		phrase = "explain_touches_start"
	case t.Touches && t.Share > 0.96:
		phrase = "explain_touches_end"
	case t.Touches:
		phrase, parts = "explain_touches", append(parts, "share", w.through(t.Share))
	case t.Room < unit.Degree:
		phrase = "explain_room_little"
	}
	return w.Phrase(phrase, parts...)
}

// room says an angle between two parts in whole degrees, at least one.
func (w *Words) room(a unit.Angle) string {
	n := math.Max(math.Round(a.Degrees()), 1)
	if n == 1 {
		return w.Phrase("explain_degree")
	}
	return w.Phrase("explain_degrees", "count", Digits(n, 0))
}

// shares are the parts of a movement that are named, in rising order.
var shares = []struct {
	share float64
	key   string
}{
	{0.1, "explain_tenth"}, {0.25, "explain_quarter"}, {1.0 / 3, "explain_third"}, {0.5, "explain_half"},
	{2.0 / 3, "explain_two_thirds"}, {0.75, "explain_three_quarters"}, {0.9, "explain_nine_tenths"},
}

// through says the named share that is nearest.
func (w *Words) through(share float64) string {
	best := shares[0]
	for _, s := range shares {
		if math.Abs(s.share-share) < math.Abs(best.share-share) {
			best = s
		}
	}
	return w.Phrase(best.key)
}

// EverydaySide returns the hip of a side as a patient calls it.
func (w *Words) EverydaySide(s hip.Side) string {
	if s == hip.Left {
		return w.Phrase("explain_left")
	}
	return w.Phrase("explain_right")
}
