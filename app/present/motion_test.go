package present

import (
	"bytes"
	"strings"
	"testing"

	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// demandedOfMotion adds the words that motions and bearings ask for.
func demandedOfMotion(t *testing.T, add func(section, key string)) {
	t.Helper()
	for _, data := range assets.Activities() {
		l, err := motion.Read(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range l.Activities {
			add(activitySection, a.Key)
		}
		for _, s := range l.Criteria {
			add(setSection, s.Key)
		}
	}
	for _, data := range assets.Bearings() {
		list, err := kinematics.ReadCatalogue(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range list {
			add(bearingSection, b.Key)
		}
	}
	for section, keys := range map[string][]string{
		criterionSection: motion.MovementKeys, basisSection: motion.BasisKeys, referenceSection: motion.ReferenceKeys,
		planeSection: motion.PlaneKeys, categorySection: motion.CategoryKeys, riskSection: motion.RiskKeys,
		togetherSection: motion.TogetherKeys, mobilitySection: motion.MobilityKeys, standingSection: kinematics.StandingKeys,
	} {
		for _, key := range keys {
			add(section, key)
		}
	}
}

func TestEveryKindOfMotionHasAsManyKeysAsValues(t *testing.T) {
	for name, pair := range map[string][2]int{
		"basis":     {len(motion.BasisKeys), int(motion.BasisCount)},
		"reference": {len(motion.ReferenceKeys), int(motion.ReferenceCount)},
		"category":  {len(motion.CategoryKeys), int(motion.CategoryCount)},
		"risk":      {len(motion.RiskKeys), int(motion.RiskCount)},
		"together":  {len(motion.TogetherKeys), int(motion.TogetherCount)},
		"movement":  {len(motion.MovementKeys), int(motion.MovementCount)},
		"mobility":  {len(motion.MobilityKeys), int(motion.MobilityCount)},
		"standing":  {len(kinematics.StandingKeys), int(kinematics.StandingCount)},
	} {
		if pair[0] != pair[1] {
			t.Errorf("%s has %d keys for %d values", name, pair[0], pair[1])
		}
	}
}

func TestARequirementGoesByItsEverydayNameOrItsAngle(t *testing.T) {
	w := English()
	set := motion.CriteriaSet{}.With(motion.ExternalAt0, motion.Stated{Angle: 40 * 3.14159265358979 / 180})
	if got := w.Requirement(set.Requirements()[0]); !strings.Contains(got, "40°") || !strings.Contains(got, "external") {
		t.Errorf("criterion %q", got)
	}
	if got := w.Criterion(set.Criteria[0]); got != w.Requirement(set.Requirements()[0]) {
		t.Errorf("criterion %q", got)
	}
	if got := w.Requirement(motion.Requirement{Key: "stoop"}); strings.Contains(got, "stoop") || got == "" {
		t.Errorf("activity %q, want its everyday name", got)
	}
	if got := w.Requirement(motion.Requirement{Key: "gardening", Name: "Gardening"}); got != "Gardening" {
		t.Errorf("a user's activity %q", got)
	}
	if got := w.Requirement(motion.Requirement{Kind: motion.OfRecording, Key: "walk_1"}); got != "walk_1" {
		t.Errorf("a recording %q", got)
	}
}
