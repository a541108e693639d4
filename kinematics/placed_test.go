package kinematics

import (
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// through is a requirement that moves one joint angle after another.
func through(flexion, adduction, rotation float64) motion.Requirement {
	return motion.Requirement{Paths: []motion.Path{motion.Through(hip.Standing,
		posture(flexion, 0, 0), posture(flexion, adduction, 0), posture(flexion, adduction, rotation))}}
}

// Every sample of every motion is looked at here; the simulation passes over
// most of them and begins where the placement before failed.
func TestAMotionIsShortExactlyWhereASampleOfItIsInContact(t *testing.T) {
	list := []motion.Requirement{through(95, 5, 10), through(-10, 0, -20), through(80, 0, 30), through(20, -20, -20), through(85, 0, 10)}
	for name, design := range benchShapes() {
		if name == "round" {
			continue
		}
		s := Simulation{Search: Search{Design: design, Required: list}, Scatter: UsualScatter}
		d, err := s.draw()
		if err != nil {
			t.Fatal(err)
		}
		own := d.copied()
		short, met := 0, 0
		q := newSequence(1, 0)
		for i := range 300 {
			z := q.normals(uint32(i))
			p := d.place(d.mix.of(&z))
			d.judge(&p)
			want := everySample(d, &p)
			first, deepest := -1, -1
			for m := range list {
				if (d.worst[m] < 0) != (want[m] < 0) {
					t.Fatalf("%s: placement %d: motion %d has a margin of %v, and every sample says %v", name, i, m, d.worst[m], want[m])
				}
				if want[m] < 0 {
					short++
					if deepest < 0 || want[m] < want[deepest] {
						deepest = m
					}
				}
				if d.worst[m] < 0 && (first < 0 || d.worst[m] < d.worst[first]) {
					first = m
				}
			}
			if first != deepest || first >= 0 && float64(d.worst[first]) != want[first] {
				t.Fatalf("%s: placement %d: motion %d is worst of %v, and every sample says %d of %v", name, i, first, d.worst, deepest, want)
			}
			if serves := own.serves(&p); serves != (deepest < 0) {
				t.Fatalf("%s: placement %d: serves %v, and every sample says %v", name, i, serves, want)
			}
			if deepest < 0 {
				met++
			}
		}
		if short < 20 || met < 10 {
			t.Errorf("%s: %d motions short and %d placements met: the test says little", name, short, met)
		}
	}
}

// everySample returns the least margin of every motion, at most, 0 where it is
// free.
func everySample(d *draw, p *placed) []float64 {
	k := d.combAt(p)
	want := make([]float64, len(d.list))
	for t := range k.list {
		tr := &k.list[t]
		for i := tr.from; i < tr.to; i++ {
			if m := k.exact(tr, i); m < Touch {
				want[tr.motion] = min(want[tr.motion], float64(m))
			}
		}
	}
	return want
}
