package chart

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// rimClock looks into the opening of the cup: the hours of the rim round the
// edge, the neck axis within by its angle from the cup axis.
var rimClock = Chart{
	Key:   "rim_clock",
	Title: rimTitle,
	Draw: func(s Subject, l Look) figure.Figure {
		l = l.complete()
		r := rimChart{page: newPage(s, l)}
		r.fields = sync.OnceValue(r.sample)
		r.tracks = sync.OnceValue(r.follow)
		r.layout()
		title := rimTitle(l.Words)
		return figure.Figure{
			Title: title, Alt: r.alt(title, r.sideWords()), Size: l.Size, Paper: l.Palette.Paper,
			Static: r.drawStatic, Marker: r.drawMarker, Plot: r.frame,
		}
	},
	Still: func(s Subject) hip.Posture {
		for _, d := range s.Designs {
			if !d.Joint.Aperture.Neck().Round() {
				return s.Posture // the free area turns with the neck
			}
		}
		return hip.Posture{}
	},
}

func rimTitle(w *present.Words) string { return w.Phrase("chart_rim_clock") }

// rimChart is one drawing of the rim. Its frame is in degrees of the neck axis
// from the cup axis: superior up, anterior to the right of a right hip and to
// the left of a left one.
type rimChart struct {
	page
	frame  figure.Frame
	reach  float64 // degrees at the clock's edge
	fields func() []figure.Field
	tracks func() []track
}

// rimCells is how many values of the margin lie across the clock.
const rimCells = 101

// The angle from the cup axis at the clock's edge, degrees: so far beyond the
// widest free direction, in steps, so that most designs of a kind share it.
const (
	rimRoom  = 15
	rimStep  = 30
	rimLeast = 60
	rimMost  = 150
)

// widest returns about how far from the cup axis the neck axis is free at
// most, in degrees: for designs that are not round, the rim's angle less the
// neck's half-width there.
func (r *rimChart) widest() float64 {
	most := 0.0
	for _, d := range r.Designs {
		a := d.Joint.Aperture
		if theta, round := a.Theta(); round {
			most = max(most, theta.Degrees())
			continue
		}
		for azimuth := unit.Angle(0); azimuth < 360*unit.Degree; azimuth += 15 * unit.Degree {
			edge := a.Rim().Face(azimuth).Corner[0]
			for _, roll := range []unit.Angle{0, 90 * unit.Degree} {
				most = max(most, (edge.Gamma() - a.Neck().Beta(roll, edge.Rho())).Degrees())
			}
		}
	}
	return most
}

func (r *rimChart) layout() {
	l := r.look
	r.reach = min(max(math.Ceil((r.widest()+rimRoom)/rimStep)*rimStep, rimLeast), rimMost)
	rows := (r.listed() + 1) / 2
	r.body.Max.Y -= float64(rows) * l.font(listScale).LineHeight()
	edge := 2.6 * l.Text // hours, and the words beside them
	across := figure.Axis{Min: -r.reach, Max: r.reach}
	if r.Hip.Side == hip.Left {
		across = figure.Axis{Min: r.reach, Max: -r.reach}
	}
	box := r.body.Trim(edge, 1.5*l.Text, edge, 1.8*l.Text)
	r.frame = figure.Frame{Box: box, X: across, Y: figure.Axis{Min: -r.reach, Max: r.reach}}.Square()
}

// inCup returns a neck in the cup at a posture whose zero is in a plane.
func inCup(j kinematics.Joint, p hip.Posture, zero hip.Plane) aperture.Pose {
	return poseOf(j.APPFromCup().Inverse().Mul(j.APPFromNeck(p, zero)))
}

// onClock returns where a direction in the cup's frame lies on the clock, in
// degrees from the cup axis: x towards anterior, y towards superior.
func onClock(u r3.Vec) figure.Point {
	h := math.Hypot(u.X, u.Y)
	if h == 0 {
		return figure.Point{}
	}
	polar := math.Atan2(h, u.Z) * 180 / math.Pi
	return figure.Pt(polar*u.Y/h, polar*u.X/h)
}

// offClock is the inverse of onClock.
func offClock(x, y float64) r3.Vec {
	polar := math.Hypot(x, y)
	if polar == 0 {
		return r3.Vec{Z: 1}
	}
	s, c := math.Sincos(polar * math.Pi / 180)
	return r3.Vec{X: s * y / polar, Y: s * x / polar, Z: c}
}

// sample returns the margin of each design over the clock, in degrees, of the
// neck turned there from the posture without rolling about its axis.
func (r *rimChart) sample() []figure.Field {
	v := figure.Span(-r.reach*1.02, r.reach*1.02, rimCells)
	fields := make([]figure.Field, len(r.Designs))
	atOnce(len(r.Designs), func(k int) {
		d := r.Designs[k]
		n, now := neckOf(d.Joint), inCup(d.Joint, r.Posture, r.Hip.PosturePlane)
		margin, fall := func(i, j int) float64 { return n.Margin(turned(now, offClock(v[i], v[j]))).Degrees() }, unbounded
		if n.Neck().Round() { // its roll does not matter, and the clock never shortens a turn
			margin = func(i, j int) float64 { return n.Margin(aperture.Pose{Axis: offClock(v[i], v[j])}).Degrees() }
			fall = turning(v, v, n.Rate())
		}
		fields[k] = sampled(v, v, margin, fall)
	})
	return fields
}

// unbounded is of margins that may fall by anything.
func unbounded(int, int) float64 { return math.Inf(1) }

// turned returns a pose whose axis is turned to u by the least rotation.
func turned(p aperture.Pose, u r3.Vec) aperture.Pose {
	c := r3.Dot(p.Axis, u)
	k := r3.Cross(p.Axis, u) // sine times the axis of the turn
	if c < -1+1e-12 {
		return aperture.Pose{Superior: p.Superior, Anterior: r3.Scale(-1, p.Anterior), Axis: u}
	}
	turn := func(v r3.Vec) r3.Vec { // Rodrigues
		return r3.Add(r3.Add(r3.Scale(c, v), r3.Cross(k, v)), r3.Scale(r3.Dot(k, v)/(1+c), k))
	}
	return aperture.Pose{Superior: turn(p.Superior), Anterior: turn(p.Anterior), Axis: u}
}

// place returns where a direction of the cup's frame lies on the surface.
func (r *rimChart) place(u r3.Vec) figure.Point {
	at := onClock(u)
	return r.frame.At(at.X, at.Y)
}

// hour returns the direction on the surface, in degrees as the reader sees it,
// of an azimuth on the rim. It runs clockwise on a right hip and anticlockwise
// on a left one.
func (r *rimChart) hour(azimuth unit.Angle) float64 {
	if r.Hip.Side == hip.Left {
		return 90 + azimuth.Degrees()
	}
	return 90 - azimuth.Degrees()
}

func (r *rimChart) radius() float64 { return r.frame.Box.W() / 2 }
