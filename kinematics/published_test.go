package kinematics

import "rimclear/kinematics/tabletest"

// How these tests read and compare.
var (
	published = tabletest.Published
	figure    = tabletest.Number
	tabled    = tabletest.Angle
	closeTo   = tabletest.CloseTo
)
