package casefile

import (
	"math/rand/v2"
	"strings"
	"testing"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

func none(string) bool { return false }

// walked is a recording of n samples at 100 a second, with noise in every digit.
func walked(n int) Recording {
	r := rand.New(rand.NewPCG(1, 2))
	rec := Recording{Name: "Walk, invented", Risk: motion.Anterior, Mapping: motion.Mapping{
		Time: motion.TimeColumn{Column: "t", Unit: motion.InMilliseconds, Rate: 100}, Unit: motion.InRadians,
		Channels: [3]motion.Channel{{Column: "a"}, {Column: "b", Negative: true, Offset: -3 * unit.Degree}, {}},
	}}
	rec.Zero = motion.Zero{Reference: motion.PostureReference, Plane: hip.Standing, Basis: motion.Own}
	rec.Mechanical = true
	for i := range n {
		rec.Times = append(rec.Times, float64(i)/100+r.Float64()/1000)
		rec.Postures = append(rec.Postures, hip.Posture{
			Flexion:          unit.Angle(r.Float64()-0.5) * 55 * unit.Degree,
			Adduction:        unit.Angle(r.Float64()-0.5) * 30 * unit.Degree,
			InternalRotation: unit.Angle(r.Float64()-0.5) * 30 * unit.Degree,
		})
	}
	return rec
}

// kept is a case with that recording.
func kept(t testing.TB, r Recording) File {
	t.Helper()
	f, _, err := varied(t).Recorded(r, none)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func TestARecordingComesBackSampleForSample(t *testing.T) {
	want := kept(t, walked(500))
	want.Recordings[0].Others = []Member{{Key: "later", Value: []byte(`[1,{"a":2}]`)}}
	data, err := Encode(want)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	if !got.Same(want) {
		t.Errorf("read back it differs:\n%.600s", data)
	}
	if got := strings.Join(got.Unknown(), " "); got != "recordings[0].later" {
		t.Errorf("unknown fields %q", got)
	}
	r := got.Recordings[0]
	if want := walked(500); r.Key != "recorded_walk__invented" || r.Mapping.Time != want.Mapping.Time ||
		r.Zero != want.Zero || !r.Mechanical || r.Risk != want.Risk {
		t.Errorf("read back as %+v", r.Mapping)
	}
	for i, w := range walked(500).Postures {
		if (w.Flexion - r.Postures[i].Flexion).Abs() > 1e-9*unit.Degree {
			t.Fatalf("sample %d: flexion %v, want %v", i, r.Postures[i].Flexion, w.Flexion)
		}
	}
}

func TestTheLargestRecordingsFit(t *testing.T) {
	f := varied(t)
	for range MaxRecordings {
		var err error
		if f, _, err = f.Recorded(walked(MaxSamples), none); err != nil {
			t.Fatal(err)
		}
	}
	data, err := Encode(f)
	if err != nil {
		t.Fatalf("%d bytes: %v", len(data), err)
	}
	t.Logf("%d recordings of %d samples take %.1f MB", MaxRecordings, MaxSamples, float64(len(data))/(1<<20))
	back, err := Decode(data)
	if err != nil || !back.Same(f) {
		t.Errorf("read back: same %v, %v", back.Same(f), err)
	}
	if _, _, err := f.Recorded(walked(2), none); err == nil || !strings.Contains(err.Error(), "at most 10 recordings") {
		t.Errorf("one more: %v", err)
	}
	if _, _, err := varied(t).Recorded(walked(MaxSamples+1), none); err == nil || !strings.Contains(err.Error(), "20001 samples: a case keeps at most 20000") {
		t.Errorf("one sample more: %v", err)
	}
}

func TestRecordingsOfOneNameHaveKeysOfTheirOwn(t *testing.T) {
	f := kept(t, walked(2))
	if _, r, err := f.Recorded(walked(2), none); err != nil || r.Key != "recorded_walk__invented_2" {
		t.Errorf("key of the second %q, %v", r.Key, err)
	}
	known := func(key string) bool { return key == "recorded_walk__invented_2" }
	f, r, err := f.Recorded(walked(2), known)
	if err != nil || r.Key != "recorded_walk__invented_3" || f.Recording(r.Key) != 1 {
		t.Errorf("key %q at %d, %v", r.Key, f.Recording(r.Key), err)
	}
}

func TestLongAndStrangeHeadingsOfATableDoNotStandInTheWay(t *testing.T) {
	r := walked(2)
	r.Name, r.Mapping.Time.Column = strings.Repeat("ü\t", 100), "a\x00b\xff"+strings.Repeat("x", 300)
	f := kept(t, r)
	if _, err := Encode(f); err != nil {
		t.Error(err)
	}
}

func TestTheBoundsOfARecordingAreThoseOfItsImport(t *testing.T) {
	for a := hip.Flexion; a <= hip.InternalRotation; a++ {
		r := walked(2)
		r.Postures[0] = hip.Posture{}.With(a, motion.Range(a))
		r.Postures[1] = r.Postures[0].With(a, motion.Range(a)-motion.FarthestStep)
		if field, must := r.Rounded().fault(); must != "" {
			t.Errorf("at the bounds: %s %s", field, must)
		}
		r.Postures[1] = r.Postures[0].With(a, motion.Range(a)-motion.FarthestStep-unit.Degree/1000)
		if field, _ := r.Rounded().fault(); field != angleFields[a]+"_deg[1]" {
			t.Errorf("a jump is found at %q", field)
		}
		r.Postures[0] = hip.Posture{}.With(a, motion.Range(a)+unit.Degree/1000)
		if field, _ := r.Rounded().fault(); field != angleFields[a]+"_deg[0]" {
			t.Errorf("an angle out of range is found at %q", field)
		}
	}
}

func TestWhatIsWrongWithARecordingIsNamed(t *testing.T) {
	whole := `"key":"recorded_x","name":"x","time_s":[0,1],"flexion_deg":[1,2],"adduction_deg":[1,2],"internal_rotation_deg":[1,2]`
	for _, tt := range []struct{ file, want string }{
		{`{"recordings":3}`, "recordings: 3: must be a list"},
		{`{"recordings":[3]}`, "recordings[0]: 3: must be an object"},
		{`{"recordings":[{}]}`, "recordings[0].time_s: must be there"},
		{`{"recordings":[{` + whole + `},{` + whole + `}]}`, "recordings[1].key: recorded_x: must not be the key of another"},
		{`{"recordings":[{` + strings.Replace(whole, "[0,1]", "[0,null]", 1) + `}]}`, "recordings[0].time_s: [0,null]: must be a list"},
		{`{"recordings":[{` + strings.Replace(whole, "[0,1]", "[1,1]", 1) + `}]}`, "recordings[0].time_s[1]: must be later"},
		{`{"recordings":[{` + strings.Replace(whole, "[0,1]", "[0,1,2]", 1) + `}]}`, "flexion_deg: 2 samples: must be as many as in time_s, 3"},
		{`{"recordings":[{` + strings.Replace(whole, "[1,2]", "[1,200]", 1) + `}]}`, "recordings[0].flexion_deg[1]: must be from -180"},
		{`{"recordings":[{` + strings.Replace(whole, "recorded_x", "A", 1) + `}]}`, `recordings[0].key: "A": must be 1 to 60`},
		{`{"recordings":[{"risk":"some",` + whole + `}]}`, `recordings[0].risk: "some": must be one of none, posterior, anterior`},
		{`{"recordings":[{"mechanical_axis":1,` + whole + `}]}`, "mechanical_axis: 1: must be true or false"},
		{`{"recordings":[{"mapping":{"more":1},` + whole + `}]}`, "recordings[0].mapping.more: is not a field"},
		{`{"recordings":[{"mapping":{"samples_hz":-1},` + whole + `}]}`, "mapping.samples_hz: -1: must be a number from 0"},
	} {
		_, err := Decode([]byte(`{"format":"rimclear-case","version":2,"designs":[{}],` + tt.file[1:]))
		if err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%.60s: error %v, want %q", tt.file, err, tt.want)
		}
	}
}
