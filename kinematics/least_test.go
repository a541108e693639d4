package kinematics

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"
	"time"

	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// wander is a path of random postures; on some legs only one joint angle
// moves.
func wander(r *rand.Rand, legs int) motion.Path {
	p := motion.Path{Zero: hip.Plane(r.IntN(int(hip.PlaneCount)))}
	if r.IntN(2) == 0 {
		p.Mechanical = deg(r.Float64()*20 - 10)
	}
	at := posture(r.Float64()*160-40, r.Float64()*60-30, r.Float64()*100-50)
	p.Waypoints = append(p.Waypoints, at)
	for range legs {
		next := posture(r.Float64()*160-40, r.Float64()*60-30, r.Float64()*100-50)
		if r.IntN(2) == 0 {
			moving := hip.JointAngle(r.IntN(3))
			next = at.With(moving, next.Angle(moving))
		}
		p.Waypoints, at = append(p.Waypoints, next), next
	}
	return p
}

func wanderingHip(r *rand.Rand) Hip {
	tilt := func() unit.Angle { return deg(r.Float64()*40 - 20) }
	return Hip{Tilts: hip.Tilts{Supine: tilt(), Standing: tilt(), RelaxedSitting: tilt(), FlexedSitting: tilt()}, CupPlane: hip.Plane(r.IntN(int(hip.PlaneCount)))}
}

func wanderingDesign(r *rand.Rand) Design {
	return plain(28+r.Float64()*20, 10+r.Float64()*8, 160+r.Float64()*25, 30+r.Float64()*25, r.Float64()*35, r.Float64()*35, 120+r.Float64()*25)
}

// sampled returns the lowest of the exact margins at so many places of each
// leg, and the most by which one can be missed between them.
func sampled(j Joint, m motion.Path, count int) (lowest, between unit.Angle) {
	lowest = unit.Angle(math.Inf(1))
	for leg := range m.Legs() {
		for i := range count + 1 {
			p := m.At(motion.Place{Leg: leg, Fraction: float64(i) / float64(count)})
			// Written out from the definition: Rz(tilt)·R(posture)·Rx(mechanical).
			app := hip.RotationZ(j.tilts.Of(m.Zero)).Mul(p.PelvisFromFemur()).Mul(hip.RotationX(m.Mechanical))
			r := j.cupFromAPP.Mul(app).Mul(j.femurFromNeck)
			lowest = min(lowest, j.Aperture.Nearest(aperture.Pose{Superior: r.Column(0), Anterior: r.Column(1), Axis: r.Column(2)}).Margin)
		}
		between = max(between, unit.Angle(j.Aperture.Rate()*turnOf(m, leg)/float64(count)/2))
	}
	return lowest, between
}

func TestTheLeastMarginOfARoundDesignIsTheLowestOfAllSamples(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 1))
	worst, apart := unit.Angle(0), unit.Angle(0)
	for i := range 1000 {
		j, m := NewJoint(wanderingHip(r), wanderingDesign(r)), wander(r, 1+r.IntN(4))
		l := j.Least(m)
		search := j.least([]motion.Path{m}, false)
		apart = max(apart, (l.Margin - search.Margin).Abs())
		lowest, between := sampled(j, m, 400)
		if l.Margin > lowest+1e-12 || l.Margin < lowest-between {
			t.Fatalf("case %d: least %.9f°, lowest sample %.9f° (± %.3f°)", i, l.Margin.Degrees(), lowest.Degrees(), between.Degrees())
		}
		worst = max(worst, (j.On(m).Margin(l.Posture) - l.Margin).Abs())
	}
	if apart.Degrees() > 1e-9 {
		t.Errorf("closed form and search differ by %.3g°, want 1e-9", apart.Degrees())
	}
	if worst.Degrees() > 1e-9 {
		t.Errorf("the margin at the least place is %.3g° off", worst.Degrees())
	}
	t.Logf("closed form and search differ by at most %.2g°", apart.Degrees())
}

// featured is a design of every kind of shape, by number.
func featured(r *rand.Rand, kind int) Design {
	d := wanderingDesign(r)
	if kind&1 != 0 {
		d.Rim.Lips[0] = implant.Lip{Height: deg(5 + r.Float64()*15), Centre: deg(r.Float64()*360 - 180), Plateau: deg(r.Float64() * 90), Ramp: deg(r.Float64() * 30)}
	}
	if kind&2 != 0 {
		d.Neck.Oval = implant.Oval{Width: 14 + r.Float64()*4, Depth: 9 + r.Float64()*4, Roll: deg(r.Float64()*90 - 45)}
	}
	return d
}

// shallow is how deep in contact a margin is still continuous: where the neck
// axis itself enters the body of the cup, that of an oval neck under a lip
// jumps.
const shallow = -8 * unit.Degree

func TestTheLeastMarginOfAnyDesignIsTheLowestOfAllSamples(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	for kind := 1; kind <= 3; kind++ {
		above, compared := unit.Angle(math.Inf(-1)), 0
		for i := range 30 {
			j, m := NewJoint(wanderingHip(r), featured(r, kind)), wander(r, 1+r.IntN(2))
			l := j.Least(m)
			lowest, between := sampled(j, m, 150)
			if lowest < shallow {
				continue
			}
			compared++
			above = max(above, l.Margin-lowest)
			if l.Margin > lowest+1e-8 || l.Margin < lowest-between-1e-9 {
				t.Fatalf("kind %d, case %d: least %.9f°, lowest sample %.9f° (± %.3f°)", kind, i, l.Margin.Degrees(), lowest.Degrees(), between.Degrees())
			}
		}
		if compared < 12 {
			t.Errorf("kind %d: only %d of 30 are compared", kind, compared)
		}
		t.Logf("kind %d: least above the lowest sample by at most %.2g°", kind, above.Degrees())
	}
}

func TestTheLeastMarginOfSeveralPathsIsThatOfTheWorst(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 3))
	for range 200 {
		j := NewJoint(wanderingHip(r), featured(r, r.IntN(2)))
		paths := []motion.Path{wander(r, 1), wander(r, 2), wander(r, 1)}
		all, worst := j.LeastOf(paths), Least{Margin: 10}
		for i, p := range paths {
			if l := j.Least(p); l.Margin < worst.Margin {
				worst = l
				worst.Path = i
			}
		}
		if (all.Margin-worst.Margin).Abs() > deg(1e-6) || all.Path != worst.Path {
			t.Errorf("least of all %.9f° on path %d, of the worst %.9f° on path %d", all.Margin.Degrees(), all.Path, worst.Margin.Degrees(), worst.Path)
		}
	}
}

func TestAMechanicalPathStopsWhereItsShaftDoes(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	stopped := 0
	for range 300 {
		j, m := NewJoint(wanderingHip(r), wanderingDesign(r)), wander(r, 2)
		m.Waypoints[0] = hip.Neutral
		m.Mechanical = deg(r.Float64()*20 - 10)
		closed, search := j.Limit(m), j.SearchedLimit(m)
		if closed.Status != search.Status {
			t.Errorf("closed form says %d, search %d", closed.Status, search.Status)
			continue
		}
		if closed.Status != Stopped {
			continue
		}
		stopped++
		q := m.ShaftAt(closed.At)
		if margin := j.On(motion.Path{Zero: m.Zero}).Margin(q); margin.Abs() > deg(1e-6) {
			t.Errorf("the shaft's margin where the path stops is %.3g°", margin.Degrees())
		}
		if d := (closed.Angle - search.Angle).Abs(); d > deg(1e-6) {
			t.Errorf("closed form and search stop %.3g° apart", d.Degrees())
		}
	}
	if stopped < 50 {
		t.Errorf("only %d paths stop", stopped)
	}
}

func TestAPathThatStandsStillHasTheMarginOfItsPosture(t *testing.T) {
	j := NewJoint(Hip{}, usual())
	p := motion.Path{Waypoints: []hip.Posture{posture(90, 0, 20)}}
	for range 2 {
		if l := j.Least(p); (l.Margin - j.Margin(p.Waypoints[0])).Abs() > 1e-14 {
			t.Errorf("least %.6f°, want %.6f°", l.Margin.Degrees(), j.Margin(p.Waypoints[0]).Degrees())
		}
		p.Waypoints = append(p.Waypoints, p.Waypoints[0])
	}
}

// recorded returns the invented recordings and, where RIMCLEAR_RECORDINGS names
// a folder, those in it, right and left.
func recorded(t testing.TB) map[string]motion.Recording {
	files := []string{"../testdata/recordings/invented_walk.csv"}
	if folder := os.Getenv("RIMCLEAR_RECORDINGS"); folder != "" {
		more, err := filepath.Glob(filepath.Join(folder, "*.csv"))
		if err != nil || len(more) == 0 {
			t.Fatalf("no *.csv in RIMCLEAR_RECORDINGS (%v)", err)
		}
		files = append(files, more...)
	}
	list := map[string]motion.Recording{}
	for _, name := range files {
		f, err := os.Open(name)
		if err != nil {
			t.Fatal(err)
		}
		table, err := motion.ReadTable(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for _, side := range table.Sides() {
			r, err := table.Recording(table.Guess(side).Mapping)
			if err != nil {
				t.Fatal(err)
			}
			list[fmt.Sprintf("%s %d", filepath.Base(name), side)] = r
		}
	}
	return list
}

func TestRecordingsRunThroughAndStopAtTheirFirstContact(t *testing.T) {
	resurfacing := plain(50, 44, 168, 40, 15, 15, 135)
	lipped := usual()
	lipped.Rim.Lips[0] = implant.Lip{Height: deg(20), Centre: deg(-120), Plateau: deg(60), Ramp: deg(20)}
	for name, rec := range recorded(t) {
		m := rec.Path(motion.Setting{Mechanical: motion.UsualMechanical})
		for what, d := range map[string]Design{"stemmed": usual(), "resurfacing": resurfacing, "lipped": lipped} {
			j := NewJoint(Hip{}, d)
			start := time.Now()
			l, least := j.Limit(m), j.Least(m)
			took := time.Since(start)
			if (l.Status == Free) != (least.Margin > Touch) {
				t.Errorf("%s, %s: status %d with a least margin of %.6f°", name, what, l.Status, least.Margin.Degrees())
			}
			lowest, between := sampled(j, m, 4)
			if least.Margin > lowest+1e-9 || least.Margin < lowest-between {
				t.Errorf("%s, %s: least %.6f°, lowest sample %.6f°", name, what, least.Margin.Degrees(), lowest.Degrees())
			}
			first := firstSampledContact(j, m, 4)
			if at := float64(l.At.Leg) + l.At.Fraction; l.Status != Free && (at > first+1e-9 || at < first-0.25-1e-9) {
				t.Errorf("%s, %s: stops at sample %.4f, first look in contact at %.4f", name, what, at, first)
			}
			t.Logf("%s, %s: %d samples in %v, least %.2f°", name, what, len(rec.Times), took.Round(time.Microsecond), least.Margin.Degrees())
		}
	}
}

// firstSampledContact returns the first of so many looks per leg that is in
// contact, counted in legs.
func firstSampledContact(j Joint, m motion.Path, count int) float64 {
	at := j.On(m)
	for leg := range m.Legs() {
		for i := range count + 1 {
			place := motion.Place{Leg: leg, Fraction: float64(i) / float64(count)}
			if at.Aperture.Nearest(at.pose(m.At(place), m.Zero)).Margin <= Touch {
				return float64(leg) + place.Fraction
			}
		}
	}
	return math.Inf(1)
}

func BenchmarkLeast(b *testing.B) {
	r := rand.New(rand.NewPCG(4, 5))
	for kind, name := range []string{"round", "lip", "oval", "both"} {
		j := NewJoint(Hip{}, featured(r, kind))
		paths := make([]motion.Path, 64)
		for i := range paths {
			paths[i] = motion.Through(hip.APP, posture(60+r.Float64()*60, r.Float64()*40-20, r.Float64()*40-20))
		}
		b.Run(name, func(b *testing.B) {
			for i := range b.N {
				j.Least(paths[i%len(paths)])
			}
		})
	}
}
