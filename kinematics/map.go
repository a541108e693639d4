package kinematics

import (
	"context"
	"math"
	"runtime"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Scale is a parameter of the table that runs over Count values, in the unit
// of files and screen.
type Scale struct {
	Key      string
	From, To float64
	Count    int
}

// At returns the i-th value.
func (s Scale) At(i int) float64 {
	if s.Count < 2 {
		return s.From
	}
	return s.From + float64(i)*(s.To-s.From)/float64(s.Count-1)
}

// The two parameters that together place a cup.
const (
	inclinationKey = "cup_inclination_deg"
	anteversionKey = "cup_anteversion_deg"
)

const stemVersionKey = "stem_anteversion_deg"

// Grid is two parameters over which a map runs. Cup angles among them, and the
// one that is held, are those of Definition and Plane: the placed cup is
// restated in them first and stays where it is.
type Grid struct {
	Across, Up Scale
	Definition hip.Definition
	Plane      hip.Plane
}

// PlacementGrid is inclination across and anteversion up, as maps of cup
// positions usually run.
func PlacementGrid(d hip.Definition, p hip.Plane) Grid {
	return Grid{
		Across:     Scale{inclinationKey, 15, 75, 61},
		Up:         Scale{anteversionKey, -20, 40, 61},
		Definition: d, Plane: p,
	}
}

// VersionGrid is cup anteversion across and stem anteversion up, at the placed
// cup's inclination.
func VersionGrid(d hip.Definition, p hip.Plane) Grid {
	return Grid{
		Across:     Scale{anteversionKey, -20, 40, 61},
		Up:         Scale{stemVersionKey, -15, 45, 61},
		Definition: d, Plane: p,
	}
}

// PairGrid is any two numbers of the table, each over its whole range. Cup
// angles are those of the design and the case.
func PairGrid(across, up *Parameter, d hip.Definition, p hip.Plane) Grid {
	all := func(p *Parameter) Scale { return Scale{p.Key, p.Min, p.Max, 41} }
	return Grid{Across: all(across), Up: all(up), Definition: d, Plane: p}
}

// Mapped returns the parameters over which a map may run: the numbers on which
// a margin depends.
func Mapped() []*Parameter {
	var list []*Parameter
	for i := range Parameters {
		if p := &Parameters[i]; p.Kind == Number && p.Group != PostureGroup && p.Group != GoalGroup {
			list = append(list, p)
		}
	}
	return list
}

// Kind says what a map is of.
func (g Grid) Kind() MapKind {
	switch {
	case g.Across.Key == inclinationKey && g.Up.Key == anteversionKey:
		return CupMap
	case g.Across.Key == anteversionKey && g.Up.Key == stemVersionKey:
		return VersionMap
	}
	return PairMap
}

// MapKind is what a map is of.
type MapKind int

const (
	CupMap     MapKind = iota // cup positions
	VersionMap                // cup and stem version
	PairMap                   // any other two numbers
)

// Map is the worst margin over all required motions at every point of a grid,
// row by row from the lowest value of the upward scale, and the motion it
// belongs to.
//
// It is exact where motions move one joint angle at a time in a round bearing.
// Where several move together it may be 1e-4° off, and in other bearings 0.01°.
type Map struct {
	Grid   Grid
	Margin []unit.Angle
	Motion []int16 // index of the requirement, -1 where there is no bearing or nothing is asked
}

// NoBearing is the margin where the values make no bearing, such as a neck
// wider than its head.
const NoBearing = -180 * unit.Degree

// At returns margin and motion at the i-th value across and the k-th up.
func (m *Map) At(i, k int) (unit.Angle, int) {
	at := k*m.Grid.Across.Count + i
	return m.Margin[at], int(m.Motion[at])
}

func (m *Map) resize(g Grid) {
	m.Grid = g
	n := g.Across.Count * g.Up.Count
	if cap(m.Margin) < n {
		m.Margin, m.Motion = make([]unit.Angle, n), make([]int16, n)
	}
	m.Margin, m.Motion = m.Margin[:n], m.Motion[:n]
}

// Restated returns the same cup axis stated by another definition in another
// plane.
func (h Hip) Restated(c Cup, d hip.Definition, p hip.Plane) Cup {
	n := h.Tilts.APPFromPlane(h.CupPlane).Apply(hip.AxisBy(c.Definition, c.Inclination, c.Anteversion))
	i, a := hip.AnglesBy(d, h.Tilts.APPFromPlane(p).Inverse().Apply(n))
	return Cup{Definition: d, Inclination: i, Anteversion: a}
}

// Survey fills a map for one design of a case. It works on the given number of
// goroutines, 0 for as many as there are processors; the answer is the same for
// any. The error is the context's, if it ended first.
func Survey(ctx context.Context, c Case, design int, list []motion.Requirement, g Grid, workers int, into *Map) error {
	into.resize(g)
	d := &c.Designs[design]
	d.Cup = c.Hip.Restated(d.Cup, g.Definition, g.Plane)
	c.Hip.CupPlane = g.Plane
	s := surveyor{c: c, design: design, g: g, into: into,
		across: ParameterByKey(g.Across.Key), up: ParameterByKey(g.Up.Key)}
	s.trial = newTrial(c.Hip, *d, aperture.Build(d.Rim, d.Neck), list)
	if s.trial.Empty() {
		for i := range into.Margin {
			into.Margin[i], into.Motion[i] = 180*unit.Degree, -1
		}
		return ctx.Err()
	}
	work, pieces := s.rows, g.Up.Count
	if s.trial.round && s.placesCup() {
		work, pieces = s.tiles, (g.Up.Count+tile-1)/tile
	} else if s.inner(g.Up.Key) && !s.inner(g.Across.Key) {
		work, pieces = s.columns, g.Across.Count
	}
	return share(ctx, workers, pieces, work)
}

// share hands out the numbers from 0 to count to workers. Each worker gets its
// own function from start.
func share(ctx context.Context, workers, count int, start func() func(int)) error {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(workers, count) {
		all.Go(func() {
			do := start()
			for i := int(next.Add(1)) - 1; i < count && ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	all.Wait()
	return ctx.Err()
}

// surveyor fills a map.
type surveyor struct {
	c          Case
	design     int
	g          Grid
	across, up *Parameter
	trial      *trial
	into       *Map
}

func (s *surveyor) placesCup() bool {
	return s.across.Key == inclinationKey && s.up.Key == anteversionKey ||
		s.across.Key == anteversionKey && s.up.Key == inclinationKey
}

// inner reports whether a parameter only turns the cup, which costs least to
// change.
func (s *surveyor) inner(key string) bool { return key == inclinationKey || key == anteversionKey }

// tile is the side of the squares of cells whose arcs are culled together.
const tile = 6

// tiles fills a row of tiles of a map of cup positions. Of each tile's middle
// the arcs are kept that can be the farthest in any of its cells: an angle
// changes by no more than the axis turns.
func (s *surveyor) tiles() func(int) {
	d := s.trial.Demand
	kept := make([]int32, 0, len(d.arc))
	cos := make([]float64, len(d.arc))
	var axes [tile * tile]r3.Vec
	var at [tile * tile]int
	plane := s.c.Hip.Tilts.APPFromPlane(s.g.Plane)
	return func(row int) {
		for left := 0; left < s.g.Across.Count; left += tile {
			n := 0
			for k := row * tile; k < min((row+1)*tile, s.g.Up.Count); k++ {
				for i := left; i < min(left+tile, s.g.Across.Count); i++ {
					axes[n], at[n] = plane.Apply(s.axis(i, k)), k*s.g.Across.Count+i
					n++
				}
			}
			kept = d.cull(axes[:n], cos, kept[:0])
			for c := range n {
				s.into.Margin[at[c]], s.into.Motion[at[c]] = s.trial.of(kept, axes[c])
			}
		}
	}
}

// axis returns the cup axis of a cell in the grid's plane.
func (s *surveyor) axis(i, k int) r3.Vec {
	x, y := unit.Angle(s.g.Across.At(i))*unit.Degree, unit.Angle(s.g.Up.At(k))*unit.Degree
	if s.across.Key == anteversionKey {
		x, y = y, x
	}
	return hip.AxisBy(s.g.Definition, x, y)
}

// cull returns the arcs that can be the farthest from any of the axes.
func (d *Demand) cull(axes []r3.Vec, cos []float64, kept []int32) []int32 {
	middle := axes[len(axes)/2]
	reach := 1.0
	for _, n := range axes {
		reach = min(reach, r3.Dot(middle, n))
	}
	s, least := d.see(middle), 2.0
	for i := range d.arc {
		cos[i] = d.arc[i].Least(s[d.piece[i].zero])
		least = min(least, cos[i])
	}
	near := acos(least) - 2*acos(reach) - 1e-9
	for i, c := range cos {
		if near <= 0 || c <= math.Cos(near) {
			kept = append(kept, int32(i))
		}
	}
	return kept
}

// acos returns the angle of a cosine that rounding may have put out of range.
func acos(x float64) float64 { return math.Acos(max(-1, min(1, x))) }

// of returns the worst margin over some arcs, and its motion.
func (t *trial) of(kept []int32, n r3.Vec) (unit.Angle, int16) {
	s := t.see(n)
	cos, at := 2.0, int32(0)
	for _, i := range kept {
		if c := t.arc[i].Least(s[t.piece[i].zero]); c < cos {
			cos, at = c, i
		}
	}
	return t.theta - unit.Angle(acos(cos)), int16(t.piece[at].motion)
}

// rows fills a row of any map, columns a column.
func (s *surveyor) rows() func(int) {
	w := s.walker()
	return func(k int) {
		for i := range s.g.Across.Count {
			w.fill(i, k)
		}
	}
}

func (s *surveyor) columns() func(int) {
	w := s.walker()
	return func(i int) {
		for k := range s.g.Up.Count {
			w.fill(i, k)
		}
	}
}

// walker is a worker's own case and trial, changed as far as a cell differs
// from the one before.
type walker struct {
	*surveyor
	c     Case
	trial trial
	good  bool // the bearing is one
	last  hint
}

func (s *surveyor) walker() *walker {
	w := &walker{surveyor: s, c: s.c, trial: *s.trial, good: true}
	w.trial.Demand = s.trial.copied()
	return w
}

func (w *walker) fill(i, k int) {
	was := w.c
	d := &w.c.Designs[w.design]
	w.across.set(&w.c, d, w.g.Across.At(i))
	w.up.set(&w.c, d, w.g.Up.At(k))
	w.follow(&was.Hip, &was.Designs[w.design])
	at := k*w.g.Across.Count + i
	w.into.Margin[at], w.into.Motion[at] = NoBearing, -1
	if !w.good {
		return
	}
	n := w.c.Hip.Tilts.APPFromPlane(w.c.Hip.CupPlane).Apply(hip.AxisBy(d.Cup.Definition, d.Cup.Inclination, d.Cup.Anteversion))
	if w.trial.round {
		s := w.trial.see(n)
		cos, piece := w.trial.least(&s)
		w.into.Margin[at], w.into.Motion[at] = w.trial.theta-unit.Angle(acos(cos)), int16(w.trial.piece[piece].motion)
		return
	}
	worst := w.trial.search(n, &w.last, noFloor)
	w.into.Margin[at], w.into.Motion[at] = worst.Margin, int16(worst.Moment.Motion)
}

// follow brings the trial up to a changed case.
func (w *walker) follow(h *Hip, was *Design) {
	d := &w.c.Designs[w.design]
	if d.Rim != was.Rim || d.Neck != was.Neck {
		if w.good = len(d.faults(w.design)) == 0; w.good {
			w.trial.ap = aperture.Build(d.Rim, d.Neck)
			w.trial.theta, w.trial.round = w.trial.ap.Theta()
			if !w.trial.round && w.trial.tracks == nil {
				w.trial.tracks = newTracks(w.trial.list)
			}
		}
	}
	if d.Stem != was.Stem {
		w.trial.Restem(d.Stem)
		w.trial.neck = d.Stem.FemurFromNeck()
	}
	if w.c.Hip != *h {
		w.trial.Retilt(w.c.Hip.Tilts)
		w.trial.cupPlane = w.c.Hip.Tilts.APPFromPlane(w.c.Hip.CupPlane)
	}
}
