package chart

import (
	"bytes"
	"flag"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"rimclear/app/figure"
	"rimclear/kinematics/hip"
)

var update = flag.Bool("update", false, "write the golden files anew")

// numbers in a golden file may differ in the last digit between processors
// that join a product and a sum into one step and those that do not.
var numbers = regexp.MustCompile(`-?\d+(\.\d+)?`)

const goldenTolerance = 0.03 // points

// described is the sentence on a chart, which names the side.
var described = regexp.MustCompile(`<desc>.*</desc>`)

// spatial are the charts that show space, and so are mirrored for a left hip.
var spatial = map[string]bool{"thigh_globe": true, "rim_clock": true}

func TestGoldenCharts(t *testing.T) {
	for _, c := range All {
		drawn := func(side hip.Side) []byte {
			return bareSVG(t, c.Draw(small(sample(side), 2), Look{Size: figure.Pt(380, 380), Palette: figure.Light()}))
		}
		folder := filepath.Join("..", "..", "testdata", "chart")
		compareGolden(t, filepath.Join(folder, c.Key+".svg"), drawn(hip.Right))
		if spatial[c.Key] {
			compareGolden(t, filepath.Join(folder, c.Key+"_left.svg"), drawn(hip.Left))
		} else if !bytes.Equal(described.ReplaceAll(drawn(hip.Right), nil), described.ReplaceAll(drawn(hip.Left), nil)) {
			t.Errorf("%s of a left hip differs from that of a right one", c.Key)
		}
	}
}

func bareSVG(t *testing.T, f figure.Figure) []byte {
	t.Helper()
	c := figure.NewSVG(f.Size, f.Title, f.Alt)
	c.Bare = true
	f.Draw(c)
	var b bytes.Buffer
	if err := c.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func compareGolden(t *testing.T, path string, got []byte) {
	t.Helper()
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (write it with -update and look at it)", err)
	}
	if !alike(got, want) {
		t.Errorf("%s: the chart has changed; look at it and run with -update if that was meant", filepath.Base(path))
	}
}

// alike reports whether two files are the same but for small differences of
// their numbers.
func alike(a, b []byte) bool {
	if bytes.Equal(a, b) {
		return true
	}
	if !bytes.Equal(numbers.ReplaceAll(a, []byte("#")), numbers.ReplaceAll(b, []byte("#"))) {
		return false
	}
	x, y := numbers.FindAll(a, -1), numbers.FindAll(b, -1)
	for i := range x {
		u, _ := strconv.ParseFloat(string(x[i]), 64)
		v, _ := strconv.ParseFloat(string(y[i]), 64)
		if math.Abs(u-v) > goldenTolerance {
			return false
		}
	}
	return true
}

func TestGoldenComparisonSeesAMovedPoint(t *testing.T) {
	file := bareSVG(t, All[0].Draw(small(sample(hip.Right), 1), Look{Size: figure.Pt(300, 300), Palette: figure.Light()}))
	at := numbers.FindAllIndex(file, -1)
	last := at[len(at)/2]
	moved := append(append(append([]byte(nil), file[:last[0]]...), "9999.5"...), file[last[1]:]...)
	if !alike(file, file) || alike(file, moved) {
		t.Error("the comparison does not tell a moved point from an unmoved one")
	}
}
