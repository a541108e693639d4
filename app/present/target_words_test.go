package present

import (
	"rimclear/kinematics"
)

// demandedOfTargets adds the words that targets ask for.
func demandedOfTargets(add func(section, key string)) {
	for _, z := range kinematics.Zones {
		add(zoneSection, z.Key)
		add(sourceSection, z.Source)
		if z.Doubt != "" {
			add(sourceSection, z.Doubt)
		}
	}
	for _, l := range kinematics.Loads {
		add(loadSection, l.Key)
		add(sourceSection, l.Source)
	}
	for _, p := range kinematics.ScatterPresets {
		add(scatterSection, p.Key)
		add(sourceSection, p.Source)
	}
	for _, key := range kinematics.VariableKeys {
		add(variesSection, key)
	}
	c := kinematics.Default()
	for _, t := range kinematics.NewJoint(c.Hip, c.Designs[0]).Totals() {
		add(totalSection, t.Key)
		add(sourceSection, t.Source)
	}
}
