package kinematics_test

import (
	"os"
	"path/filepath"
	"testing"

	. "rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/sphere"
	"rimclear/kinematics/unit"
)

// recorded reads a recording as a requirement.
func recorded(t testing.TB, file string, side hip.Side) motion.Requirement {
	t.Helper()
	f, err := os.Open(file)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	table, err := motion.ReadTable(f)
	if err != nil {
		t.Fatal(err)
	}
	r, err := table.Recording(table.Guess(side).Mapping)
	if err != nil {
		t.Fatal(err)
	}
	return r.Requirement(filepath.Base(file), "", motion.NoRisk, motion.Setting{Mechanical: motion.UsualMechanical})
}

// checkRecorded runs a recording through target, map and verdict.
func checkRecorded(t *testing.T, m motion.Requirement) {
	d := stemmed()
	list := []motion.Requirement{m}
	a := target(t, Search{Design: d, Required: list})
	if !a.Fits || a.Demanded <= 0 || a.Gap.Degrees() > 2e-9 {
		t.Fatalf("%s: demanded %.4f°, gap %.3g°", m.Key, a.Demanded.Degrees(), a.Gap.Degrees())
	}
	us, _ := directions(Hip{}, d.Stem, list, degrees(0.2))
	var most unit.Angle
	for _, u := range us {
		most = max(most, sphere.Between(a.Best.Axis, u))
	}
	if off := (a.Demanded/2 - most).Degrees(); off < -1e-9 || off > 1e-3 {
		t.Errorf("%s: smallest cap %.6f°, farthest sampled posture %.6f°", m.Key, a.Demanded.Degrees()/2, most.Degrees())
	}
	c := caseOf(d)
	c.Hip = Hip{}
	got := survey(t, c, list, PlacementGrid(hip.ByRadiograph, hip.APP), 2)
	for _, at := range [][2]int{{0, 0}, {25, 35}, {60, 10}} {
		d.Cup = cupAt(got.Grid.Across.At(at[0]), got.Grid.Up.At(at[1]))
		margin, _ := got.At(at[0], at[1])
		about(t, m.Key+": margin of a cell", margin.Degrees(), Assemble(Hip{}, d, roundAperture).LeastOf(m.Paths).Margin.Degrees(), 1e-4)
	}
	t.Logf("%s: %d samples demand %.2f°", m.Key, len(m.Paths[0].Waypoints), a.Demanded.Degrees())
}

func TestInventedRecordingsRunThrough(t *testing.T) {
	checkRecorded(t, recorded(t, "../testdata/recordings/invented_walk.csv", hip.Right))
	checkRecorded(t, recorded(t, "../testdata/recordings/invented_chair.csv", hip.Right))
}

// TestOpenRecordingsRunThrough needs RIMCLEAR_RECORDINGS, a folder of tables.
func TestOpenRecordingsRunThrough(t *testing.T) {
	folder := os.Getenv("RIMCLEAR_RECORDINGS")
	if folder == "" {
		t.Skip("RIMCLEAR_RECORDINGS names no folder of recordings")
	}
	files, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil || len(files) == 0 {
		t.Fatalf("no *.csv in RIMCLEAR_RECORDINGS (%v)", err)
	}
	for _, file := range files {
		checkRecorded(t, recorded(t, file, hip.Right))
	}
}
