package motion

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Mapping says how the columns of a table are to be read as a recording.
type Mapping struct {
	Time     TimeColumn
	Channels [3]Channel // flexion, adduction, internal rotation
	Unit     AngleUnit
	Zero     Zero
	// Mechanical says that the angles are those of the mechanical axis, as
	// motion capture has them.
	Mechanical bool
}

// Channel is the column of one joint angle: the angle is the column's value,
// negated where the column counts the other way (extension, abduction, external
// rotation), plus Offset. Without a column the angle is held at Offset.
type Channel struct {
	Column   string
	Negative bool
	Offset   unit.Angle
}

// angle returns the joint angle for a value of the column.
func (c Channel) angle(value float64, u AngleUnit) unit.Angle {
	a := unit.Angle(value)
	if u == InDegrees {
		a *= unit.Degree
	}
	if c.Negative {
		a = -a
	}
	return a + c.Offset
}

// AngleUnit is the unit of a table's angles.
type AngleUnit int

const (
	InDegrees AngleUnit = iota
	InRadians
)

// TimeColumn is the column of time. Without a column, or in a column that
// counts samples, Rate gives the samples per second.
type TimeColumn struct {
	Column string
	Unit   TimeUnit
	Rate   float64
}

// TimeUnit is the unit of a column of time.
type TimeUnit int

const (
	InSeconds TimeUnit = iota
	InMilliseconds
	InSamples
)

// seconds returns the time of a row, by its value or its number from 0.
func (c TimeColumn) seconds(value float64, row int) float64 {
	switch {
	case c.Column == "":
		return float64(row) / c.Rate
	case c.Unit == InMilliseconds:
		return value / 1000
	case c.Unit == InSamples:
		return value / c.Rate
	}
	return value
}

// counted reports whether the time needs a rate.
func (c TimeColumn) counted() bool { return c.Column == "" || c.Unit == InSamples }

// ranges are how far each joint angle may go, in the order of hip.JointAngle.
var ranges = [3]unit.Angle{
	hip.Flexion:          180 * unit.Degree,
	hip.Adduction:        89 * unit.Degree,
	hip.InternalRotation: 180 * unit.Degree,
}

// farthestStep is how far a joint angle may jump from one row to the next:
// more is a break in the recording, or a wrong unit.
const farthestStep = 60 * unit.Degree
