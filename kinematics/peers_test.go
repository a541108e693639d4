package kinematics_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	. "rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// The standard grid: 61×61 cup orientations, radiographic inclination 20…80 and
// anteversion -20…40, 12 motions of 91 equally spaced poses. The answer is the
// first pose in contact of each of 44,652 pairs, 91 if none. Head 32, neck 12,
// arc 180, wall 5, neck-shaft 130, stem version 15.
const (
	gridSide  = 61
	gridPoses = 91
)

// gridMotions are the joint angle that moves, where from, and how far.
var gridMotions = []struct {
	moving        hip.JointAngle
	flex, add, ir float64
	end           float64
}{
	{hip.Flexion, 0, 0, 0, 120}, {hip.Flexion, 0, 0, 0, -30}, {hip.Adduction, 0, 0, 0, -50}, {hip.Adduction, 0, 0, 0, 30},
	{hip.InternalRotation, 0, 0, 0, 80}, {hip.InternalRotation, 0, 0, 0, -40}, {hip.InternalRotation, 90, 0, 0, 40},
	{hip.InternalRotation, -10, 0, 0, -30}, {hip.Flexion, 0, 10, 20, 100}, {hip.InternalRotation, 90, 15, 0, 25},
	{hip.Flexion, 0, 0, -20, -15}, {hip.Adduction, 90, 0, 20, 15},
}

func gridStem() hip.Stem { return stemAt(15, 130) }

// gridRequired is the grid's motions as requirements.
func gridRequired() []motion.Requirement {
	list := make([]motion.Requirement, len(gridMotions))
	for i, m := range gridMotions {
		start := hip.Posture{Flexion: degrees(m.flex), Adduction: degrees(m.add), InternalRotation: degrees(m.ir)}
		list[i] = asks("", motion.Sweep(start, m.moving, degrees(m.end), hip.APP))
	}
	return list
}

// gridAxes is the grid's cup axes.
func gridAxes() []r3.Vec {
	list := make([]r3.Vec, 0, gridSide*gridSide)
	for i := range gridSide {
		for a := range gridSide {
			list = append(list, axisAt(20+float64(i), -20+float64(a)))
		}
	}
	return list
}

// gridSums returns the checksum and the number of orientations free in all
// motions.
func gridSums(steps []uint8) (sum, free int) {
	for o := 0; o < len(steps); o += len(gridMotions) {
		all := true
		for _, s := range steps[o : o+len(gridMotions)] {
			sum += int(s)
			all = all && s == gridPoses
		}
		if all {
			free++
		}
	}
	return sum, free
}

// exactGrid fills the grid by exact limits: the first pose at or beyond where
// the neck axis leaves the cone.
func exactGrid(d *Demand, axes []r3.Vec, theta unit.Angle, steps []uint8) {
	limits := make([]float64, len(gridMotions))
	for o, n := range axes {
		d.Limits(n, theta, limits)
		for m, f := range limits {
			step := uint8(gridPoses)
			if f <= 1 {
				step = uint8(math.Ceil(f*(gridPoses-1) - 1e-9))
			}
			steps[o*len(gridMotions)+m] = step
		}
	}
}

func TestStandardGridOfExactLimitsHasItsChecksum(t *testing.T) {
	theta, _ := NewJoint(Hip{}, bearing(32, 12, 180)).Aperture.Theta()
	steps := make([]uint8, gridSide*gridSide*len(gridMotions))
	exactGrid(NewDemand(Hip{}, gridStem(), gridRequired()), gridAxes(), theta, steps)
	if sum, free := gridSums(steps); sum != 3666522 || free != 976 {
		t.Errorf("checksum %d with %d free, want 3666522 with 976", sum, free)
	}
}

// lipGrid fills the grid for a lipped cup. No pose before a motion leaves the
// inscribed cone, exactly, is in contact; from there on it goes pose by pose.
// Under a round neck the axis alone says whether a pose is free.
type lipGrid struct {
	ap   *aperture.Aperture
	ask  *Demand
	axis [][gridPoses]r3.Vec // of the neck in the pelvis, by motion and pose
}

func newLipGrid() *lipGrid {
	d := lipped()
	g := &lipGrid{ap: aperture.Build(d.Rim, d.Neck), ask: NewDemand(Hip{}, gridStem(), gridRequired())}
	g.axis = make([][gridPoses]r3.Vec, len(gridMotions))
	v := gridStem().Axis()
	for i, m := range gridMotions {
		for s := range gridPoses {
			p := hip.Posture{Flexion: degrees(m.flex), Adduction: degrees(m.add), InternalRotation: degrees(m.ir)}
			p = p.With(m.moving, degrees(m.end*float64(s)/(gridPoses-1)))
			g.axis[i][s] = p.PelvisFromFemur().Apply(v)
		}
	}
	return g
}

func (g *lipGrid) fill(axes []r3.Vec, steps []uint8) {
	limits := make([]float64, len(gridMotions))
	for o, n := range axes {
		cup := hip.PlaneFromCup(n).Inverse()
		g.ask.Limits(n, g.ap.Inscribed(), limits)
		for m, f := range limits {
			step := gridPoses
			if f <= 1 {
				step = int(f * (gridPoses - 1))
			}
			for step < gridPoses && g.ap.FreeAxis(cup.Apply(g.axis[m][step])) {
				step++
			}
			steps[o*len(gridMotions)+m] = uint8(step)
		}
	}
}

func TestLipGridHasItsChecksum(t *testing.T) {
	steps := make([]uint8, gridSide*gridSide*len(gridMotions))
	newLipGrid().fill(gridAxes(), steps)
	if sum, free := gridSums(steps); sum != 3392914 || free != 433 {
		t.Errorf("checksum %d with %d free, want 3392914 with 433", sum, free)
	}
}

// BenchmarkStandardGrid is the 44,652 exact limits on one goroutine, the
// demand made anew each time.
func BenchmarkStandardGrid(b *testing.B) {
	theta, _ := NewJoint(Hip{}, bearing(32, 12, 180)).Aperture.Theta()
	axes, list := gridAxes(), gridRequired()
	steps := make([]uint8, gridSide*gridSide*len(gridMotions))
	for b.Loop() {
		exactGrid(NewDemand(Hip{}, gridStem(), list), axes, theta, steps)
	}
	sum, free := gridSums(steps)
	if sum != 3666522 || free != 976 {
		b.Errorf("checksum %d with %d free", sum, free)
	}
	b.ReportMetric(float64(sum), "checksum")
	b.ReportMetric(float64(free), "free")
}

// BenchmarkLipGrid is the same poses against a lipped cup, the aperture built
// anew each time.
func BenchmarkLipGrid(b *testing.B) {
	axes := gridAxes()
	steps := make([]uint8, gridSide*gridSide*len(gridMotions))
	for b.Loop() {
		newLipGrid().fill(axes, steps)
	}
	sum, free := gridSums(steps)
	if sum != 3392914 || free != 433 {
		b.Errorf("checksum %d with %d free", sum, free)
	}
	b.ReportMetric(float64(sum), "checksum")
	b.ReportMetric(float64(free), "free")
}
