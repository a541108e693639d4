package kinematics

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"rimclear/kinematics/hip"
)

// The reference is itself held against the golden set, which two others found.
func TestTheSolidsTouchWhereTheGoldenSetSays(t *testing.T) {
	worst := map[string]float64{}
	for i, r := range readGolden(t, "contact.csv") {
		if testing.Short() && i%8 != 0 {
			continue
		}
		h, d := r.design()
		m := movements[r["motion"]]
		start := hip.Posture{Flexion: r.angle("flex"), Adduction: r.angle("add"), InternalRotation: r.angle("ir")}
		path := m.Path(start, r.angle("end"), hip.APP)
		angle, sign := m.Joint()
		from := inDeg(sign * start.Angle(angle))
		got := newSolidPath(newSolidHip(h, d), h, path).contacts()
		var want []string
		if r["contact_intervals"] != "" {
			want = strings.Split(r["contact_intervals"], ";")
		}
		if len(got) != len(want) {
			t.Errorf("%s (%s): the solids touch in %v from %g, want %s", r["id"], r["category"], got, from, r["contact_intervals"])
			continue
		}
		for k, w := range want {
			a, b, _ := strings.Cut(w, ":")
			for e, bound := range []string{a, b} {
				x, _ := strconv.ParseFloat(bound, 64)
				if x0 := got[k][e] + from; math.Abs(x0-x) > math.Max(0.05, r.number("tol_deg")) {
					t.Errorf("%s (%s): bound %.4f°, want %s", r["id"], r["category"], x0, w)
				}
			}
		}
		if r["status"] == "limit" {
			off := math.Abs(got[0][0] + from - r.number("limit_deg"))
			worst[r["category"]] = math.Max(worst[r["category"]], off)
			if off > math.Max(2e-4, r.number("tol_deg")-0.01) {
				t.Errorf("%s (%s): first contact %.6f°, want %s", r["id"], r["category"], got[0][0]+from, r["limit_deg"])
			}
		}
	}
	t.Logf("largest difference per category in degrees: %v", worst)
}
