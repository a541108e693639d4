package kinematics

import (
	"testing"
	"time"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// searched solves by the search alone and reports whether it ended in time: it
// takes some milliseconds, beside a graze too.
func searched(j Joint, m motion.Path) (Limit, bool) {
	answer := make(chan Limit, 1)
	go func() { answer <- j.SearchedLimit(m) }()
	select {
	case l := <-answer:
		return l, true
	case <-time.After(2 * time.Second):
		return Limit{}, false
	}
}

func TestASearchEndsAfterLeavingContactNearTheEndOfTheLeg(t *testing.T) {
	d := plain(33.80043789976767, 12.183167825558076, 155.14761428, 43.52529207, -0.01382412, 2.76766, 135.38539)
	d.Stem.Varus, d.Stem.SagittalTilt = -0.06714306153966507, -0.11469564955586618
	d.Rim.Arc, d.Cup.Inclination, d.Cup.Anteversion = 2.707836689129037, 0.7596587782886148, -0.00024127640701263327
	d.Stem.Anteversion, d.Stem.NeckShaft = 0.048304738063639496, 2.362921382245591
	h := Hip{CupPlane: hip.RelaxedSitting, PosturePlane: hip.Standing,
		Tilts: hip.Tilts{Supine: -0.49566829695936365, Standing: -0.38270676328228403, RelaxedSitting: -0.5001351774848091, FlexedSitting: 0.22976520957921168}}
	m := motion.Path{Zero: hip.Supine, Waypoints: []hip.Posture{
		{Flexion: 0.5517860887989213, Adduction: 0.9039287467256663, InternalRotation: 0.15958245457783568},
		{Flexion: 0.5517860887989213, Adduction: -5.268966760430084, InternalRotation: 0.15958245457783568},
	}}
	j := NewJoint(h, d)
	l, ended := searched(j, m)
	if !ended {
		t.Fatalf("the search did not end within 2 s; the closed form gives %s", brief(j.Limit(m)))
	}
	if got, want := brief(l), brief(j.Limit(m)); got != want {
		t.Errorf("searched %s, closed %s", got, want)
	}
}
