package present

import "rimclear/kinematics"

// ZoneRow says whether a published zone holds a placed cup.
type ZoneRow struct {
	Key    string
	Name   string
	Inside bool
	State  string // "inside", "outside"
	Note   string // where the zone comes from, how firm it is, what speaks against it
}

// ZoneRows says of every published zone whether it holds the cup of a design.
// None is a promise.
func (w *Words) ZoneRows(h kinematics.Hip, d kinematics.Design) []ZoneRow {
	rows := make([]ZoneRow, len(kinematics.Zones))
	for i, z := range kinematics.Zones {
		rows[i] = ZoneRow{Key: z.Key, Name: w.Zone(z), Inside: z.Holds(h, d.Cup, d.Stem.Anteversion), Note: w.ZoneNote(z)}
		rows[i].State = w.Phrase("zone_outside")
		if rows[i].Inside {
			rows[i].State = w.Phrase("zone_inside")
		}
	}
	return rows
}
