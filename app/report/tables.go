package report

import (
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// tables are all tables of a report, in the order of its pages. Another one is
// another line.
var tables = []struct {
	key  string
	fill func(*Facts, *Table)
}{
	{"designs", designsTable},
	{"placement", placementTable},
	{"limits", limitsTable},
	{"motions", motionsTable},
	{"targets", targetsTable},
	{"placements", sharesTable},
	{"first_to_fail", failuresTable},
	{"stability", stabilityTable},
	{"total_arcs", arcsTable},
	{"weighing", weighingTable},
	{"sources", sourcesTable},
}

// Tables returns every table of the report as data.
func (f *Facts) Tables() []Table {
	list := make([]Table, len(tables))
	for i, t := range tables {
		list[i] = Table{Key: t.key, Title: f.Words.Phrase(tableTitles[t.key]), about: f.about()}
		t.fill(f, &list[i])
	}
	return list
}

func (f *Facts) about() about { return about{f.Program, f.Fingerprint, f.Words.Caution()} }

// tableTitles are the phrases of the tables' titles.
var tableTitles = map[string]string{
	"designs": "report_designs", "placement": "report_placement", "limits": "report_limits",
	"motions": "report_motions", "targets": "report_targets", "placements": "report_shares",
	"first_to_fail": "report_first_to_fail", "stability": "report_stability",
	"total_arcs": "report_arcs", "weighing": "report_weighing", "sources": "report_sources",
}

// designsTable has every value of every design, and the values of the case
// they share.
func designsTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "name", "parameter", "title", "value", "choice", "unit"}
	row := func(letter, name string, p *kinematics.Parameter, v float64) {
		if p.Kind == kinematics.Choice {
			t.add(letter, name, p.Key, f.Words.Name(p.Key), nil, p.Choices[int(v)], nil)
			return
		}
		t.add(letter, name, p.Key, f.Words.Name(p.Key), v, nil, unitKeys[p.Unit])
	}
	for k := range kinematics.Parameters {
		if p := &kinematics.Parameters[k]; p.Scope == kinematics.OfCase {
			row("", "", p, p.Get(&f.Case, 0))
		}
	}
	for _, d := range f.Designs {
		for k := range kinematics.Parameters {
			if p := &kinematics.Parameters[k]; p.Scope == kinematics.OfDesign {
				row(present.Letter(d.Index), d.Design.Name, p, p.Get(&f.Case, d.Index))
			}
		}
	}
}

var unitKeys = map[kinematics.Unit]string{kinematics.Millimetre: "mm", kinematics.Degrees: "deg", kinematics.None: ""}

// placementTable has each cup in the three definitions of Murray and in every
// plane.
func placementTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "definition", "plane", "inclination_deg", "anteversion_deg", "as_stated"}
	definition, plane := kinematics.ParameterByKey("cup_definition"), kinematics.ParameterByKey("cup_plane")
	for _, d := range f.Designs {
		for k, def := range definition.Choices {
			for p, in := range plane.Choices {
				c := f.Case.Hip.Restated(d.Design.Cup, hip.Definition(k), hip.Plane(p))
				stated := hip.Definition(k) == d.Design.Cup.Definition && hip.Plane(p) == f.Case.Hip.CupPlane
				t.add(present.Letter(d.Index), def, in, c.Inclination.Degrees(), c.Anteversion.Degrees(), stated)
			}
		}
	}
}

func limitsTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "question", "title", "status", "reading", "limit_deg", "contact_clock_deg", "escape",
		"native_range_deg", "native_source", "beyond_native"}
	for _, d := range f.Designs {
		for _, a := range d.Answers {
			row, status := f.Words.Row(&f.Case, a), present.StatusKey(a)
			var limit, clock, native any
			if status == "limit" {
				limit = a.Reading.Degrees()
			}
			if status != "none" {
				clock = a.Limit.Contact.Azimuth.Degrees()
			}
			if a.Question.Native.Known() {
				native = a.Question.Native.Range.Degrees()
			}
			escape := ""
			if status != "none" {
				escape = strings.Join(present.DirectionKeys(a.Limit.Contact.Escape), " ")
			}
			t.add(present.Letter(d.Index), a.Question.Key, row.Question, status, row.Reading, limit, clock, escape,
				native, row.Source, a.BeyondNative())
		}
	}
}

func motionsTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "motion", "title", "standing", "margin_deg", "goes_to", "missing_deg", "clearance_mm",
		"contact_clock_deg", "detail", "risk", "basis", "basis_title", "source"}
	for _, d := range f.Designs {
		for i, row := range f.Words.OutcomeRows(f.Required, d.Verdict) {
			o, r := d.Verdict.Outcomes[i], f.Required[i]
			var margin, missing any
			goes := ""
			if o.Standing != kinematics.Asked {
				margin = o.Least.Margin.Degrees()
			} else {
				goes = row.Margin
			}
			if o.Standing == kinematics.Short && o.Reached {
				missing = o.Missing.Degrees()
			}
			t.add(present.Letter(d.Index), r.Key, row.Name, o.Standing.Key(), margin, goes, missing, o.Contact.Clearance,
				o.Contact.Azimuth.Degrees(), row.Detail, r.Risk.Key(), r.Basis.Key(), row.Basis, r.Source)
		}
	}
}

func targetsTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "round", "fits_a_hemisphere", "demanded_deg", "offered_deg", "definition", "plane",
		"best_inclination_deg", "best_anteversion_deg", "best_margin_deg", "within_bounds", "placed_margin_deg"}
	if !f.asked() {
		return
	}
	definition, plane := kinematics.ParameterByKey("cup_definition"), kinematics.ParameterByKey("cup_plane")
	for _, d := range f.Designs {
		var demanded, offered, inclination, anteversion, margin any
		if d.Target.Round && d.Target.Fits {
			demanded, offered = d.Target.Demanded.Degrees(), d.Target.Offered.Degrees()
		}
		if d.Target.Fits && d.Target.Reachable {
			best := d.Target.Constrained
			inclination, anteversion, margin = best.Cup.Inclination.Degrees(), best.Cup.Anteversion.Degrees(), best.Margin.Degrees()
		}
		t.add(present.Letter(d.Index), d.Target.Round, d.Target.Fits, demanded, offered,
			definition.Choices[d.Design.Cup.Definition], plane.Choices[f.Case.Hip.CupPlane],
			inclination, anteversion, margin, d.Target.Reachable, d.Verdict.Outcomes[d.Verdict.First].Least.Margin.Degrees())
	}
}
