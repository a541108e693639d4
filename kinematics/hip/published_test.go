package hip

import "rimclear/kinematics/tabletest"

// How these tests read and compare.
var (
	published = tabletest.Published
	number    = tabletest.Number
	angle     = tabletest.Angle
	closeTo   = tabletest.CloseTo
)
