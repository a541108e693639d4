package cohort

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"strings"
	"testing"

	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
)

// sample returns a cohort of so many cases that differ in cup, stem, tilt and
// sizes, as CSV; lipped ones each have a lip of their own.
func sample(count int, lip bool) string {
	r := rand.New(rand.NewPCG(31, 32))
	var b strings.Builder
	b.WriteString("id,side,head_diameter_mm,neck_diameter_mm,cup_inclination_deg,cup_anteversion_deg,stem_anteversion_deg,neck_shaft_deg,tilt_standing_deg")
	if lip {
		b.WriteString(",lip_height_deg,lip_centre_deg,lip_plateau_deg,lip_ramp_deg")
	}
	b.WriteString("\n")
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for i := range count {
		fmt.Fprintf(&b, "case-%06d,%s,%g,%.1f,%.1f,%.1f,%.1f,%.1f,%.1f", i, []string{"right", "left"}[r.IntN(2)],
			[]float64{28, 32, 36, 40}[r.IntN(4)], between(11, 14), between(30, 55), between(0, 35), between(0, 30), between(125, 140), between(-15, 15))
		if lip {
			fmt.Fprintf(&b, ",%.2f,%.1f,%.1f,%.1f", between(8, 15), between(-160, -60), between(40, 90), between(15, 40))
		}
		b.WriteString("\n")
	}
	return b.String()
}

// objects returns a CSV cohort as NDJSON.
func objects(text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	names := strings.Split(lines[0], ",")
	var b strings.Builder
	for _, line := range lines[1:] {
		for i, cell := range strings.Split(line, ",") {
			p := kinematics.ParameterByKey(names[i])
			if p == nil || p.Kind == kinematics.Choice {
				quoted, _ := json.Marshal(cell)
				cell = string(quoted)
			}
			front := ","
			if i == 0 {
				front = "{"
			}
			fmt.Fprintf(&b, "%s%q:%s", front, names[i], cell)
		}
		b.WriteString("}\n")
	}
	return b.String()
}

func benchmark(b *testing.B, f Format, lip bool) {
	count := 5000
	if lip {
		count = 100
	}
	in := sample(count, lip)
	if f == NDJSON {
		in = objects(in)
	}
	for _, workers := range []int{1, 2} {
		b.Run(fmt.Sprintf("%dworkers", workers), func(b *testing.B) {
			s := Settings{Base: kinematics.Default(), Format: f, Workers: workers}
			b.ReportAllocs()
			for b.Loop() {
				t, err := Run(context.Background(), s, bytes.NewReader([]byte(in)), io.Discard, Report{})
				if err != nil || t.Answered != count || t.Faults > 0 {
					b.Fatal(t, err)
				}
			}
			b.ReportMetric(float64(count)*float64(b.N)/b.Elapsed().Seconds(), "rows/s")
		})
	}
}

func BenchmarkCohortCSVRound(b *testing.B)    { benchmark(b, CSV, false) }
func BenchmarkCohortNDJSONRound(b *testing.B) { benchmark(b, NDJSON, false) }
func BenchmarkCohortCSVLip(b *testing.B)      { benchmark(b, CSV, true) }
func BenchmarkCohortNDJSONLip(b *testing.B)   { benchmark(b, NDJSON, true) }

// BenchmarkApertureLip builds one lipped aperture: what a lipped row is held
// against.
func BenchmarkApertureLip(b *testing.B) {
	c := kinematics.Default()
	for key, v := range map[string]float64{"lip_height_deg": 12, "lip_centre_deg": -110, "lip_plateau_deg": 60, "lip_ramp_deg": 30} {
		c = kinematics.ParameterByKey(key).Set(c, 0, v)
	}
	for b.Loop() {
		aperture.Build(c.Designs[0].Rim, c.Designs[0].Neck)
	}
}
