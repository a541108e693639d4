package scene

import (
	"image"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/hip"
)

// moments are some instants of every act, towards hard postures of its kind.
func moments(t *testing.T, look func(a *Act, s *stance, m moment)) {
	t.Helper()
	ends := map[string]hip.Posture{
		"pivot_standing": angled(-20, 5, -31), "toe_off": angled(-20, 2, 0), "stride_behind": angled(-20, 0, 0), "heel_strike": angled(25, -1, -4),
		"standing_twist": angled(0, 0, 29), "roll_in_bed": angled(-5, 10, -30), "lie_turned_out": angled(0, 0, -40), "stairs_up": angled(67, -16, -18),
		"stairs_down": angled(36, 0, 0), "cross_legged": angled(95, -29, -62), "leg_crossed": angled(90, 15, 0), "kneel": angled(100, 0, 0),
		"lift_between_feet": angled(76, 0, 3), "lift_squatting": angled(88, 0, 10), "shoe_ankle_on_knee": angled(110, -23, -33),
	}
	for i := range Acts {
		end, ok := ends[Acts[i].Key]
		if !ok {
			end = angled(115, -12, 8)
		}
		for _, share := range []float64{0, 0.1, 0.35, 0.5, 0.75, 0.9, 1} {
			m := moment{share, hip.Neutral.Toward(end, share), end}
			look(&Acts[i], Acts[i].pose(m), m)
		}
	}
}

func TestLimbsKeepTheirLengths(t *testing.T) {
	moments(t, func(a *Act, s *stance, m moment) {
		for i := range 2 {
			for _, part := range []struct {
				name       string
				from, to   r3.Vec
				long, give float64
			}{
				{"thigh", s.thigh[i].At, s.shank[i].At, thighLong, 1},
				{"shank", s.shank[i].At, s.foot[i].At, shankLong, 1},
				{"upper arm", s.upper[i].At, s.fore[i].At, upperLong, 1},
				{"forearm", s.fore[i].At, s.hand[i].At, foreLong, 1},
				{"half pelvis", s.pelvis.At, s.thigh[i].At, hipAt, 1},
			} {
				if got := r3.Norm(r3.Sub(part.to, part.from)); math.Abs(got-part.long) > part.give {
					t.Errorf("%s at %.2f: %s of side %d is %.0f mm, want %.0f", a.Key, m.t, part.name, i, got, part.long)
				}
			}
		}
	})
}

// At its end an act shows the very joint angles of the activity. On the way the
// feet may stand where they stay and the thigh give a little.
func TestThePersonsRightHipEndsAtTheJointsAngles(t *testing.T) {
	moments(t, func(a *Act, s *stance, m moment) {
		if m.t < 1 {
			return
		}
		want := s.pelvis.to(r3.Vec{}).Mul(turned(m.now, 0))
		axis := r3.Dot(want.Y, s.thigh[0].Y)
		if off := math.Acos(math.Min(axis, 1)) / degree; off > 3 {
			t.Errorf("%s: the thigh is %.1f° from where the joint has it", a.Key, off)
		}
	})
}

func TestNoPartIsBelowTheFloor(t *testing.T) {
	moments(t, func(a *Act, s *stance, m moment) {
		floor, soft := 0.0, 30.0
		if s.pelvis.X.Y > 0.9 || a.Key == "roll_in_bed" {
			floor, soft = mattress, 60 // a bed gives
		}
		for _, in := range s.instances(nil, false) {
			for i := range in.Mesh.Points() {
				if y := in.Pose.Moved(in.Mesh.Point(i)).Y; y < floor-soft {
					t.Errorf("%s at %.2f: a part lies %.0f mm below", a.Key, m.t, floor-y)
					return
				}
			}
		}
	})
}

func TestFeetThatStandDoNotSlide(t *testing.T) {
	for _, key := range []string{"sit_to_stand", "shoe_on_floor", "stoop", "squat", "lift_squatting"} {
		a, end := ActByKey(key), angled(115, -20, 8)
		first := a.pose(moment{0, hip.Neutral, end})
		for _, share := range []float64{0.2, 0.5, 0.8, 1} {
			s := a.pose(moment{share, hip.Neutral.Toward(end, share), end})
			for i := range 2 {
				if d := r3.Norm(r3.Sub(s.foot[i].At, first.foot[i].At)); d > 3 {
					t.Errorf("%s at %.2f: foot %d slid %.0f mm", key, share, i, d)
				}
			}
		}
	}
}

func TestOneSitsOnTheSeat(t *testing.T) {
	for _, key := range []string{"sit_to_stand", "low_chair", "sit_at_ease", "shoe_on_floor", "leg_crossed"} {
		end := angled(105, -10, 5)
		a := ActByKey(key)
		s := a.pose(moment{1, end, end})
		var r room
		a.set(&r, s)
		seat := math.Inf(-1)
		for _, in := range r.list {
			lo, hi := in.Mesh.Box()
			if x := s.pelvis.At.X - in.Pose.At.X; in.Material == padding && lo.X < x && hi.X > x {
				seat = math.Max(seat, hi.Y)
			}
		}
		if d := s.pelvis.At.Y - seat; d < 80 || d > 115 {
			t.Errorf("%s: the hips are %.0f mm above the seat, want about 96", key, d)
		}
	}
}

func TestALimbsSurfaceLooksOutwards(t *testing.T) {
	end := angled(110, -10, 5)
	s := ActByKey("shoe_on_floor").pose(moment{1, end, end})
	arm, sleeve := s.arm(0)
	hips, body := s.trunk()
	face, crown := headMeshes()
	for name, m := range map[string]*Mesh{
		"leg": s.leg(0), "arm": arm, "sleeve": sleeve, "hips": hips, "body": body, "neck": s.neck(), "face": face, "hair": crown,
		"foot": bareFoot(), "shoe": shoeUpper(), "sole": shoeSole(), "hand": handMesh(), "block": block(r3.Vec{}, r3.Vec{X: 300, Y: 40, Z: 200}),
	} {
		if v := volume(m); v <= 0 {
			t.Errorf("%s holds %.0f mm³: it is inside out", name, v)
		}
	}
}

func TestTheMarkIsLitOnlyWhenTheJointTouches(t *testing.T) {
	end := angled(105, -15, 5)
	st := ActByKey("sit_to_stand").Stage(end, false)
	draw := func(lit bool) *image.RGBA {
		return picture(240, 300, st.Camera(), Light, st.Instances(nil, 1, end, lit))
	}
	lit := func(img *image.RGBA) (n int) {
		for i := 0; i < len(img.Pix); i += 4 {
			if img.Pix[i] > 170 && img.Pix[i+1] < 120 && img.Pix[i+2] < 60 {
				n++
			}
		}
		return n
	}
	if dark, bright := lit(draw(false)), lit(draw(true)); dark > 0 || bright < 20 {
		t.Errorf("%d pixels lit without a touch and %d with one", dark, bright)
	}
}

func TestEveryActIsOfItsOwn(t *testing.T) {
	var keys []string
	for i := range Acts {
		if slices.Contains(keys, Acts[i].Key) {
			t.Errorf("%s stands twice", Acts[i].Key)
		}
		keys = append(keys, Acts[i].Key)
		if ActByKey(Acts[i].Key) != &Acts[i] {
			t.Errorf("%s is not found", Acts[i].Key)
		}
	}
	if ActByKey("no such activity") != nil {
		t.Error("an unknown activity is shown")
	}
}
