package view

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"rimclear/app/control"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
)

// panel is what one may change, in the order a surgeon thinks, driven wholly by
// the table of parameters.
type panel struct {
	*Context
	dials  map[string]*control.Dial
	picks  map[string]*control.Pick
	groups [kinematics.GoalGroup]*control.Group
	object fyne.CanvasObject

	neck implant.Neck // of which the shape is told
	told bool
}

// often are the parameters shown at once; the others when more is asked for.
var often = map[string]bool{
	"bearing": true, "head_diameter_mm": true, "neck_diameter_mm": true, "cup_arc_deg": true,
	"cup_definition": true, "cup_inclination_deg": true, "cup_anteversion_deg": true,
	"stem_anteversion_deg": true, "neck_shaft_deg": true,
	"side": true, "tilt_standing_deg": true,
	"flexion_deg": true, "adduction_deg": true, "internal_rotation_deg": true,
}

func newPanel(c *Context) *panel {
	p := &panel{Context: c, dials: map[string]*control.Dial{}, picks: map[string]*control.Pick{}}
	var main, rest [kinematics.GroupCount][]fyne.CanvasObject
	for k := range kinematics.Parameters {
		q := &kinematics.Parameters[k]
		if q.Group == kinematics.GoalGroup {
			continue // shown where the goal is
		}
		o := p.row(q)
		if often[q.Key] {
			main[q.Group] = append(main[q.Group], o)
		} else {
			rest[q.Group] = append(rest[q.Group], o)
		}
	}
	list := container.New(layout.NewCustomPaddedVBoxLayout(2))
	for g := range kinematics.GoalGroup {
		p.groups[g] = control.NewGroup(c.Words.Group(g), c.Words.Phrase("window_more"), main[g], rest[g])
		p.groups[g].OnFold = list.Refresh
		c.explainGroup(p.groups[g])
		list.Add(p.groups[g])
	}
	p.groups[kinematics.HipGroup].SetOpen(false)
	// The scroll bar has its own margin beside the rows.
	p.object = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, 4), list))
	return p
}

// row returns the widget of a parameter.
func (p *panel) row(q *kinematics.Parameter) fyne.CanvasObject {
	w := p.Words
	if q.Kind == kinematics.Choice {
		k := control.NewPick(w.Name(q.Key), w.Help(q.Key), w.Choices(q))
		k.Hint = p.Hint
		k.Change = func(i int) { p.Session.Set(q, float64(i)) }
		p.picks[q.Key] = k
		return k
	}
	d := control.NewDial(control.Spec{
		Name: w.Name(q.Key), Unit: w.Unit(q.Unit), Point: w.Point(),
		Help: w.Phrase("window_help", "help", w.Help(q.Key), "range", w.Range(q), "source", w.RangeSource(q)),
		Min:  q.Min, Max: q.Max, Step: q.Step, Default: q.Default, Decimals: 1, Optional: q.Optional,
		None:  w.Phrase("thigh_none"),
		Reset: w.Phrase("window_reset", "value", w.Value(q, q.Default)),
	})
	d.SetHint(p.Hint)
	d.Change = func(v float64) string {
		s := p.Session.Now()
		if f := q.Idle(s.Design(), s.Active, v); f != nil {
			return w.FaultText(*f) // and is not taken: it would stand in reports as if it counted
		}
		faults := p.Session.Set(q, v)
		s = p.Session.Now()
		if len(faults) == 0 && math.Abs(q.Get(&s.Case, s.Active)-v) > 1e-6 {
			return w.Phrase("window_no_effect")
		}
		return p.refusal(faults)
	}
	if joint := slices.Index(postureKeys[:], q.Key); joint >= 0 {
		d.Held = func(v float64) float64 { return p.held(q, hip.JointAngle(joint), v) }
	}
	p.dials[q.Key] = d
	return d
}

// held returns the angle at which the joint stops on its way to another.
func (p *panel) held(q *kinematics.Parameter, joint hip.JointAngle, v float64) float64 {
	if q.Check(v) != nil {
		return v // to be refused
	}
	from := p.Session.Now().Case.Posture
	to := from.With(joint, degrees(v))
	if at := p.hold(from, to); at != to {
		return at.Angle(joint).Degrees()
	}
	return v
}

// refusal says why a change was not taken.
func (p *panel) refusal(faults []kinematics.Fault) string {
	if len(faults) == 0 {
		return ""
	}
	return p.Words.FaultText(faults[0])
}

// display shows a snapshot's values.
func (p *panel) display(s *session.Snapshot) {
	p.displayNeck(s)
	for k := range kinematics.Parameters {
		q := &kinematics.Parameters[k]
		v := q.Get(&s.Case, s.Active)
		if q.Optional && q.Replaced(s.Design()) != "" {
			v = 0
		}
		if d, ok := p.dials[q.Key]; ok {
			d.Display(v)
		} else if k, ok := p.picks[q.Key]; ok {
			k.Display(int(v))
		}
	}
}
