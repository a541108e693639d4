package scene

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
)

// The steps by which a stance is built: pelvis and legs first, then their place
// in the room, then what reaches for a place, then trunk, head and arms. Angles
// are in degrees here, lengths in mm.

const degree = math.Pi / 180

// upright returns a stance whose pelvis is turned: leaning forward, then over to
// the right, then facing about to the left.
func upright(lean, over, about float64) *stance {
	s := &stance{}
	s.pelvis = Turn(about*degree, Still.Y).Mul(Turn(over*degree, Still.X)).Mul(Turn(-lean*degree, Still.Z))
	s.chest, s.head = s.pelvis, s.pelvis
	return s
}

// hipJoint returns where a thigh hangs.
func (s *stance) hipJoint(i int) r3.Vec { return s.pelvis.Moved(r3.Vec{Z: sideOf(i) * hipAt}) }

// turned returns the posture as a rotation of a side's thigh in its pelvis.
func turned(p hip.Posture, i int) Pose {
	r := FramePose(p.PelvisFromFemur())
	if i == 1 {
		r = MirrorZ.Mul(r).Mul(MirrorZ)
	}
	return r
}

// pelvisOn turns the pelvis so that the right thigh, at a posture, is turned as
// given in the room.
func (s *stance) pelvisOn(thigh Pose, p hip.Posture) {
	s.pelvis = thigh.Mul(turned(p, 0).Inverse())
	s.chest, s.head = s.pelvis, s.pelvis
}

// swing puts a leg at a posture of the hip, with its knee bent.
func (s *stance) swing(i int, p hip.Posture, knee float64) {
	s.thigh[i] = s.pelvis.to(r3.Vec{}).Mul(turned(p, i)).to(s.hipJoint(i))
	s.shank[i] = s.thigh[i].Mul(At(r3.Vec{Y: -thighLong})).Mul(Turn(-knee*degree, Still.Z))
	s.point(i, 0)
}

// point turns a foot about its ankle, toes down.
func (s *stance) point(i int, toes float64) {
	s.foot[i] = s.shank[i].Mul(At(r3.Vec{Y: -shankLong})).Mul(Turn(-toes*degree, Still.Z))
}

// flat puts a sole level, the foot's tip where the shank's front looks.
func (s *stance) flat(i int) { s.sole(i, 0) }

// sole is flat with the heel raised.
func (s *stance) sole(i int, heel float64) {
	at := s.foot[i].At
	front := s.foot[i].X
	front.Y = 0
	if r3.Norm(front) < 0.2 {
		front = s.shank[i].Y // the shank lies level
		front.Y = 0
	}
	s.foot[i] = Along(Still.Y, front).Mul(Turn(-heel*degree, Still.Z)).to(at)
}

// shift moves pelvis and legs.
func (s *stance) shift(by r3.Vec) {
	for _, p := range []*Pose{&s.pelvis, &s.thigh[0], &s.thigh[1], &s.shank[0], &s.shank[1], &s.foot[0], &s.foot[1]} {
		p.At = r3.Add(p.At, by)
	}
}

// pin moves all so that an ankle stands over x, on a level floor.
func (s *stance) pin(i int, x, floor float64) {
	a := s.foot[i].At
	s.shift(r3.Vec{X: x - a.X, Y: floor + ankleHigh - a.Y})
}

// lowest returns the least height of pelvis, knees and feet.
func (s *stance) lowest() float64 {
	low := s.pelvis.At.Y - 95
	for i := range 2 {
		low = math.Min(low, s.shank[i].At.Y-58)
		for _, x := range []float64{-60, 0, 185} {
			low = math.Min(low, s.foot[i].Moved(r3.Vec{X: x, Y: -ankleHigh}).Y)
		}
		for _, z := range []float64{-45, 45} {
			low = math.Min(low, s.foot[i].Moved(r3.Vec{X: 130, Y: -ankleHigh, Z: z}).Y)
		}
		low = math.Min(low, s.foot[i].At.Y-46)
	}
	return low
}

// ground moves all so that the lowest part lies on a level.
func (s *stance) ground(level float64) { s.shift(r3.Vec{Y: level - s.lowest()}) }

// joined returns where the middle joint of a limb of two parts is that runs from
// a root to a tip as near to a target as it comes, bent towards a side, with the
// tip.
func joined(root, target, toward r3.Vec, first, second float64) (middle, tip r3.Vec) {
	way := r3.Sub(target, root)
	far := clamp(r3.Norm(way), math.Abs(first-second)+1, first+second-0.5)
	dir := r3.Unit(way)
	a := (first*first - second*second + far*far) / (2 * far)
	h := math.Sqrt(math.Max(first*first-a*a, 0))
	side := r3.Sub(toward, r3.Scale(r3.Dot(toward, dir), dir))
	if r3.Norm(side) < 1e-6 {
		side = square(dir)
	}
	middle = r3.Add(root, r3.Add(r3.Scale(a, dir), r3.Scale(h, r3.Unit(side))))
	return middle, r3.Add(root, r3.Scale(far, dir))
}

// stretch puts a leg so that its ankle is at a place, the knee towards a side.
func (s *stance) stretch(i int, ankle, knee r3.Vec) {
	root := s.hipJoint(i)
	middle, tip := joined(root, ankle, knee, thighLong, shankLong)
	front := r3.Add(knee, r3.Scale(0.001, s.pelvis.X))
	s.thigh[i] = Along(r3.Sub(root, middle), front).to(root)
	s.shank[i] = Along(r3.Sub(middle, tip), front).to(middle)
	// A bent knee shows where the front is.
	if n := r3.Cross(r3.Sub(middle, root), r3.Sub(tip, middle)); r3.Norm(n) > 3e3 {
		for _, p := range []*Pose{&s.thigh[i], &s.shank[i]} {
			x := r3.Unit(r3.Cross(p.Y, n))
			if r3.Dot(x, front) < 0 {
				x = r3.Scale(-1, x)
			}
			*p = Along(p.Y, x).to(p.At)
		}
	}
	s.point(i, 0)
}

// bend turns chest and head against the pelvis: forward, over to the right,
// about to the left; the neck adds its own share forward.
func (s *stance) bend(forward, over, about, neck float64) {
	s.chest = s.pelvis.to(r3.Vec{}).Mul(Turn(about*degree, Still.Y)).Mul(Turn(over*degree, Still.X)).Mul(Turn(-forward*degree, Still.Z))
	s.chest = s.along(trunkLong)
	turn := s.turnedAt(trunkLong)
	base := s.along(neckBase)
	look := turn.Mul(Turn(0.4*about*degree, Still.Y)).Mul(Turn(-neck*degree, Still.Z))
	half := turn.Mul(Turn(-neck/2*degree, Still.Z))
	at := r3.Add(base.At, r3.Add(r3.Scale(58, half.Y), r3.Add(r3.Scale(20, half.X), r3.Scale(92, look.Y))))
	s.head = look.to(at)
}

// shoulder returns where an arm hangs, moved forward and up with what it does.
func (s *stance) shoulder(i int, forward float64) r3.Vec {
	return s.chest.Moved(r3.Vec{X: forward - 4, Y: -38, Z: sideOf(i) * shoulderAt})
}

// reach puts a hand's wrist at a place, or as near as the arm goes, the elbow
// towards a side.
func (s *stance) reach(i int, wrist, elbow r3.Vec) {
	root := s.shoulder(i, 0)
	if want := r3.Norm(r3.Sub(wrist, root)); want > upperLong+foreLong-5 {
		// The shoulder follows a little.
		more := math.Min(want-(upperLong+foreLong-5), 70)
		root = r3.Add(root, r3.Scale(more, r3.Unit(r3.Sub(wrist, root))))
	}
	middle, tip := joined(root, wrist, elbow, upperLong, foreLong)
	front := r3.Scale(-1, elbow)
	s.upper[i] = Along(r3.Sub(root, middle), front).to(root)
	s.fore[i] = Along(r3.Sub(middle, tip), front).to(middle)
	s.hand[i] = s.fore[i].to(tip)
}

// hang lets an arm hang from the shoulder, swung forward, the elbow bent a
// little; outwards in degrees.
func (s *stance) hang(i int, forward, outward, elbow float64) {
	side := sideOf(i)
	frame := s.chest.to(r3.Vec{})
	if s.chest.Y.Y > 0.3 { // an arm hangs plumb from a body that leans
		front := s.chest.X
		front.Y = 0
		frame = Along(Still.Y, front)
	}
	s.upper[i] = frame.Mul(Turn(-side*outward*degree, Still.X)).Mul(Turn(forward*degree, Still.Z)).to(s.shoulder(i, 0))
	s.fore[i] = s.upper[i].Mul(At(r3.Vec{Y: -upperLong})).Mul(Turn(elbow*degree, Still.Z))
	s.hand[i] = s.fore[i].Mul(At(r3.Vec{Y: -foreLong}))
}

// rest lays a hand on a thigh, a share of the way to the knee.
func (s *stance) rest(i int, share float64) {
	t := s.thigh[i]
	at := t.Moved(r3.Vec{X: 95, Y: -share * thighLong})
	s.reach(i, r3.Add(at, r3.Scale(60, t.Y)), r3.Add(r3.Scale(-1, s.chest.X), r3.Add(r3.Scale(sideOf(i)*0.9, s.chest.Z), r3.Scale(-0.4, s.chest.Y))))
	s.lay(i, t)
}

// lay turns a hand along a limb, palm down on its front.
func (s *stance) lay(i int, limb Pose) {
	s.hand[i] = Along(limb.Y, r3.Scale(-sideOf(i), limb.Z)).to(s.hand[i].At)
	// The palm looks along −Z of a right hand's frame, +Z of a left one's.
	if r3.Dot(s.hand[i].Z, limb.X)*sideOf(i) < 0 {
		s.hand[i] = s.hand[i].Mul(Turn(math.Pi, Still.Y))
	}
}
