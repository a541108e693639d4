package main

import (
	"strconv"

	"rimclear/app/present"
)

// kindPhrases say what a file is.
var kindPhrases = map[fileKind]string{
	"": "calc_kind_unknown", caseFile: "calc_kind_case", libraryFile: "calc_kind_library",
	bearingsFile: "calc_kind_bearings", recordingFile: "calc_kind_recording",
}

func (a *checks) text(p *printer, w *present.Words) {
	for _, f := range a.files {
		kind := w.Phrase(kindPhrases[f.kind])
		for _, x := range f.problems {
			p.line(f.name + ": " + x.String())
		}
		for _, x := range f.notes {
			p.line(f.name + ": " + w.Phrase("calc_note", "note", x.String()))
		}
		switch n := len(f.problems); n {
		case 0:
			p.line(f.name + ": " + w.Phrase("calc_in_order", "kind", kind))
		case 1:
			p.line(f.name + ": " + w.Phrase("calc_wrong_one", "kind", kind))
		default:
			p.line(f.name + ": " + w.Phrase("calc_wrong_many", "kind", kind, "count", strconv.Itoa(n)))
		}
	}
	p.end(w, nil)
}

func (a *checks) sheet() sheet {
	t := sheet{columns: []string{"file", "kind", "severity", "line", "field", "value", "must"}}
	add := func(f checkedFile, severity string, list []finding) {
		for _, x := range list {
			var line any = x.Line
			if x.Line == 0 {
				line = ""
			}
			t.add(f.name, string(f.kind), severity, line, x.Field, x.Value, x.Must)
		}
	}
	for _, f := range a.files {
		add(f, "wrong", f.problems)
		add(f, "note", f.notes)
	}
	return t
}

// checkRecord is the JSON form.
type checkRecord struct {
	head
	Wrong int               `json:"wrong"` // of all files; with --strict notes count too
	Files []checkFileRecord `json:"files"`
}

type checkFileRecord struct {
	File     string    `json:"file"`
	Kind     string    `json:"kind"` // case, library, bearings, recording; "" where that cannot be told
	Problems []finding `json:"problems"`
	Notes    []finding `json:"notes"`
}

func (a *checks) record(w *present.Words) (any, error) {
	r := checkRecord{head: head{Format: "rimclear-check", Version: 1, Caution: w.Caution()}, Wrong: a.wrong()}
	for _, f := range a.files {
		one := checkFileRecord{f.name, string(f.kind), []finding{}, []finding{}}
		one.Problems, one.Notes = append(one.Problems, f.problems...), append(one.Notes, f.notes...)
		r.Files = append(r.Files, one)
	}
	return r, nil
}
