package kinematics_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// asks is a requirement of single motions, each a path of its own.
func asks(key string, paths ...motion.Path) motion.Requirement {
	return motion.Requirement{Key: key, Paths: paths}
}

// criterion is a requirement of one movement up to an angle.
func criterion(m motion.Movement, least float64) motion.Requirement {
	c := motion.Criterion{Movement: m, Least: motion.Stated{Angle: unit.Angle(least) * unit.Degree}}
	return asks(m.Key(), c.Path(hip.APP))
}

// widmer is the set of Widmer & Zurfluh, J Orthop Res 2004;22:815-821, as
// quoted in J Orthop Surg Res 2022; rotation at 0 flexion (see
// TestInternalRotationOf80At90FlexionServesNoCup).
func widmer() []motion.Requirement {
	return []motion.Requirement{
		criterion(motion.Flexion, 130), criterion(motion.InternalAt0, 80), criterion(motion.Extension, 40),
		criterion(motion.ExternalAt0, 40), criterion(motion.Abduction, 50), criterion(motion.Adduction, 50),
	}
}

// yoshimine is the set of Yoshimine, J Biomech 2006;39:1315-1323, as quoted in
// J Orthop Surg Res 2022.
func yoshimine() []motion.Requirement {
	return []motion.Requirement{
		criterion(motion.Flexion, 120), criterion(motion.InternalAt90, 45),
		criterion(motion.Extension, 30), criterion(motion.ExternalAt0, 40),
	}
}

func stemAt(version, neckShaft float64) hip.Stem {
	return hip.Stem{Anteversion: unit.Angle(version) * unit.Degree, NeckShaft: unit.Angle(neckShaft) * unit.Degree}
}

// randomPosture is within what hips are asked to do.
func randomPosture(r *rand.Rand) hip.Posture {
	in := func(lo, hi float64) unit.Angle { return unit.Angle(lo+(hi-lo)*r.Float64()) * unit.Degree }
	return hip.Posture{Flexion: in(-30, 120), Adduction: in(-35, 25), InternalRotation: in(-45, 45)}
}

// randomMotions is motions through random postures, in random planes.
func randomMotions(r *rand.Rand) []motion.Requirement {
	list := make([]motion.Requirement, 1+r.IntN(8))
	for i := range list {
		p := randomPosture(r)
		plane := hip.Plane(r.IntN(int(hip.PlaneCount)))
		switch r.IntN(4) {
		case 0: // straight
			list[i] = asks("straight", motion.Through(plane, p))
		case 1: // a posture
			list[i] = asks("posture", motion.Path{Zero: plane, Waypoints: []hip.Posture{p}})
		default: // one joint angle after another
			a := hip.Posture{Flexion: p.Flexion}
			b := a.With(hip.Adduction, p.Adduction)
			list[i] = asks("by turns", motion.Through(plane, a, b, p))
		}
	}
	return list
}

func randomStem(r *rand.Rand) hip.Stem {
	return stemAt(-10+50*r.Float64(), 120+30*r.Float64())
}

func randomTilts(r *rand.Rand) hip.Tilts {
	t := func() unit.Angle { return unit.Angle(r.NormFloat64()) * 8 * unit.Degree }
	return hip.Tilts{Supine: t(), Standing: t(), RelaxedSitting: t(), FlexedSitting: t()}
}

// directions samples the neck axis along motions by Joint, a posture at a time.
func directions(h Hip, s hip.Stem, list []motion.Requirement, step unit.Angle) (u []r3.Vec, at []Moment) {
	j := Assemble(h, Design{Stem: s}, roundAperture)
	for i, m := range list {
		for k, p := range m.Paths {
			for leg := range max(1, p.Legs()) {
				n := 1.0
				if p.Legs() > 0 {
					a, b := p.Waypoints[leg], p.Waypoints[leg+1]
					turn := (b.Flexion - a.Flexion).Abs() + (b.Adduction - a.Adduction).Abs() + (b.InternalRotation - a.InternalRotation).Abs()
					n = math.Ceil(float64(turn/step)) + 1
				}
				for x := 0.0; x <= n; x++ {
					place := motion.Place{Leg: leg, Fraction: x / n}
					u = append(u, j.APPFromNeck(p.ShaftAt(place), p.Zero).Column(2))
					at = append(at, Moment{i, k, place})
				}
			}
		}
	}
	return u, at
}

// bearing is a round head of head mm in a cup of an arc of so many degrees, on
// a neck of neck mm.
func bearing(head, neck, arc float64) Design {
	return Design{
		Rim:  implant.Rim{HeadDiameter: head, Arc: unit.Angle(arc) * unit.Degree, Wall: 5},
		Neck: implant.Neck{Diameter: neck},
	}
}

var roundAperture = NewJoint(Hip{}, bearing(32, 12, 180)).Aperture

func TestFarthestMomentIsFartherThanEverySampledPosture(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 44))
	for range 300 {
		h, s, list := Hip{Tilts: randomTilts(r)}, randomStem(r), randomMotions(r)
		d := NewDemand(h, s, list)
		n := hip.Radiographic{Inclination: unit.Angle(90*r.Float64()) * unit.Degree, Anteversion: unit.Angle(60*r.Float64()-20) * unit.Degree}.Axis()
		e := d.Farthest(n)
		us, _ := directions(h, s, list, 0.5*unit.Degree)
		var most unit.Angle
		for _, u := range us {
			most = max(most, sphere.Between(n, u))
		}
		if d := (e.Angle - most).Degrees(); d < -1e-11 || d > 0.01 {
			t.Fatalf("farthest moment at %.9f°, a sampled posture at %.9f°", e.Angle.Degrees(), most.Degrees())
		}
		j := Assemble(h, Design{Stem: s}, roundAperture)
		p := list[e.Motion].Paths[e.Path]
		if off := sphere.Between(e.Direction, j.APPFromNeck(p.ShaftAt(e.Place), p.Zero).Column(2)); off > 1e-9 {
			t.Fatalf("the moment's posture puts the neck %.3g° off its direction", off.Degrees())
		}
	}
}

func TestAMotionLeavesTheConeWhereItsLimitIs(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 44))
	stops := 0
	for range 400 {
		h := Hip{Tilts: randomTilts(r), CupPlane: hip.Plane(r.IntN(int(hip.PlaneCount)))}
		d := bearing(32, 12, 180)
		d.Stem = randomStem(r)
		d.Cup = Cup{Inclination: unit.Angle(20+50*r.Float64()) * unit.Degree, Anteversion: unit.Angle(40*r.Float64()-10) * unit.Degree}
		list := randomMotions(r)
		j := Assemble(h, d, roundAperture)
		theta, _ := roundAperture.Theta()
		ask := NewDemand(h, d.Stem, list)
		for i, m := range list {
			l := j.Limit(m.Paths[0])
			at, leaves := ask.Leaves(i, j.CupAxis(), theta)
			if leaves != (l.Status != Free) {
				t.Fatalf("motion leaves the cone: %v; its limit: %v with margin %.3g°", leaves, l.Status, l.Contact.Margin.Degrees())
			}
			if !leaves {
				continue
			}
			stops++
			if m.Paths[0].Legs() == 0 {
				continue
			}
			tolerance := 1e-9
			if _, alone := m.Paths[0].Moving(at.Place.Leg); !alone { // followed by arcs
				tolerance = 1e-4
			}
			if at.Place.Leg != l.At.Leg || math.Abs(at.Place.Fraction-l.At.Fraction) > tolerance {
				t.Errorf("leaves at %+v, limit at %+v", at.Place, l.At)
			}
		}
	}
	if stops < 100 {
		t.Errorf("only %d motions stopped", stops)
	}
}
