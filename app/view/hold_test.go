package view

import (
	"bytes"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

func TestAThighMovedByHandStopsAtContactUntilItIsToGoPast(t *testing.T) {
	e := open(t, 1280, 776)
	limit := 0.0
	for _, a := range e.Session.Now().Answers {
		if a.Question.Key == "flexion" {
			limit = a.Limit.Angle.Degrees()
		}
	}
	d := e.panel.dials["flexion_deg"]
	d.Entry().OnCommit(limit + 15)
	if got := e.get("flexion_deg"); math.Abs(got-limit) > 0.01 {
		t.Errorf("flexion asked past its limit of %.2f° stops at %.2f°", limit, got)
	}
	if s := e.Session.Now(); !s.Contact.InContact() || r3.Norm(e.centre.joint.levered(s)) != 0 {
		t.Errorf("where it stops, contact is %v and the head is levered %v", s.Contact.InContact(), e.centre.joint.levered(s))
	}
	d.Entry().OnCommit(limit - 20)
	if got := e.get("flexion_deg"); math.Abs(got-limit+20) > 1e-6 {
		t.Errorf("from contact back to %.2f° it goes to %.2f°", limit-20, got)
	}
	e.TogglePast()
	d.Entry().OnCommit(limit + 15)
	if got := e.get("flexion_deg"); math.Abs(got-limit-15) > 1e-6 {
		t.Errorf("let past contact, flexion asked to %.2f° goes to %.2f°", limit+15, got)
	}
	s := e.Session.Now()
	at, rim := e.centre.joint.levered(s), s.Contact.RimPoint
	if r3.Dot(at, s.Joint.CupAxis()) <= 0 {
		t.Errorf("past contact the head is levered to %v, not out of the cup", at)
	}
	if got, want := r3.Norm(r3.Sub(at, rim)), r3.Norm(rim); math.Abs(got-want) > 1e-6 {
		t.Errorf("past contact the head is %.3f mm from the rim it pivots on, seated %.3f mm", got, want)
	}
}

func TestAHandOnTheThighBringsItWhereThePointerIs(t *testing.T) {
	for _, side := range []hip.Side{hip.Right, hip.Left} {
		e := open(t, 1280, 776)
		e.Session.Set(kinematics.ParameterByKey("side"), float64(side))
		o := e.Picture()
		size := o.Size()
		lens := o.Camera().Lens(int(size.Width), int(size.Height))
		s := e.Session.Now()
		shaft, held := r3.Vec{Y: -150}, false
		var x, y float64
		for !held && shaft.Z < 90 { // the shaft runs outwards of the head
			shaft.Z += 5
			x, y, _, _ = lens.Project(s.Joint.APPFromFemur(hip.Neutral, s.Case.Hip.PosturePlane).Apply(shaft))
			held = o.Grip(lens.Ray(x, y))
		}
		if !held {
			t.Fatalf("side %v: nothing is held at the shaft", side)
		}
		to := hip.Posture{Flexion: 50 * unit.Degree, Adduction: -10 * unit.Degree}
		for i := range 40 {
			way := hip.Neutral.Toward(to, float64(i+1)/40)
			x, y, _, _ = lens.Project(s.Joint.APPFromFemur(way, s.Case.Hip.PosturePlane).Apply(shaft))
			eye, direction := lens.Ray(x, y)
			o.Haul(eye, direction, 0)
		}
		p := e.Session.Now().Case.Posture
		if math.Abs((p.Flexion-to.Flexion).Degrees()) > 8 || math.Abs((p.Adduction-to.Adduction).Degrees()) > 8 {
			t.Errorf("side %v: pulled to where the shaft has flexion 50°, adduction -10°, the posture is %.1f°, %.1f°",
				side, p.Flexion.Degrees(), p.Adduction.Degrees())
		}
		if o.Grip(lens.Ray(2, 2)) {
			t.Errorf("side %v: the background can be taken hold of", side)
		}
	}
}

func TestThePaintedAreaReachesToWhereTheNeckTouches(t *testing.T) {
	e := open(t, 1280, 776)
	before := e.pixels()
	e.ToggleFree()
	if bytes.Equal(before, e.pixels()) {
		t.Error("painting the free area leaves the picture as it was")
	}
	j := e.Session.Now().Joint
	theta, round := j.Aperture.Theta()
	if !round {
		t.Fatal("the first sample's first design is not round")
	}
	k := e.centre.joint.skin
	for i, u := range boundary(j.Aperture, k.pose) {
		if got := math.Acos(u.Z) * 180 / math.Pi; math.Abs(got-theta.Degrees()) > 0.1 {
			t.Errorf("direction %d of the edge lies %.2f° from the cup axis, the neck touches at %.2f°", i, got, theta.Degrees())
		}
	}
}
