package main

// gauge is one line of the speed page: a benchmark, its figure, and what bounds
// it.
type gauge struct {
	what  string
	room  string // below the module
	bench string // with its sub-benchmark
	unit  string // of go test's figures
	shown string // the unit written
	scale float64
	bound string
	peers []peer
}

// peer is a line of a peer program's output that a gauge is held against. scale
// brings its figure to the gauge's unit.
type peer struct {
	name   string // written on the page
	line   string // what the line begins with
	figure string
	scale  float64
}

// pairs is how many motions the standard grid asks.
const pairs = 61 * 61 * 12

// gauges are the lines in their order. Figures in ms, µs or ns of one processor
// unless the line says otherwise.
var gauges = []gauge{
	{"44,652 exact limits of a round bearing", "kinematics", "StandardGrid", "ns/op", "ms", 1e-6,
		"one arc cosine and two comparisons per arc of a motion; the processor's arithmetic, one thread",
		[]peer{
			{"C++ -O3 native, closed-form root", "grid.cpp -O3 native,exact limit angle, closed-form root", "median_ms", 1},
			{"C++ -O3 scalar, closed-form root", "grid.cpp -O3 scalar,exact limit angle, closed-form root", "median_ms", 1},
			{"C++ -O3 native, all poses", "grid.cpp -O3 native,dot product per pose, f64, all poses", "median_ms", 1},
			{"numpy float64", "numpy ,vectorised cos test float64", "median_ms", 1},
			{"FCL, 44,652 limits to 0.01°, 720 segments", "FCL 0.7 limit angle to 0.01 deg (scan + bisection on collide),seg 720", "median_us_per_limit", pairs * 1e-3},
		}},
	{"the same poses under a lipped cup", "kinematics", "LipGrid", "ns/op", "ms", 1e-6,
		"the aperture's table answers most poses; building the aperture and the poses near the rim remain",
		[]peer{
			{"C++ -O3 native, 360 rim points", "grid.cpp -O3 native,lip: 360 rim points, f32, stop at contact", "median_ms", 1},
			{"C++ -O3 scalar, 360 rim points", "grid.cpp -O3 scalar,lip: 360 rim points, f32, stop at contact", "median_ms", 1},
		}},
	{"one limit, round", "kinematics", "Limit/round", "ns/limit", "µs", 1e-3,
		"the closed form, the contact's points and its clearance in mm",
		[]peer{{"FCL, limit to 0.01°, 720 segments", "FCL 0.7 limit angle to 0.01 deg (scan + bisection on collide),seg 720", "median_us_per_limit", 1}}},
	{"one limit, lip", "kinematics", "Limit/lip", "ns/limit", "µs", 1e-3, "certified steps, and the exact search where they end", nil},
	{"one limit, oval neck", "kinematics", "Limit/oval", "ns/limit", "µs", 1e-3, "the same, turned about the neck", nil},
	{"one limit, lip and oval neck", "kinematics", "Limit/lip_and_oval", "ns/limit", "µs", 1e-3, "the gap is sought over rim and neck at once", nil},
	{"aperture built, lip", "kinematics/aperture", "Build/lip", "ns/op", "µs", 1e-3, "samples of the rim and their blocks; the table of the near boundary", nil},
	{"aperture built, oval neck", "kinematics/aperture", "Build/oval", "ns/op", "µs", 1e-3, "samples round the neck", nil},
	{"aperture built, lip and oval neck", "kinematics/aperture", "Build/lip_and_oval", "ns/op", "µs", 1e-3, "both", nil},
	{"aperture built for limits, without its table, lip", "kinematics/aperture", "BuildForLimits/lip", "ns/op", "µs", 1e-3, "samples of the rim", nil},
	{"free or not, round", "kinematics/aperture", "Free/round", "ns/op", "ns", 1, "one comparison", nil},
	{"free or not, lip", "kinematics/aperture", "Free/lip", "ns/op", "ns", 1, "one look into the table; memory",
		[]peer{
			{"FCL, mesh on mesh, 720 segments", "FCL 0.7 mesh x mesh,seg 720", "median_us_per_pose", 1e3},
			{"three-mesh-bvh, 720 segments", "three-mesh-bvh,tri cup 28800", "median_us_per_pose", 1e3},
		}},
	{"free or not, lip and oval neck", "kinematics/aperture", "Free/lip_and_oval", "ns/op", "ns", 1, "no table: the search over both",
		[]peer{{"FCL, mesh on mesh, 720 segments", "FCL 0.7 mesh x mesh,seg 720", "median_us_per_pose", 1e3}}},
	{"margin, lip", "kinematics/aperture", "Margin/lip", "ns/op", "ns", 1, "the nearest of the rim's blocks",
		[]peer{{"FCL, distance, 720 segments", "FCL 0.7 mesh x mesh,seg 720", "distance_query_us", 1e3}}},
	{"one slice of the envelope, round", "kinematics", "Region/round", "ns/op", "ms", 1e-6, "one arc cosine per posture", nil},
	{"one slice of the envelope, lip", "kinematics", "Region/lip", "ns/op", "ms", 1e-6, "a margin per posture", nil},
	{"map of 61×61 cups, 20 motions, round", "kinematics", "Map/round", "ns/op", "ms", 1e-6, "the farthest point of each arc from each axis", nil},
	{"map of 61×61 cups, 20 motions, lip", "kinematics", "Map/lip", "ns/op", "ms", 1e-6, "margins along motions that leave the inscribed cone", nil},
	{"placement to 0.5 % standard error, round, one criteria set", "kinematics", "Placement/round/criteria", "ns/op", "ms", 1e-6, "as many placements as the error asks", nil},
	{"placement to 0.5 % standard error, lip, 20 motions", "kinematics", "Placement/lip/twenty_motions", "ns/op", "ms", 1e-6, "the same, each motion of each placement searched", nil},
	{"cohort, CSV, round, one worker", "app/cohort", "CohortCSVRound/1workers", "rows/s", "rows/s", 1, "reading and writing cells", nil},
	{"cohort, CSV, round, two workers", "app/cohort", "CohortCSVRound/2workers", "rows/s", "rows/s", 1, "the same; rows are written in order", nil},
	{"cohort, CSV, a lip of its own per row, one worker", "app/cohort", "CohortCSVLip/1workers", "rows/s", "rows/s", 1, "one aperture built per row", nil},
	{"slider to picture, cup inclination", "app/view", "SliderDrag/cup_inclination_deg", "ns/op", "ms", 1e-6, "the joint drawn in software, all processors", nil},
	{"slider to picture, head diameter", "app/view", "SliderDrag/head_diameter_mm", "ns/op", "ms", 1e-6, "the same, with new parts", nil},
	{"stem slider to map of 20 motions", "app/view", "StemDrag", "median-ms", "ms", 1, "the map and its contours", nil},
	{"a chart of 500×500 drawn anew, slice of two designs", "app/chart", "Redraw/envelope_flexion_rotation/two", "ns/op", "ms", 1e-6, "margins over the slice, and its contours", nil},
	{"a chart of 500×500 drawn anew, thigh globe of two", "app/chart", "Redraw/thigh_globe/two", "ns/op", "ms", 1e-6, "the same on the sphere", nil},
	{"the report of two designs", "app/report", "Report/two", "ns/op", "ms", 1e-6, "placements and pictures", nil},
	{"the report of a lip over an oval neck", "app/report", "Report/lip_over_oval", "ns/op", "ms", 1e-6, "map and best cup, sought over rim and neck at once", nil},
	{"first picture, new home", "app/e2e", "Start/new", "ms-ready", "ms", 1, "the toolkit's own start under software OpenGL; fonts", nil},
	{"first picture, known home", "app/e2e", "Start/known", "ms-ready", "ms", 1, "the same", nil},
	{"memory after the start", "app/e2e", "Start/known", "MB", "MB", 1, "the toolkit, fonts, pictures of the joint", nil},
	{"pictures a second while a slider is dragged, built window", "app/e2e", "Drag/cup_inclination_deg", "pictures/s", "1/s", 1, "software OpenGL puts each picture on screen", nil},
	{"the same with four designs in Compare", "app/e2e", "CompareDrag/flexion_deg", "pictures/s", "1/s", 1, "the same", nil},
}

// checksums are what the two grids must come to, in the same run.
var checksums = map[string][2]float64{"StandardGrid": {3666522, 976}, "LipGrid": {3392914, 433}}
