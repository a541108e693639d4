package report

import (
	"rimclear/app/present"
	"rimclear/kinematics"
)

// sharesTable has the shares of simulated placements, and how the least margin
// changes with what varies.
func sharesTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "share", "standard_error", "placements", "below_a_bound", "margin_deg"}
	for _, key := range kinematics.VariableKeys {
		t.Columns = append(t.Columns, key+"_sd_deg", key+"_slope_up", key+"_slope_down")
	}
	if !f.asked() {
		return
	}
	for _, d := range f.Designs {
		s := d.Share
		row := []any{present.Letter(d.Index), s.Share, s.StandardError, s.Placements, s.Uncovered, s.Margin.Degrees()}
		for k := range kinematics.VariableKeys {
			row = append(row, f.Case.Goal.SD[k].Degrees(), s.Slope[k].Up, s.Slope[k].Down)
		}
		t.add(row...)
	}
}

func failuresTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "motion", "title", "share_failing_first", "share_short"}
	if !f.asked() {
		return
	}
	names := f.motions()
	for _, d := range f.Designs {
		for i, r := range f.Required {
			t.add(present.Letter(d.Index), r.Key, names[i], d.Share.First[i], d.Share.Short[i])
		}
	}
}

func stabilityTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "load", "functional_inclination_deg", "functional_anteversion_deg", "load_to_floor_deg",
		"lateral_jump_mm", "least_jump_mm", "least_jump_clock_deg", "patch_centre_to_rim_mm", "patch_edge_to_rim_mm", "basis", "source"}
	for _, d := range f.Designs {
		for _, l := range kinematics.Loads {
			s := d.Joint.Stability(d.Design, l, kinematics.CobaltChrome)
			var centre, edge any
			if s.Patch.Known {
				centre, edge = s.Patch.Centre, s.Patch.Edge
			}
			t.add(present.Letter(d.Index), l.Key, s.Functional.Inclination.Degrees(), s.Functional.Anteversion.Degrees(),
				s.Psi.Degrees(), s.LateralJump, s.LeastJump, s.LeastAzimuth.Degrees(), centre, edge, l.Basis.Key(), f.Words.Source(l.Source))
		}
	}
}

func arcsTable(f *Facts, t *Table) {
	t.Columns = []string{"design", "arc", "arc_deg", "at_least", "standard_least_deg", "basis", "source"}
	for _, d := range f.Designs {
		for _, a := range d.Totals {
			t.add(present.Letter(d.Index), a.Key, a.Arc.Degrees(), a.Open, a.Least.Degrees(), a.Basis.Key(), f.Words.Source(a.Source))
		}
	}
}

func sourcesTable(f *Facts, t *Table) {
	t.Columns = []string{"of", "source", "basis"}
	for _, s := range f.sources() {
		t.add(s.all(f.Words), s.text, s.basis)
	}
}
