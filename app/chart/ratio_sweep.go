package chart

import (
	"math"
	"slices"
	"sync"

	"rimclear/app/figure"
	"rimclear/kinematics"
)

// swept is one drawing of a sweep.
type swept struct {
	page
	sweep  sweep
	panels [sweptPanels]panel
	curves func() []curve // one per design
}

// The panels: the oscillation angle, and three limits.
const sweptPanels = 4

// sweptKeys are the questions of the panels after the first.
var sweptKeys = [sweptPanels - 1]string{"flexion", "internal_at_90", "external_at_0"}

// panel is where one quantity is drawn.
type panel struct {
	box      figure.Rect // with its title and its labels
	question kinematics.Question
}

// curve is how far a design goes over the values of the sweep, in degrees; NaN
// where there is no such design, or no such angle.
type curve struct {
	x  []float64
	y  [sweptPanels][]float64
	at float64              // the design's own value
	is [sweptPanels]float64 // and how far it goes
}

func newSwept(w sweep, s Subject, l Look) *swept {
	c := &swept{page: newPage(s, l), sweep: w}
	c.body.Max.Y = c.look.Size.Y - 0.6*l.Text - l.font(0.92).LineHeight() - 0.2*l.Text
	c.foot.Y = c.body.Max.Y + 0.2*l.Text
	gap := 0.8 * l.Text
	wide, high := (c.body.W()-gap)/2, (c.body.H()-gap/2)/2
	for i := range c.panels {
		c.panels[i].box = figure.Box(c.body.Min.X+float64(i%2)*(wide+gap), c.body.Min.Y+float64(i/2)*(high+gap/2), wide, high)
		if i > 0 {
			c.panels[i].question = questionByKey(sweptKeys[i-1])
		}
	}
	c.curves = sync.OnceValue(c.follow)
	return c
}

func questionByKey(key string) kinematics.Question {
	i := slices.IndexFunc(kinematics.Questions, func(q kinematics.Question) bool { return q.Key == key })
	return kinematics.Questions[i]
}

// Values at which a design is asked; one whose rim or neck is not round takes
// some hundred times as long.
const (
	manyValues = 61
	fewValues  = 13
)

// follow asks each design over the values of the sweep.
func (c *swept) follow() []curve {
	list := make([]curve, len(c.Designs))
	for i, d := range c.Designs {
		list[i] = c.curve(d)
	}
	return list
}

func (c *swept) curve(d Design) curve {
	n := fewValues
	if _, round := d.Joint.Aperture.Theta(); round {
		n = manyValues
	}
	v := curve{at: c.sweep.value(d.Of), is: c.reach(d.Joint)}
	v.x = figure.Span(c.sweep.from, c.sweep.to, n)
	at := make([][sweptPanels]float64, n)
	atOnce(n, func(k int) { at[k] = c.other(d, v.x[k]) })
	for _, y := range at {
		for p := range y {
			v.y[p] = append(v.y[p], y[p])
		}
	}
	if v.at > c.sweep.from && v.at < c.sweep.to { // so that the curve passes through the design
		at, _ := slices.BinarySearch(v.x, v.at)
		v.x = slices.Insert(v.x, at, v.at)
		for p := range v.y {
			v.y[p] = slices.Insert(v.y[p], at, v.is[p])
		}
	}
	return v
}

// other asks the design that has another value.
func (c *swept) other(d Design, x float64) [sweptPanels]float64 {
	if other := c.sweep.with(d.Of, x); sound(other) {
		return c.reach(kinematics.NewJoint(c.Hip, other))
	}
	return nowhere
}

var nowhere = [sweptPanels]float64{math.NaN(), math.NaN(), math.NaN(), math.NaN()}

// plain is a case without faults that is tied to no socket.
var plain = sync.OnceValue(func() kinematics.Case {
	c := kinematics.Default()
	c.Hip.Socket.Rule = kinematics.SocketUntied
	return c
})

// sound reports whether there can be such a design.
func sound(d kinematics.Design) bool {
	c := plain()
	c.Designs[0] = d
	return len(kinematics.Validate(&c)) == 0
}

// reach returns the oscillation angle and the limits of a design, in degrees.
func (c *swept) reach(j kinematics.Joint) [sweptPanels]float64 {
	y := nowhere
	if theta, round := j.Aperture.Theta(); round {
		y[0] = 2 * theta.Degrees()
	}
	for p := range c.panels[1:] {
		if a := j.Answer(c.Hip, c.panels[p+1].question); a.Reached {
			y[p+1] = a.Reading.Degrees()
		}
	}
	return y
}

// sweptAxis returns the axis that holds a panel's curves, in steps of 20°; the
// passive range of native hips is on it where the curves come near.
func sweptAxis(list []curve, p int) figure.Axis {
	lo, hi := math.Inf(1), math.Inf(-1)
	look := func(v float64) {
		if !math.IsNaN(v) {
			lo, hi = min(lo, v), max(hi, v)
		}
	}
	for _, c := range list {
		for _, v := range c.y[p] {
			look(v)
		}
		look(c.is[p])
	}
	if lo > hi {
		lo, hi = 0, 40
	}
	const step = 20
	lo, hi = step*math.Floor(lo/step), step*math.Ceil(hi/step)
	return figure.Axis{Min: lo, Max: max(hi, lo+2*step), Unit: "°", Grid: true}
}
