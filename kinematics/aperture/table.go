package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// table answers most "is this direction free?" at a glance. The free set is
// all directions outside the discs of a ring. Its near boundary is the ring
// offset by the discs' radius; the table holds it by azimuth, on the safe side,
// with the disc that makes it. What it cannot decide is left to the search.
type table struct {
	usable    bool
	cosLow    float64    // of the cone in which all is free
	inscribed unit.Angle // its half angle, 0 where the table is not usable
	cell      [cells]cell
	draft     *draft // while it is drawn
	bulge     unit.Angle
}

// draft is the boundary as it is drawn: the polar angles between which it runs
// in each cell.
type draft struct{ low, high [cells]unit.Angle }

// cell is one azimuth of the table.
type cell struct {
	cosFree    float64 // free where the cosine of the polar angle is above
	cosContact float64 // in contact where it is below
	disc       r3.Vec  // in contact within this disc
	cosDisc    float64
}

const (
	cells = 4096
	// safety is taken off the boundary: points of it lie at most about a degree
	// apart, so that its sagitta is below a fifth of this.
	safety = 0.03 * unit.Degree
	// pole is the polar angle below which azimuths change too fast to tabulate.
	pole = 4 * unit.Degree
)

func newTable() *table {
	t := &table{usable: true, draft: new(draft)}
	for i := range t.draft.low {
		t.draft.low[i] = 180 * unit.Degree
	}
	return t
}

// curve offsets a ring, which runs anticlockwise about the axis, by the radius
// of its discs towards the axis, and enters the result.
func (t *table) curve(g *ring) {
	n := len(g.point)
	pen := pen{table: t}
	var before r3.Vec
	for k := range n + 2 {
		i, j := k%n, (k+1)%n
		a, b := g.point[i], g.point[j]
		across := r3.Cross(a, b)
		length := r3.Norm(across)
		if len(g.radius) > 1 {
			t.uneven(g.disc(i), g.disc(j), length)
		}
		if length < 1e-9 {
			continue
		}
		normal := r3.Scale(1/length, across)
		sr, cr := g.disc(i).Sincos()
		pen.use(a, cr)
		if k > 0 && r3.Dot(before, normal) < bend {
			pen.turn(a, before, normal, sr, cr)
		}
		pen.to(offset(a, normal, sr, cr))
		if len(g.radius) > 1 {
			sr, cr = g.disc(j).Sincos()
		}
		pen.use(b, cr)
		pen.to(offset(b, normal, sr, cr))
		before = normal
	}
}

// uneven notes by how much the curve about two neighbouring discs bulges over
// what is drawn, since it leans towards the smaller. Where a disc stands beside
// a much smaller one, as at the end of a skirt, it is not drawn at all.
func (t *table) uneven(a, b unit.Angle, apart float64) {
	step := float64((a - b).Abs())
	if step < 1e-12 {
		return
	}
	if !(step < steepest*apart) {
		t.usable = false
		return
	}
	lean := step / apart
	t.bulge = max(t.bulge, max(a, b)*unit.Angle(1.2*(1/math.Sqrt(1-lean*lean)-1)))
}

// steepest is the change of a disc's radius per arc from which a curve is left
// to the search.
const steepest = 0.2

// bend is the cosine of the turn of a curve, 1°, beyond which its corner is
// drawn as an arc.
const bend = 0.99985

// offset moves a point by an arc along a normal to its curve.
func offset(a, normal r3.Vec, sin, cos float64) r3.Vec {
	return r3.Add(r3.Scale(cos, a), r3.Scale(sin, normal))
}

// pen draws the offset curve into the table.
type pen struct {
	table *table
	down  bool
	at    int
	polar unit.Angle
	disc  r3.Vec
	cos   float64
}

func (p *pen) use(disc r3.Vec, cos float64) { p.disc, p.cos = disc, cos }

// turn draws the arc about a corner, from one normal to the next.
func (p *pen) turn(a, from, to r3.Vec, sin, cos float64) {
	angle := between(from, to)
	steps := int(math.Ceil(float64(angle / unit.Degree)))
	for i := 1; i < steps; i++ {
		f := float64(i) / float64(steps)
		n := r3.Add(r3.Scale(1-f, from), r3.Scale(f, to))
		n = r3.Sub(n, r3.Scale(r3.Dot(n, a), a))
		if l := r3.Norm(n); l > 1e-9 {
			p.to(offset(a, r3.Scale(1/l, n), sin, cos))
		}
	}
}

// to draws to a point: every cell on the way takes the lower end.
func (p *pen) to(v r3.Vec) {
	at, polar := cellOf(v.X, v.Y), polar(v)
	if polar < pole {
		p.table.usable = false
	}
	if !p.down {
		p.down, p.at, p.polar = true, at, polar
	}
	step := (at - p.at + cells + cells/2) % cells
	step -= cells / 2
	low := min(polar, p.polar)
	dir := 1
	if step < 0 {
		dir = -1
	}
	for i := p.at; ; i = (i + dir + cells) % cells {
		d := p.table.draft
		if low < d.low[i] {
			d.low[i] = low
			p.table.cell[i].disc, p.table.cell[i].cosDisc = p.disc, p.cos
		}
		d.high[i] = max(d.high[i], polar, p.polar)
		if i == at {
			break
		}
	}
	p.at, p.polar = at, polar
}

// body marks the directions beyond the rim, which are in contact whatever the
// neck's width: ring is the rim's inner edge.
func (t *table) body(g *ring) {
	t.draft.high = [cells]unit.Angle{}
	at, last := 0, unit.Angle(0)
	for k := range len(g.point) + 1 {
		v := g.point[k%len(g.point)]
		to, polar := cellOf(v.X, v.Y), polar(v)
		if k == 0 {
			at, last = to, polar
		}
		for i := at; ; i = (i + 1) % cells {
			t.draft.high[i] = max(t.draft.high[i], polar, last)
			if i == to {
				break
			}
		}
		at, last = to, polar
	}
}

// close turns the boundaries into cosines, each cell as cautious as its
// neighbours. The shapes bulge over what is drawn by no more than short.
func (t *table) close(short unit.Angle) {
	safety := max(safety, short) + t.bulge
	least := 180 * unit.Degree
	d := t.draft
	for i := range t.cell {
		a, b := (i+1)%cells, (i+cells-1)%cells
		low, high := min(d.low[i], d.low[a], d.low[b]), max(d.high[i], d.high[a], d.high[b])
		least = min(least, low)
		t.cell[i].cosFree = max(0, low-safety).Cos()
		t.cell[i].cosContact = min(high+safety, 180*unit.Degree).Cos()
	}
	t.draft = nil
	t.cosLow = max(0, least-safety).Cos()
}

// look decides on a direction, given with its polar cosine, where it can.
func (t *table) look(u r3.Vec) (free, decided bool) {
	if u.Z > t.cosLow {
		return true, t.usable
	}
	if !t.usable {
		return false, false
	}
	c := &t.cell[cellOf(u.X, u.Y)]
	if u.Z > c.cosFree {
		return true, true
	}
	return false, u.Z < c.cosContact || r3.Dot(u, c.disc)-c.cosDisc > certain
}

// certain is by how much a cosine must be past a disc's edge to decide: well
// above rounding and the touch that counts as contact.
const certain = 1e-9

// cellOf returns the cell of an azimuth, counted by the diamond |x|+|y| = 1,
// which costs no arctangent.
func cellOf(x, y float64) int {
	s := math.Abs(x) + math.Abs(y)
	if s == 0 {
		return 0
	}
	d := y / s
	if x < 0 {
		d = 2 - d
	} else if d < 0 {
		d += 4
	}
	return min(int(d*(cells/4)), cells-1)
}
