package view

import (
	"bytes"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
)

// The plane of the cut holds the cup's axis and the place of the rim that the
// neck is nearest to, in every posture.
func TestTheCutRunsAlongTheCupsAxisAndThroughTheNearestPlace(t *testing.T) {
	e := open(t, 1280, 776)
	if e.Picture().Cut.Cuts() {
		t.Error("a new window shows the joint cut")
	}
	e.ToggleCut()
	for _, p := range []hip.Posture{{}, {Flexion: degrees(90), InternalRotation: degrees(20)}, {Flexion: degrees(-10), InternalRotation: degrees(-30)}} {
		goTo(e.Session, p)
		s, at := e.Session.Now(), e.Picture().Cut
		axis, rim := r3.Dot(at.Normal, s.Joint.CupAxis()), r3.Dot(at.Normal, s.Contact.RimPoint)
		if !at.Cuts() || math.Abs(axis) > 1e-9 || math.Abs(rim) > 1e-6 || at.At != (r3.Vec{}) {
			t.Errorf("%v: cut at %v: cup axis %.2g, place nearest %.2g mm off it", p, at, axis, rim)
		}
	}
}

func TestTheCutIsLookedAtFaceOnAndTheFormerViewComesBack(t *testing.T) {
	e := open(t, 1280, 776)
	before, whole := e.Picture().Camera(), e.pixels()
	e.ToggleCut()
	at := e.Picture().Camera()
	eye, _ := at.Lens(10, 10).Ray(5, 5)
	if c := math.Abs(r3.Dot(r3.Unit(eye), e.Picture().Cut.Normal)); c < math.Cos(2*math.Pi/180) {
		t.Errorf("the cut is looked at at %.0f° from straight on", math.Acos(c)*180/math.Pi)
	}
	if bytes.Equal(whole, e.pixels()) {
		t.Error("the cut changed no pixel")
	}
	e.ToggleCut()
	if e.Picture().Camera() != before || !bytes.Equal(whole, e.pixels()) {
		t.Error("made whole again the picture is not what it was")
	}
	e.ToggleCut()
	turned := at.Orbit(40, 0, 400)
	e.Picture().LookFrom(turned)
	e.ToggleCut()
	if got := e.Picture().Camera(); got != turned {
		t.Errorf("the view was turned by hand and is %v, want it left at %v", got, turned)
	}
}

// A cut is a way to look: there is nothing to undo, and nothing of the case
// changes.
func TestACutIsNoStep(t *testing.T) {
	e := open(t, 1280, 776)
	before := e.Session.Now().Case
	e.ToggleCut()
	if _, ok := e.Session.Undoable(); ok || e.Session.Now().Case != before || e.Session.Now().Unsaved {
		t.Error("the cut changed the case")
	}
}
