package main

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

func TestTheEnvelopeEndsWhereTheLimitsAre(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and what it asks is raced elsewhere")
	}
	for _, sample := range sampleNames() {
		f, err := sampleCase(sample)
		if err != nil {
			t.Fatal(err)
		}
		c := f.Case
		c.Posture = hip.Neutral
		got := jsonOf[envelopeRecord](t, "", "envelope", "--sample", sample, "--slice", "flexion_rotation", "--flexion-deg", "0", "--adduction-deg", "0", "--internal-rotation-deg", "0")
		for i, d := range got.Designs {
			s := d.Slices[0]
			j := kinematics.NewJoint(c.Hip, c.Designs[i])
			l := j.Limit(kinematics.FlexionMovement.Path(hip.Neutral, 160*unit.Degree, c.Hip.PosturePlane))
			row := s.Free[12] // of no rotation
			if *s.Y.Values[12] != 0 || len(row) == 0 {
				t.Fatalf("%s %s: y %g, free %v", sample, d.Design, *s.Y.Values[12], row)
			}
			last := row[len(row)-1]
			for _, x := range row {
				if *x.From <= 0 && *x.To >= 0 {
					last = x
				}
			}
			if l.Status == kinematics.Stopped && math.Abs(*last.To-l.Angle.Degrees()) > 1e-5 || last.Ends != (l.Status == kinematics.Free) {
				t.Errorf("%s %s: free to %g, %v; the limit is %g", sample, d.Design, *last.To, last.Ends, l.Angle.Degrees())
			}
		}
	}
}

func TestEveryPointOfASliceHasTheMarginOfItsPosture(t *testing.T) {
	rows := rowsOf(t, calc(t, "", "envelope", "--slice", "thigh_reach", "--internal-rotation-deg", "15", "--step", "30", "--csv", "--side", "left"))
	c := kinematics.Default()
	c.Hip.Side = hip.Left
	j := kinematics.NewJoint(c.Hip, c.Designs[0])
	free := 0
	for _, row := range rows {
		at := func(column string) float64 {
			v, err := strconv.ParseFloat(row[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		p := hip.Posture{Flexion: unit.Angle(at("flexion_deg")) * unit.Degree, Adduction: unit.Angle(at("adduction_deg")) * unit.Degree, InternalRotation: 15 * unit.Degree}
		if want := j.Margin(p).Degrees(); math.Abs(at("margin_deg")-want) > 1e-5 || (row["free"] == "true") != (want > kinematics.Touch.Degrees()) || at("internal_rotation_deg") != 15 {
			t.Errorf("row %v, want %g", row, want)
		}
		v := hip.Left.Mirror(kinematics.ShaftDirection(p))
		if math.Abs(at("thigh_right")-v.Z) > 1e-5 || math.Abs(at("thigh_anterior")-v.X) > 1e-5 {
			t.Errorf("thigh of %v, want %v", row, v)
		}
		if row["free"] == "true" {
			free++
		}
	}
	if len(rows) != 10*7 || free == 0 || free == len(rows) {
		t.Errorf("%d rows, %d free", len(rows), free)
	}
}

func TestStretchesAreWhereAFunctionIsTrue(t *testing.T) {
	a := kinematics.Axis{From: -10 * unit.Degree, To: 10 * unit.Degree}
	list := stretches(func(v unit.Angle) bool { d := v.Degrees(); return d < -7.25 || d > -1.5 && d < 3.125 }, a)
	if len(list) != 2 || !list[0].open || list[0].ends || math.Abs(list[0].to.Degrees()+7.25) > 1e-9 ||
		math.Abs(list[1].from.Degrees()+1.5) > 1e-9 || math.Abs(list[1].to.Degrees()-3.125) > 1e-9 || list[1].ends {
		t.Errorf("stretches %+v", list)
	}
	if list := stretches(func(unit.Angle) bool { return false }, a); len(list) != 0 {
		t.Errorf("nowhere: %+v", list)
	}
	if list := stretches(func(unit.Angle) bool { return true }, a); len(list) != 1 || !list[0].open || !list[0].ends {
		t.Errorf("throughout: %+v", list)
	}
}

func TestTheEnvelopeTextIsGolden(t *testing.T) {
	r := calc(t, "", "envelope", "--step", "20")
	if r.code != fine || r.errs != "" || !strings.Contains(r.out, "not a medical device") {
		t.Fatalf("code %d, errors %q", r.code, r.errs)
	}
	sameAsGolden(t, "envelope.txt", r.out)
}

func TestAPointOfASliceIsFreeOnlyWhereTheExactShapesAre(t *testing.T) {
	design := []string{"--side", "left", "--cup-arc-deg", "177.3", "--head-diameter-mm", "41.4", "--neck-diameter-mm", "8.4", "--inset-mm", "2.1",
		"--skirt-diameter-mm", "16", "--skirt-length-mm", "21", "--lip-height-deg", "14", "--lip-centre-deg", "160", "--lip-plateau-deg", "61", "--lip-ramp-deg", "12"}
	rows := rowsOf(t, calc(t, "", append([]string{"envelope", "--slice", "flexion_rotation", "--step", "10", "--csv"}, design...)...))
	c := kinematics.Default()
	c.Hip.Side = hip.Left
	rim, neck := &c.Designs[0].Rim, &c.Designs[0].Neck
	rim.Arc, rim.HeadDiameter, rim.Inset, neck.Diameter = 177.3*unit.Degree, 41.4, 2.1, 8.4
	rim.Lips[0] = implant.Lip{Height: 14 * unit.Degree, Centre: 160 * unit.Degree, Plateau: 61 * unit.Degree, Ramp: 12 * unit.Degree}
	neck.Skirt = implant.Skirt{Diameter: 16, Length: 21}
	j := kinematics.NewJoint(c.Hip, c.Designs[0])
	for _, row := range rows {
		p := hip.Posture{}
		for column, to := range map[string]*unit.Angle{"flexion_deg": &p.Flexion, "adduction_deg": &p.Adduction, "internal_rotation_deg": &p.InternalRotation} {
			v, err := strconv.ParseFloat(row[column], 64)
			if err != nil {
				t.Fatal(err)
			}
			*to = unit.Angle(v) * unit.Degree
		}
		want := j.Contact(p)
		got, err := strconv.ParseFloat(row["margin_deg"], 64)
		if err != nil || math.Abs(got-want.Margin.Degrees()) > 1e-5 || (row["free"] == "true") == want.InContact() {
			t.Errorf("at %v: margin %s, free %s; the exact shapes are apart by %.6f", p, row["margin_deg"], row["free"], want.Margin.Degrees())
		}
	}
}
