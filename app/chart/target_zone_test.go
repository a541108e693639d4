package chart

import (
	"testing"

	"rimclear/app/figure"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
)

// A name on the map lies on no other text, and on or beside the zone that bears
// it, however small the map.
func TestAZonesNameIsOnOrBesideItsOwnOutline(t *testing.T) {
	for _, g := range []kinematics.Grid{kinematics.PlacementGrid(hip.ByRadiograph, hip.APP), kinematics.VersionGrid(hip.ByRadiograph, hip.APP)} {
		of := targetOf(t, g)
		for _, size := range []figure.Point{{X: 300, Y: 420}, {X: 330, Y: 430}, {X: 460, Y: 480}, {X: 800, Y: 620}} {
			look := Look{Size: size, Palette: figure.Light()}.complete()
			m := targetMap{Target: of, look: look}
			m.layout()
			var w writing
			TargetMap(of, look).Draw(&w)
			named := 0
			for _, z := range of.Zones {
				o := zoneOutline{look.Words.Zone(z), m.zoneSpots(z)}
				for i, a := range w.texts {
					if a.text != o.name {
						continue
					}
					named++
					for j, b := range w.texts {
						if i != j && a.overlaps(b) {
							t.Errorf("at %v %q lies on %q", size, a.text, b.text)
						}
					}
					near := a.box.Max.X - a.box.Min.X // half of it, and a little
					if d := o.distance(a.box.Centre()); d > near/2+look.Text {
						t.Errorf("at %v the name %q is %.0f points from its zone", size, a.text, d)
					}
				}
			}
			if named < 6 {
				t.Errorf("at %v only %d of %d zones are named", size, named, len(of.Zones))
			}
		}
	}
}
