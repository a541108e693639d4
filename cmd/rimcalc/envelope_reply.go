package main

import (
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

func (a *envelopes) text(p *printer, w *present.Words) {
	p.label(&a.subject)
	for _, d := range a.designs {
		p.title(w, &a.subject, d.index)
		for _, s := range d.slices {
			held := third(s.region.Slice)
			p.gap(w.Phrase("calc_slice", "title", w.Phrase(slicePhrases[s.kind]),
				"held", w.JointAngle(held, s.region.Slice.Held.Angle(held)), "share", w.Percent(s.share, 1)))
			p.columns(s.lines(w))
		}
	}
	p.gap(w.Phrase("calc_envelope_note"))
	p.end(w, a.warnings(w))
}

// third returns the joint angle that a slice holds.
func third(s kinematics.Slice) hip.JointAngle {
	return hip.Flexion + hip.Adduction + hip.InternalRotation - s.Across.Angle - s.Up.Angle
}

// lines are the free ranges, the upward angle falling from line to line.
func (s sliced) lines(w *present.Words) [][]string {
	across, up := s.region.Slice.Across.Angle, s.region.Slice.Up
	var lines [][]string
	for k := up.Count - 1; k >= 0; k-- {
		lines = append(lines, []string{"  " + w.JointAngle(up.Angle, up.At(k)), stretchesText(w, across, s.free[k])})
	}
	return lines
}

func stretchesText(w *present.Words, across hip.JointAngle, list []stretch) string {
	var parts []string
	for _, x := range list {
		from, to := w.JointAngle(across, x.from), w.JointAngle(across, x.to)
		switch {
		case x.open && x.ends:
			parts = append(parts, w.Phrase("calc_free_all"))
		case x.open:
			parts = append(parts, w.Phrase("calc_free_to", "to", to))
		case x.ends:
			parts = append(parts, w.Phrase("calc_free_from", "from", from))
		default:
			parts = append(parts, w.Phrase("calc_free_between", "from", from, "to", to))
		}
	}
	if len(parts) == 0 {
		return w.Phrase("calc_free_nowhere")
	}
	return strings.Join(parts, "; ")
}

func (a *envelopes) sheet() sheet {
	t := sheet{columns: []string{"design", "name", "slice", "flexion_deg", "adduction_deg", "internal_rotation_deg",
		"margin_deg", "free", "thigh_anterior", "thigh_superior", "thigh_right"}}
	for _, d := range a.designs {
		for _, s := range d.slices {
			r := s.region.Slice
			for k := range r.Up.Count {
				for i := range r.Across.Count {
					p := r.Held.With(r.Up.Angle, r.Up.At(k)).With(r.Across.Angle, r.Across.At(i))
					margin, v := s.region.At(i, k), a.c.Hip.Side.Mirror(kinematics.ShaftDirection(p))
					t.add(present.Letter(d.index), a.c.Designs[d.index].Name, sliceKeys[s.kind],
						p.Flexion.Degrees(), p.Adduction.Degrees(), p.InternalRotation.Degrees(),
						margin.Degrees(), margin > kinematics.Touch, v.X, v.Y, v.Z)
				}
			}
		}
	}
	return t
}

// envelopeRecord is the JSON form.
type envelopeRecord struct {
	head
	Designs []envelopeDesign `json:"designs"`
	Note    string           `json:"note"`
}

type envelopeDesign struct {
	Design string        `json:"design"`
	Name   string        `json:"name"`
	Slices []sliceRecord `json:"slices"`
}

// sliceRecord is a slice, row by row from the least y.
type sliceRecord struct {
	Slice  string            `json:"slice"`
	Share  *float64          `json:"free_share"` // of its postures
	X      scaleRecord       `json:"x"`
	Y      scaleRecord       `json:"y"`
	Held   heldRecord        `json:"held"`
	Margin [][]*float64      `json:"margin_deg"`
	Free   [][]stretchRecord `json:"free_x"` // for each y
}

type heldRecord struct {
	Key   string   `json:"key"`
	Value *float64 `json:"value"`
}

type stretchRecord struct {
	From *float64 `json:"from_deg"`
	To   *float64 `json:"to_deg"`
	// Whether it begins and ends with the slice and not with contact.
	Open bool `json:"from_is_end_of_slice"`
	Ends bool `json:"to_is_end_of_slice"`
}

// angleKeys name the joint angles.
var angleKeys = [3]string{"flexion_deg", "adduction_deg", "internal_rotation_deg"}

func (a *envelopes) record(w *present.Words) (any, error) {
	h, err := a.head("envelope", w)
	r := envelopeRecord{head: h, Note: w.Phrase("calc_envelope_note")}
	for _, d := range a.designs {
		one := envelopeDesign{Design: present.Letter(d.index), Name: a.c.Designs[d.index].Name}
		for _, s := range d.slices {
			one.Slices = append(one.Slices, s.record())
		}
		r.Designs = append(r.Designs, one)
	}
	return r, err
}

func (s sliced) record() sliceRecord {
	axis := func(a kinematics.Axis) scaleRecord {
		r := scaleRecord{Key: angleKeys[a.Angle]}
		for i := range a.Count {
			r.Values = append(r.Values, degrees(a.At(i)))
		}
		return r
	}
	x := s.region.Slice
	held := third(x)
	r := sliceRecord{Slice: sliceKeys[s.kind], Share: rounded(s.share), X: axis(x.Across), Y: axis(x.Up),
		Held: heldRecord{angleKeys[held], degrees(x.Held.Angle(held))}}
	for k := range x.Up.Count {
		var row []*float64
		for i := range x.Across.Count {
			row = append(row, degrees(s.region.At(i, k)))
		}
		free := []stretchRecord{}
		for _, f := range s.free[k] {
			free = append(free, stretchRecord{degrees(f.from), degrees(f.to), f.open, f.ends})
		}
		r.Margin, r.Free = append(r.Margin, row), append(r.Free, free)
	}
	return r
}
