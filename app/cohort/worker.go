package cohort

import (
	"bytes"
	"context"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// worker answers lines one after another. Nothing in it is shared with other
// workers but what does not change.
type worker struct {
	s     *Settings
	t     *table
	d     dialect
	given []given // of each column, for the line at hand
	tidy  bool    // each column is, see column.tidy

	cells   [][]byte
	scratch []byte
	texts   [][]byte // carried
	c       kinematics.Case
	line    int
	id      []byte
	fault   *Fault
	seen    int // lines, to tell values of this line from those of earlier ones

	tours   map[unit.Angle]*[hip.PlaneCount]*tour
	known   [kinematics.MaxDesigns]*aperture.Aperture
	exits   []float64 // per leg, of Demand.Limits
	stops   []unit.Angle
	motions *session.Motions
	asked   kinematics.Motions
	out     result
}

// given is a value that the line at hand gives.
type given struct {
	value float64
	line  int // in which it was given
}

func newWorker(s *Settings, t *table, d dialect) *worker {
	w := &worker{s: s, t: t, d: d, tidy: true, tours: map[unit.Angle]*[hip.PlaneCount]*tour{}, motions: session.NewMotions()}
	w.asked = kinematics.JoinMotions(s.Motions...)
	w.given = make([]given, len(t.columns))
	w.texts = make([][]byte, len(s.Carry))
	w.c = s.Base
	for i := range t.columns {
		w.tidy = w.tidy && t.columns[i].tidy()
	}
	w.out = newResult(s)
	return w
}

// answer appends the result of one line, and returns the fault if it is one.
func (w *worker) answer(to []byte, line []byte, number int) ([]byte, *Fault) {
	w.seen++
	w.line, w.id, w.fault = number, nil, nil
	for i := range w.texts {
		w.texts[i] = nil
	}
	w.c = w.s.Base
	if w.s.Format == NDJSON {
		w.object(line)
	} else {
		w.row(line)
	}
	if w.fault == nil {
		w.set()
	}
	if w.fault == nil && !w.plain() {
		w.validate()
	}
	w.out.begin(to, w)
	if w.fault == nil {
		for i := range w.c.Count {
			w.design(i)
		}
	}
	return w.out.end(w.fault != nil), w.fault
}

// wrong notes the first fault of the line.
func (w *worker) wrong(field string, value []byte, reason string) {
	if w.fault == nil {
		w.fault = &Fault{Line: w.line, Field: field, Value: shortened(value), Reason: reason}
	}
}

// row reads a line of CSV.
func (w *worker) row(line []byte) {
	var wrong string
	if w.cells, wrong = w.d.split(line, w.cells, &w.scratch); wrong != "" {
		w.wrong("", nil, wrong)
		return
	}
	if len(w.cells) != len(w.t.columns) {
		w.wrong("", nil, countText(len(w.cells), len(w.t.columns)))
		return
	}
	for i, cell := range w.cells {
		w.cell(i, cell)
	}
}

// cell takes the value of a column; an empty cell gives none.
func (w *worker) cell(i int, cell []byte) {
	c := &w.t.columns[i]
	switch {
	case c.carried >= 0:
		w.texts[c.carried] = cell
	case c.id:
		w.id = cell
	case len(cell) == 0:
	case c.p.Kind == kinematics.Choice:
		w.word(i, cell)
	default:
		v, ok := parse(cell, w.d.mark)
		if !ok && w.d.mark != '.' && bytes.IndexByte(cell, w.d.mark) < 0 {
			v, ok = parse(cell, '.')
		}
		if !ok {
			w.wrong(c.name, cell, allowed(c.p)+hint(cell, w.d))
			return
		}
		w.number(i, v, cell)
	}
}

// hint says what is the matter with a number that another program may have
// written.
func hint(cell []byte, d dialect) string {
	switch {
	case d.mark == '.' && bytes.Count(cell, []byte{','}) == 1 && len(bytes.Trim(cell, "+-,0123456789")) == 0:
		return ", with a decimal point (a decimal comma is read where semicolons separate the columns)"
	case bytes.IndexByte(cell, ',') >= 0 && bytes.IndexByte(cell, '.') >= 0:
		return ", without marks between thousands"
	}
	return ""
}

func (w *worker) word(i int, text []byte) {
	c := &w.t.columns[i]
	for k, key := range c.p.Choices {
		if len(key) == len(text) && bytes.EqualFold([]byte(key), text) {
			w.given[i] = given{float64(k), w.seen}
			return
		}
	}
	w.wrong(c.name, text, allowed(c.p))
}

func (w *worker) number(i int, v float64, text []byte) {
	p := w.t.columns[i].p
	if !(v >= p.Min && v <= p.Max || p.Optional && v == 0) && p.Check(v) != nil {
		w.wrong(w.t.columns[i].name, text, allowed(p))
		return
	}
	w.given[i] = given{v, w.seen}
}

// set puts the line's values into the case, in the order in which they follow
// each other.
func (w *worker) set() {
	for _, i := range w.t.order {
		if w.given[i].line != w.seen {
			continue
		}
		c, v := &w.t.columns[i], w.given[i].value
		for _, d := range c.designs {
			c.p.Put(&w.c, d, v)
		}
		if c.p.Key == definitionKey {
			w.needsAngles(c)
		}
	}
}

// definitionKey is of the choice that both angles of the cup follow.
const definitionKey = "cup_definition"

// needsAngles makes sure that a definition comes with the angles it defines: a
// value left out would be the default's, in a definition nobody chose.
func (w *worker) needsAngles(definition *column) {
	for _, key := range []string{"cup_inclination_deg", "cup_anteversion_deg"} {
		if !w.gives(key) && !w.gives(definition.name[:len(definition.name)-len(definitionKey)]+key) {
			w.wrong(key, nil, "must be given where "+definitionKey+" is")
		}
	}
}

func (w *worker) gives(name string) bool {
	i, ok := w.t.byName[name]
	return ok && w.given[i].line == w.seen
}

// plain reports whether nothing can be wrong between the values of the case:
// cylinders narrower than their heads in cups without features, which leave a
// direction free.
func (w *worker) plain() bool {
	if !w.tidyLine() || w.c.Hip.Socket.Rule != kinematics.SocketUntied {
		return false
	}
	for i := range w.c.Count {
		if theta, ok := cylinder(&w.c.Designs[i]); !ok || theta <= 0 {
			return false
		}
	}
	return true
}

// tidyLine reports whether each column that the line gives is tidy.
func (w *worker) tidyLine() bool {
	if w.tidy || w.s.Format != NDJSON {
		return w.tidy
	}
	for i := range w.t.columns {
		if w.given[i].line == w.seen && !w.t.columns[i].tidy() {
			return false
		}
	}
	return true
}

// cylinder returns the half angle of the free cone of a cylindrical neck in a
// cup whose face is cut along rays, 180° - A/2 - asin(d/D), and whether the
// design is of that kind and no other feature can be at fault.
func cylinder(d *kinematics.Design) (theta unit.Angle, ok bool) {
	r, n := &d.Rim, &d.Neck
	if n.Diameter <= 0 || n.Diameter >= r.HeadDiameter || d.Bearing == kinematics.DualMobility ||
		*n != (implant.Neck{Diameter: n.Diameter}) || *r != (implant.Rim{HeadDiameter: r.HeadDiameter, Arc: r.Arc, Wall: r.Wall}) {
		return 0, false
	}
	return 180*unit.Degree - r.Arc/2 - asin(n.Diameter/r.HeadDiameter), true
}

func (w *worker) validate() {
	faults := kinematics.Validate(&w.c)
	if len(faults) == 0 {
		return
	}
	f := faults[0]
	field := f.Key
	if f.Design >= 0 && w.c.Count > 1 {
		field = present.Letter(f.Design) + "." + f.Key
	}
	w.wrong(field, appendNumber(nil, f.Value), present.English().FaultText(f))
}

// design appends the answers of one design.
func (w *worker) design(i int) {
	d := &w.c.Designs[i]
	t := w.tour(d.Stem)
	theta, round := cylinder(d)
	var ap *aperture.Aperture
	if !round || w.s.judges() {
		ap = w.aperture(i)
		theta, round = ap.Theta()
	}
	axis := w.c.Hip.Tilts.APPFromPlane(w.c.Hip.CupPlane).Apply(hip.AxisBy(d.Cup.Definition, d.Cup.Inclination, d.Cup.Anteversion))
	var stop func(int) unit.Angle
	if round {
		w.round(t, d.Stem, axis, theta)
		stop = func(leg int) unit.Angle { return w.stops[leg] }
		w.out.cone(theta)
	} else {
		stop = w.search(t, d, axis, ap)
		w.out.cone(0)
	}
	for q := range kinematics.Questions {
		w.out.reading(t.read(q, stop))
	}
	if w.s.judges() {
		w.judge(d, ap)
	}
}

// round finds where the legs leave the free cone.
func (w *worker) round(t *tour, stem hip.Stem, axis r3.Vec, theta unit.Angle) {
	w.leave(t, stem, axis, theta)
	for i := range t.legs {
		w.stops[i] = unit.Angle(w.exits[i]) * t.legs[i].far
	}
}

// leave finds where the legs leave a cone about the cup axis.
func (w *worker) leave(t *tour, stem hip.Stem, axis r3.Vec, theta unit.Angle) {
	if n := len(t.legs); cap(w.stops) < n {
		w.stops, w.exits = make([]unit.Angle, n), make([]float64, n)
	}
	w.stops, w.exits = w.stops[:len(t.legs)], w.exits[:len(t.legs)]
	t.demand.Restem(stem)
	t.demand.Retilt(w.c.Hip.Tilts)
	t.demand.Limits(axis, theta, w.exits)
}

// search finds the contact of a bearing that is not round, leg by leg as they
// are asked for. Up to the edge of the cone inscribed in the aperture there is
// none.
func (w *worker) search(t *tour, d *kinematics.Design, axis r3.Vec, ap *aperture.Aperture) func(int) unit.Angle {
	w.leave(t, d.Stem, axis, ap.Inscribed())
	for i := range w.stops {
		w.stops[i] = -1
	}
	s := newSearch(w.c.Hip, d, kinematics.Assemble(w.c.Hip, *d, ap))
	return func(leg int) unit.Angle {
		if w.stops[leg] < 0 {
			w.stops[leg] = s.first(&t.legs[leg], unit.Angle(w.exits[leg])*t.legs[leg].far)
		}
		return w.stops[leg]
	}
}

// tour returns the questions' legs in the hip at hand.
func (w *worker) tour(stem hip.Stem) *tour {
	h := w.c.Hip
	planes := w.tours[h.GivenAdduction]
	if planes == nil {
		if len(w.tours) >= mostTours {
			clear(w.tours)
		}
		planes = new([hip.PlaneCount]*tour)
		w.tours[h.GivenAdduction] = planes
	}
	if planes[h.PosturePlane] == nil {
		planes[h.PosturePlane] = newTour(h, stem)
	}
	return planes[h.PosturePlane]
}

// mostTours bounds the tours kept, one for each adduction that lines give.
const mostTours = 100

// aperture returns that of design i, built anew where its shapes are not those
// of the line before.
func (w *worker) aperture(i int) *aperture.Aperture {
	d := &w.c.Designs[i]
	if a := w.known[i]; a == nil || a.Rim() != d.Rim || a.Neck() != d.Neck {
		w.known[i] = aperture.Build(d.Rim, d.Neck)
	}
	return w.known[i]
}

// judge appends how the design stands to what is required.
func (w *worker) judge(d *kinematics.Design, ap *aperture.Aperture) {
	w.c.Goal.Motions, w.c.Goal.Criteria = w.asked, w.s.Criteria
	list, _ := w.motions.Required(&w.c)
	j := kinematics.Assemble(w.c.Hip, *d, ap)
	w.out.verdicts(list, w.c.Goal.Closeness, func(r *motion.Requirement) unit.Angle { return j.LeastOf(r.Paths).Margin })
	if w.s.Target {
		t, _ := kinematics.FindTarget(context.Background(), kinematics.Search{ // never ended, so never an error
			Hip: w.c.Hip, Design: *d, Aperture: ap, Required: list, Bounds: w.c.Goal.Bounds(w.c.Hip, *d),
		})
		w.out.target(t)
	}
}
