package casefile

import (
	"strings"
	"testing"

	"rimclear/kinematics"
)

func TestTheMotionsOfACaseComeBack(t *testing.T) {
	for _, motions := range []kinematics.Motions{"", "stoop", kinematics.JoinMotions("walk_1", "stoop", "not_in_any_library")} {
		f := File{Case: kinematics.Default()}
		f.Case.Goal.Motions, f.Case.Goal.Criteria = motions, "strict"
		data, err := Encode(f)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Decode(data)
		if err != nil || got.Case.Goal != f.Case.Goal {
			t.Errorf("%q came back as %+v, %v", motions, got.Case.Goal, err)
		}
	}
}

func TestACaseWithoutMotionsAsksForTheUsualOnes(t *testing.T) {
	got, err := Decode([]byte(`{"format":"rimclear-case","version":1,"designs":[{}]}`))
	if err != nil || got.Case.Goal != kinematics.Default().Goal || len(got.Case.Goal.Motions.Keys()) < 5 {
		t.Errorf("goal %+v, %v", got.Case.Goal, err)
	}
}

func TestAMotionThatIsNoKeyIsRefused(t *testing.T) {
	for field, want := range map[string]string{
		`"motions":["a b"]`:   "motions[0]",
		`"motions":["a",3]`:   "motions[1]",
		`"motions":"stoop"`:   "motions",
		`"criteria":"A,B"`:    "criteria",
		`"criteria":["none"]`: "criteria",
	} {
		_, err := Decode([]byte(`{"format":"rimclear-case","version":1,` + field + `,"designs":[{}]}`))
		if err == nil || !strings.Contains(err.Error(), want+":") {
			t.Errorf("%s: %v, want %s named", field, err, want)
		}
	}
	f := File{Case: kinematics.Default()}
	f.Case.Goal.Motions = "Stoop!"
	if _, err := Encode(f); err == nil {
		t.Error("a motion that could not be read again is written")
	}
}

func TestARangeThatEndsBeforeItStartsIsRefused(t *testing.T) {
	_, err := Decode([]byte(`{"format":"rimclear-case","version":1,"bound_inclination_least_deg":60,"designs":[{}]}`))
	if err == nil || !strings.Contains(err.Error(), "must be above where the range starts, 60 degrees") {
		t.Errorf("error %v", err)
	}
}
