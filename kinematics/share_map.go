package kinematics

import (
	"context"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// ShareMap is the share of placements that meet every criterion at cup
// positions over the ranges of a grid, row by row from its lowest anteversion.
// Neighbours are tried with the same deviations, so that they differ by what
// they are and not by chance; each has a standard error of up to 3 %.
type ShareMap struct {
	Grid  Grid
	Share []float64
}

// SurveyShare fills a share map with side × side positions over the ranges of a
// grid of cup positions. Their angles are those of the grid's definition and
// plane, in which the deviations then are too. The error is a scatter that
// cannot be, or the context's.
func SurveyShare(ctx context.Context, s Simulation, g Grid, side int) (ShareMap, error) {
	g.Across.Count, g.Up.Count = side, side
	h := s.Hip
	s.Design.Cup = h.Restated(s.Design.Cup, g.Definition, g.Plane)
	s.Hip.CupPlane = g.Plane
	m := ShareMap{Grid: g, Share: make([]float64, side*side)}
	base, err := s.draw()
	if err != nil {
		return ShareMap{}, err
	}
	report := reporter(s.Progress, len(m.Share))
	err = share(ctx, s.Workers, len(m.Share), func() func(int) {
		own := base.copied()
		return func(i int) {
			at := Spot{unit.Angle(g.Across.At(i%side)) * unit.Degree, unit.Angle(g.Up.At(i/side)) * unit.Degree}
			m.Share[i] = float64(own.met(at, s.Seed, coarseRuns, coarsePoints)) / (coarseRuns * coarsePoints)
			report()
		}
	})
	if err != nil {
		return ShareMap{}, err
	}
	return m, nil
}

// Spot returns where a cup lies on a map of a definition and plane.
func (h Hip) Spot(c Cup, d hip.Definition, p hip.Plane) Spot {
	r := h.Restated(c, d, p)
	return Spot{r.Inclination, r.Anteversion}
}
