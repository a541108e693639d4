package hip

import "rimclear/kinematics/tabletest"

// How these tests read and compare.
var (
	published = tabletest.Published
	angle     = tabletest.Angle
	closeTo   = tabletest.CloseTo
)
