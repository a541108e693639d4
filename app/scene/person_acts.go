package scene

// Acts are the activities a whole person is drawn in, in the order in which they
// are shown.
var Acts = []Act{
	{Key: "sit_to_stand", camera: seatedView, set: chairUnder(true),
		pose: func(m moment) *stance { return sitting(m, 88, 12, same) }},
	{Key: "low_chair", camera: seatedView, set: chairUnder(false),
		pose: func(m moment) *stance { return sitting(m, 102, 12, same) }},
	{Key: "sit_at_ease", camera: seatedView, set: chairUnder(true),
		pose: func(m moment) *stance { return sitting(m, 90, 16, same) }},
	{Key: "about_to_rise", camera: seatedView, set: chairUnder(false),
		pose: func(m moment) *stance { return sitting(m, 84, 26, same) }},
	{Key: "sit_to_stand_knees_together", camera: from(36, 9, 1900, -130, 800), set: chairUnder(true),
		pose: func(m moment) *stance { return sitting(m, 88, 12, same) }},
	{Key: "leg_crossed", camera: from(36, 9, 1900, -130, 800), set: chairUnder(true), pose: crossingLegs},
	{Key: "shoe_on_floor", camera: seatedView, set: chairUnder(false), pose: tyingShoe},
	{Key: "shoe_ankle_on_knee", camera: from(36, 9, 1900, -130, 800), set: chairUnder(false), pose: puttingOnSock},
	{Key: "stoop", camera: standingView, set: openFloor, pose: func(m moment) *stance { return pickingUp(m, 40, 12, 190) }},
	{Key: "lift_between_feet", camera: standingView, set: boxAhead, pose: func(m moment) *stance { return lifting(m, 22, 6, 44) }},
	{Key: "lift_squatting", camera: standingView, set: boxAhead, pose: func(m moment) *stance { return lifting(m, 66, 20, 22) }},
	{Key: "squat", camera: standingView, set: openFloor, pose: func(m moment) *stance { return squatting(m, 100, 24, 0) }},
	{Key: "squat_full", camera: standingView, set: openFloor, pose: func(m moment) *stance { return squatting(m, 112, 32, 0) }},
	{Key: "crouch_and_turn", camera: standingView, set: openFloor, pose: func(m moment) *stance { return squatting(m, 84, 20, -40) }},
	{Key: "kneel", camera: standingView, set: openFloor, pose: func(m moment) *stance { return kneeling(m, 72, 4, false) }},
	{Key: "kneel_prostration", camera: from(66, 10, 1900, 120, 700), set: openFloor, pose: func(m moment) *stance { return kneeling(m, 52, 42, true) }},
	{Key: "cross_legged", camera: from(34, 12, 1900, 0, 760), set: openFloor, pose: crossLegged},
	{Key: "heel_strike", camera: from(66, 8, 1950, 0, 830), set: openFloor, pose: walking},
	{Key: "toe_off", camera: from(66, 8, 1950, 0, 830), set: openFloor, pose: walking},
	{Key: "stride_behind", camera: from(66, 8, 1950, 0, 830), set: openFloor, pose: walking},
	{Key: "stairs_up", camera: from(64, 9, 2050, 230, 860), set: stairsUp, pose: climbing},
	{Key: "stairs_down", camera: from(58, 9, 2050, 60, 900), set: stairsDown, pose: descending},
	{Key: "pivot_standing", camera: from(44, 9, 1950, 0, 830), set: openFloor, pose: turningRound},
	{Key: "standing_twist", camera: from(30, 9, 1950, 0, 830), set: openFloor, pose: turningRound},
	{Key: "roll_in_bed", camera: from(-58, 24, 2550, 80, 470), set: bedUnder, pose: turningInBed},
	{Key: "lie_turned_out", camera: from(52, 30, 2550, 80, 440), set: bedUnder, pose: lyingOnBack},
}

var (
	seatedView   = from(52, 9, 1900, -150, 800)
	standingView = from(56, 9, 1900, -20, 800)
)
