package present

import (
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// BindingRow is a motion that leaves no more margin at a cup position.
type BindingRow struct {
	Key, Name string
	Posture   string // of the moment at which it does, in the motion's own zero
}

// BindingRows lists the motions that decide how good a cup position is, worst
// first, each moment once.
func (w *Words) BindingRows(required []motion.Requirement, a kinematics.Aim) []BindingRow {
	var rows []BindingRow
	for _, e := range a.Binding {
		if i := e.Moment.Motion; i >= 0 && i < len(required) {
			rows = append(rows, BindingRow{RequirementKey(required[i]), w.Requirement(required[i]), w.Angles(e.Posture)})
		}
	}
	return rows
}

// Angles says the joint angles of a posture as movements: "95.0° flexion,
// 10.0° abduction, 0.0° internal rotation".
func (w *Words) Angles(p hip.Posture) string {
	list := make([]string, 0, 3)
	for a := hip.Flexion; a <= hip.InternalRotation; a++ {
		list = append(list, w.shaftAngle(a, p.Angle(a)))
	}
	return w.list(list)
}

// AimLines returns the best cup, the best that keeps the bounds where there are
// any, and what they cost.
func (w *Words) AimLines(t kinematics.Target) []Line {
	if !t.Asked || !t.Fits {
		return nil
	}
	at := func(a kinematics.Aim) string {
		phrase := "best_at"
		if a.Margin <= kinematics.Touch {
			phrase = "calc_best_short"
		}
		return w.Phrase(phrase, "cup", w.Cup(a.Cup), "margin", w.Degrees(a.Margin.Abs()))
	}
	lines := []Line{{"best", w.Phrase("calc_best_free"), at(t.Best)}}
	switch {
	case !t.Bounded:
		lines[0].Name = w.Phrase("best_cup")
	case !t.Reachable:
		lines = append(lines, Line{"constrained", w.Phrase("calc_best_bound"), w.Phrase("aim_out_of_bounds")})
	default:
		lines = append(lines, Line{"constrained", w.Phrase("calc_best_bound"), at(t.Constrained)},
			Line{"cost", w.Phrase("calc_bounds_cost"), w.Degrees(t.Cost())})
	}
	return lines
}
