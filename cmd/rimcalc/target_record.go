package main

import (
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

type requirements = []motion.Requirement

// targetRecord is the JSON form.
type targetRecord struct {
	head
	Designs []targetDesign `json:"designs"`
}

type targetDesign struct {
	Design      string         `json:"design"`
	Name        string         `json:"name"`
	Serves      bool           `json:"serves"` // where the cup is placed
	Sentence    string         `json:"verdict"`
	Advice      string         `json:"advice"`
	Asked       int            `json:"motions_asked"`
	Met         int            `json:"met"`
	Close       int            `json:"close"`
	Short       int            `json:"short"`
	Least       *float64       `json:"least_margin_deg"`
	LeastMotion string         `json:"least_margin_motion"`
	Posterior   *float64       `json:"posterior_margin_deg"` // over motions that risk it
	Anterior    *float64       `json:"anterior_margin_deg"`
	Motions     []motionRecord `json:"motions"`
	Demanded    *float64       `json:"demanded_oscillation_deg"` // null where the bearing is not round
	Gap         *float64       `json:"demanded_gap_deg"`
	Offered     *float64       `json:"offered_oscillation_deg"`
	Fits        bool           `json:"fits_a_hemisphere"`
	Best        *aimRecord     `json:"best"`
	Reachable   bool           `json:"bounds_can_be_kept"`
	Constrained *aimRecord     `json:"constrained"`
	Cost        *float64       `json:"bounds_cost_deg"`
	HeadHere    neededRecord   `json:"smallest_head_here"`
	HeadBest    neededRecord   `json:"smallest_head_best"` // with the cup at its best within the bounds
	NeckHere    neededRecord   `json:"widest_neck_here"`
	NeckBest    neededRecord   `json:"widest_neck_best"`
	Zones       []zoneRecord   `json:"zones"`
	Map         *mapRecord     `json:"map,omitempty"`
}

// motionRecord is how a design stands to a motion.
type motionRecord struct {
	Motion    string   `json:"motion"`
	Name      string   `json:"name"`
	Standing  string   `json:"standing"`    // met, close, short, asked
	Margin    *float64 `json:"margin_deg"`  // null for a motion only asked about
	Missing   *float64 `json:"missing_deg"` // null unless short
	StoppedBy string   `json:"stopped_by,omitempty"`
	StoppedAt *float64 `json:"stopped_at_deg,omitempty"`
	Clock     *float64 `json:"contact_clock_deg"`
	Detail    string   `json:"detail"`
	Basis     string   `json:"basis"`
	Converted bool     `json:"zero_known"`
	Source    string   `json:"source"`
}

type aimRecord struct {
	Inclination *float64        `json:"inclination_deg"`
	Anteversion *float64        `json:"anteversion_deg"`
	Margin      *float64        `json:"margin_deg"`
	Axis        [3]float64      `json:"axis"` // anterior, superior, right of the patient
	Binding     []bindingRecord `json:"binding"`
}

type bindingRecord struct {
	Motion    string   `json:"motion"`
	Name      string   `json:"name"`
	Flexion   *float64 `json:"flexion_deg"`
	Adduction *float64 `json:"adduction_deg"`
	Rotation  *float64 `json:"internal_rotation_deg"`
}

type neededRecord struct {
	Size  *float64 `json:"size_mm"` // null where none in the range serves
	Bound bool     `json:"end_of_range"`
}

type zoneRecord struct {
	Zone   string `json:"zone"`
	Name   string `json:"name"`
	Inside bool   `json:"inside"`
	Basis  string `json:"basis"`
	Note   string `json:"note"`
}

func (a *targets) record(w *present.Words) (any, error) {
	h, err := a.head("target", w)
	r := targetRecord{head: h}
	for _, d := range a.designs {
		r.Designs = append(r.Designs, a.designRecord(w, d))
	}
	return r, err
}

func (a *targets) designRecord(w *present.Words, d aimed) targetDesign {
	f, v, t := a.serve(d), d.verdict, d.target
	r := targetDesign{
		Design: present.Letter(d.index), Name: a.c.Designs[d.index].Name, Serves: v.Serves(),
		Sentence: w.Serves(f), Advice: w.Aim(f),
		Asked: len(a.required) - v.Count[kinematics.Asked], Met: v.Count[kinematics.Met],
		Close: v.Count[kinematics.Close], Short: v.Count[kinematics.Short],
		Posterior: flank(v.Posterior), Anterior: flank(v.Anterior), Motions: a.motionRecords(w, v),
		Fits: t.Fits, Reachable: t.Reachable,
		HeadHere: needed(d.sizes.headHere), HeadBest: needed(d.sizes.head),
		NeckHere: needed(d.sizes.neckHere), NeckBest: needed(d.sizes.neck),
	}
	if v.First >= 0 {
		r.Least, r.LeastMotion = rounded(v.Outcomes[v.First].Least.Margin.Degrees()), present.RequirementKey(a.required[v.First])
	}
	for i, z := range w.ZoneRows(a.c.Hip, a.c.Designs[d.index]) {
		r.Zones = append(r.Zones, zoneRecord{z.Key, z.Name, z.Inside, kinematics.Zones[i].Basis.Key(), z.Note})
	}
	if t.Asked {
		a.aimRecords(w, t, &r)
	}
	if a.mapped && t.Asked {
		r.Map = a.mapRecord(&d.field)
	}
	return r
}

// aimRecords fills in what is known of the best cup.
func (a *targets) aimRecords(w *present.Words, t kinematics.Target, r *targetDesign) {
	if t.Round {
		r.Demanded, r.Gap, r.Offered = rounded(t.Demanded.Degrees()), rounded(t.Gap.Degrees()), rounded(t.Offered.Degrees())
	}
	if !t.Fits {
		r.Demanded, r.Gap, r.Offered = nil, nil, nil
		return
	}
	r.Best = a.aimRecord(w, t.Best)
	if t.Reachable {
		r.Constrained, r.Cost = a.aimRecord(w, t.Constrained), rounded(t.Cost().Degrees())
	}
}

func (a *targets) aimRecord(w *present.Words, x kinematics.Aim) *aimRecord {
	v := a.c.Hip.Side.Mirror(x.Axis)
	r := &aimRecord{rounded(x.Cup.Inclination.Degrees()), rounded(x.Cup.Anteversion.Degrees()), rounded(x.Margin.Degrees()),
		[3]float64{*rounded(v.X), *rounded(v.Y), *rounded(v.Z)}, nil}
	for _, e := range x.Binding {
		m := a.required[e.Moment.Motion]
		r.Binding = append(r.Binding, bindingRecord{present.RequirementKey(m), w.Requirement(m),
			rounded(e.Posture.Flexion.Degrees()), rounded(e.Posture.Adduction.Degrees()), rounded(e.Posture.InternalRotation.Degrees())})
	}
	return r
}

func (r *aimRecord) inclination() *float64 { return r.of(func() *float64 { return r.Inclination }) }
func (r *aimRecord) anteversion() *float64 { return r.of(func() *float64 { return r.Anteversion }) }
func (r *aimRecord) margin() *float64      { return r.of(func() *float64 { return r.Margin }) }

// of returns a value of an aim, nil where there is none.
func (r *aimRecord) of(value func() *float64) *float64 {
	if r == nil {
		return nil
	}
	return value()
}

func flank(f kinematics.Flank) *float64 {
	if !f.Known {
		return nil
	}
	return rounded(f.Margin.Degrees())
}

func needed(n kinematics.Needed) neededRecord {
	if !n.Found {
		return neededRecord{}
	}
	return neededRecord{rounded(n.Value), n.Bound}
}

// motionRecords are a verdict's outcomes.
func (s *subject) motionRecords(w *present.Words, v kinematics.Verdict) []motionRecord {
	var list []motionRecord
	for i, row := range w.OutcomeRows(s.required, v) {
		o, m := v.Outcomes[i], s.required[i]
		r := motionRecord{Motion: present.RequirementKey(m), Name: row.Name, Standing: o.Standing.Key(),
			Detail: row.Detail, Basis: m.Basis.Key(), Converted: m.Converted, Source: m.Source}
		if o.Standing != kinematics.Asked {
			r.Margin = rounded(o.Least.Margin.Degrees())
		}
		if stopped := o.Standing == kinematics.Short || o.Standing == kinematics.Asked && o.Limit.Status != kinematics.Free; stopped {
			movement, at := present.Signed(o.Limit.Moving, o.Limit.Angle)
			r.StoppedBy, r.StoppedAt = present.MovementKey(movement), degrees(at)
			r.Clock = degrees(o.Contact.Azimuth)
		}
		if o.Standing == kinematics.Short {
			r.Missing = degrees(o.Missing)
		}
		list = append(list, r)
	}
	return list
}

func degrees(a unit.Angle) *float64 { return rounded(a.Degrees()) }
