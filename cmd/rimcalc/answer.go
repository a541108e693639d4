package main

import (
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// statusWords are the status words of a sweep.
var statusWords = map[kinematics.Status]string{
	kinematics.Stopped: "limit", kinematics.Free: "none", kinematics.StartsInContact: "contact_at_start",
}

// answer answers one row. The last aperture is taken where the shapes are the
// same.
func (c columns) answer(row inputRow, last **aperture.Aperture) outputRow {
	r := rowReader{columns: c, row: row.cells}
	id := r.text("id")
	if row.err != nil {
		return c.failed(row, id, row.err.Error())
	}
	if len(row.cells) != len(c.header) {
		return c.failed(row, id, countText(len(row.cells), len(c.header)))
	}
	q := r.question()
	if len(r.complaints) > 0 {
		said := make([]string, len(r.complaints))
		for i, x := range r.complaints {
			said[i] = x.String()
		}
		return c.failed(row, id, said...)
	}
	return outputRow{cells: append(q.answer(id, last), c.others(row.cells)...)}
}

func (c columns) failed(row inputRow, id string, complaints ...string) outputRow {
	return outputRow{cells: append([]string{harmless(id), "error", "", "", ""}, c.others(row.cells)...), complaints: complaints}
}

// answer returns the answer columns.
func (q question) answer(id string, last **aperture.Aperture) []string {
	if a := *last; a == nil || a.Rim() != q.design.Rim || a.Neck() != q.design.Neck {
		*last = aperture.Build(q.design.Rim, q.design.Neck)
	}
	j := kinematics.Assemble(q.hip, q.design, *last)
	path := q.movement.Path(q.start, q.end, hip.APP)
	l := j.Limit(path)
	cells := []string{harmless(id), statusWords[l.Status], "", "", q.intervals(path, l.Intervals)}
	if l.Status == kinematics.Stopped {
		cells[2] = q.reading(path, l.At)
		if !upright(j.CupAxis().Y) {
			cells[3] = present.Digits(l.Contact.Azimuth.Degrees(), 5)
		}
	}
	return cells
}

func (q question) reading(path motion.Path, at motion.Place) string {
	return present.Digits(q.movement.Reading(path, at).Degrees(), 5)
}

func (q question) intervals(path motion.Path, list []kinematics.Interval) string {
	parts := make([]string, len(list))
	for i, x := range list {
		parts[i] = q.reading(path, x.From) + ":" + q.reading(path, x.To)
	}
	return strings.Join(parts, ";")
}
