package figure

import (
	"bytes"
	"encoding/xml"
	"flag"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the golden files anew")

// embedded are the bytes of pictures, which depend on the compressor of the Go
// release; TestEmbeddedPictureIsThePicture looks at them.
var embedded = regexp.MustCompile(`base64,[^)"]*`)

// bareSVG returns f as SVG without fonts.
func bareSVG(t *testing.T, f Figure) string {
	t.Helper()
	c := NewSVG(f.Size, f.Title, f.Alt)
	c.Bare = true
	f.Draw(c)
	var b bytes.Buffer
	if err := c.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestGoldenSVG(t *testing.T) {
	small := hills(25)
	fr := NewFrame(Box(4, 4, 212, 192), Axis{Title: "x & y", Min: -3, Max: 3, Grid: true}, Axis{Title: "height", Min: -3, Max: 3, Unit: "°"}, Font{Size: 8})
	contours := Figure{Title: "Contours", Size: Pt(220, 200), Static: func(s *Surface) {
		p := Light()
		FillContours(s, fr, small, []float64{1, 3, 6}, []Colour{p.Ramp(0), p.Ramp(0.5), p.Ramp(1)})
		DrawContours(s, fr, small, []float64{1, 3, 6}, Stroke{Colour: p.Ink, Width: 0.5})
		LabelContours(s, fr, small, []float64{1, 3, 6}, TextStyle{Font: Font{Size: 7}, Colour: p.Ink, Plate: p.Paper},
			func(l float64) string { return Number(l, 0) })
		fr.Draw(s, p)
	}}
	for name, f := range map[string]Figure{"sampler-light": sampler(Light()), "sampler-dark": sampler(Dark()), "contours": contours} {
		got := embedded.ReplaceAllString(bareSVG(t, f), "base64,")
		path := filepath.Join("..", "..", "testdata", "figure", name+".svg")
		if *update {
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if a, b := strings.Split(got, "\n"), strings.Split(string(want), "\n"); got != string(want) {
			for i := range a {
				if i >= len(b) || a[i] != b[i] {
					t.Errorf("%s.svg, line %d:\n got %.300s\nwant %.300s", name, i+1, a[i], append(b, make([]string, len(a))...)[i])
					break
				}
			}
		}
	}
}

func TestSVGIsWellFormed(t *testing.T) {
	odd := Figure{Title: `a < b & "c"`, Alt: "<script>", Size: Pt(50, 50), Static: func(s *Surface) {
		s.Text(Pt(0, 20), "1 < 2 & \"3\" > \x00\xff'", TextStyle{Font: Font{Size: 8, Mono: true}, Colour: black})
	}}
	for _, f := range []Figure{sampler(Light()), chart(200, 10, Dark()), odd} {
		var b bytes.Buffer
		if err := f.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		d := xml.NewDecoder(&b)
		for {
			if _, err := d.Token(); err == io.EOF {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", f.Title, err)
			}
		}
	}
}

func TestEqualDrawingsGiveEqualBytes(t *testing.T) {
	for name, write := range map[string]func(io.Writer) error{
		"svg": func(w io.Writer) error { return sampler(Light()).WriteSVG(w) },
		"pdf": func(w io.Writer) error { return sampler(Light()).WritePDF(w) },
		"png": func(w io.Writer) error { return sampler(Light()).WritePNG(w, 1) },
	} {
		var a, b bytes.Buffer
		for _, w := range []io.Writer{&a, &b} {
			if err := write(w); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(a.Bytes(), b.Bytes()) {
			t.Errorf("%s: two writings differ", name)
		}
	}
}

func TestFailingWriterIsReported(t *testing.T) {
	for name, err := range map[string]error{
		"svg": sampler(Light()).WriteSVG(full{}),
		"pdf": sampler(Light()).WritePDF(full{}),
		"png": sampler(Light()).WritePNG(full{}, 1),
	} {
		if err == nil {
			t.Errorf("%s: no error from a full disk", name)
		}
	}
}

type full struct{}

func (full) Write([]byte) (int, error) { return 0, io.ErrShortWrite }
