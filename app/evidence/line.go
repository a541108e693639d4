package evidence

import (
	"math"
	"strconv"

	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// line is a row of a table. A cell that is no number reads as one that holds
// nowhere.
type line struct{ assets.Row }

func (l line) number(column string) float64 {
	x, err := strconv.ParseFloat(l.Row[column], 64)
	if err != nil {
		return math.NaN()
	}
	return x
}

func (l line) angle(column string) unit.Angle { return deg(l.number(column)) }

// given reports whether the cell is not empty.
func (l line) given(column string) bool { return l.Row[column] != "" }

// table returns the rows of a published table.
func table(name string) []line {
	_, rows, err := assets.Published(name)
	if err != nil {
		panic(err) // it is built in
	}
	lines := make([]line, len(rows))
	for i, r := range rows {
		lines[i] = line{r}
	}
	return lines
}

// bearing is a head of so many mm on a cylindrical neck in a cup of an arc of so
// many degrees.
func bearing(head, neck, arc float64) kinematics.Design {
	return kinematics.Design{
		Rim:  implant.Rim{HeadDiameter: head, Arc: deg(arc), Wall: 5},
		Neck: implant.Neck{Diameter: neck},
	}
}

// placed is the bearing with a cup, radiographic angles of the APP, and a stem.
func placed(d kinematics.Design, ri, ra, version, neckShaft float64) kinematics.Design {
	d.Cup = kinematics.Cup{Inclination: deg(ri), Anteversion: deg(ra)}
	d.Stem = hip.Stem{Anteversion: deg(version), NeckShaft: deg(neckShaft)}
	return d
}

// usual is the hip of the tables: 32/12/180, cup 40/15, stem 15, neck-shaft 135.
func usual() kinematics.Design { return placed(bearing(32, 12, 180), 40, 15, 15, 135) }

// reach is how far a movement goes from a posture, in degrees, counted in its
// direction; not a number where it starts in contact.
func reach(d kinematics.Design, m kinematics.Movement, start hip.Posture) float64 {
	path := m.Path(start, 180*unit.Degree, hip.APP)
	l := kinematics.NewJoint(kinematics.Hip{}, d).Limit(path)
	if l.Status == kinematics.StartsInContact {
		return math.NaN()
	}
	return m.Reading(path, l.At).Degrees()
}

// directions are the columns of the tables of limits, and the movement each
// limits.
var directions = []struct {
	column   string
	movement kinematics.Movement
	flexion  float64
}{
	{"flexion", kinematics.FlexionMovement, 0}, {"extension", kinematics.Extension, 0},
	{"abduction", kinematics.Abduction, 0}, {"adduction", kinematics.AdductionMovement, 0},
	{"ir0", kinematics.Internal, 0}, {"er0", kinematics.External, 0},
	{"ir90", kinematics.Internal, 90}, {"er90", kinematics.External, 90},
}
