package figure

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// pages returns a document of three pages of different sizes.
func pages(t *testing.T, d Document) []byte {
	t.Helper()
	var figs []Figure
	for i, name := range []string{"Motions", "Карта — µ", "Γράφημα"} {
		figs = append(figs, Figure{Title: name, Size: Pt(200+50*float64(i), 150), Static: func(s *Surface) {
			s.Place(sampler(Light()), Box(10, 10, 150, 100))
			s.Text(Pt(10, 140), name, TextStyle{Font: Font{Size: 12}, Colour: Fade(black, 0.8)})
		}})
	}
	var b bytes.Buffer
	if err := WritePDF(&b, d, figs...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestDocumentHasItsPagesAndSaysWhatItIs(t *testing.T) {
	pdfinfo := tool(t, "pdfinfo")
	data := pages(t, Document{Title: "Bericht ≥ 1", Author: "A. Nobody", Lang: "de", Marks: true,
		Date: time.Date(2024, 5, 6, 7, 8, 9, 0, time.UTC)})
	path := filepath.Join(t.TempDir(), "d.pdf")
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdfinfo, "-l", "3", path).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	text := strings.Join(strings.Fields(string(out)), " ")
	for _, want := range []string{"Title: Bericht ≥ 1", "Author: A. Nobody", "Pages: 3", "Page 1 size: 200 x 150", "Page 3 size: 300 x 150", "2024"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in\n%s", want, out)
		}
	}
}

// A label is free text: a smiling face in it must not cost the report.
func TestLettersThatNoFontHasDoNotStopADocument(t *testing.T) {
	f := Figure{Title: "😀", Size: Pt(200, 150), Static: func(s *Surface) {
		s.Text(Pt(10, 140), "hip 😀 模", TextStyle{Font: Font{Size: 12}, Colour: black})
	}}
	var b bytes.Buffer
	if err := WritePDF(&b, Document{Title: "😀", Subject: "😀", Marks: true}, f); err != nil || b.Len() == 0 {
		t.Errorf("%d bytes, %v", b.Len(), err)
	}
}

func TestEachPageOfADocumentKeepsItsWords(t *testing.T) {
	pdftotext := tool(t, "pdftotext")
	path := filepath.Join(t.TempDir(), "d.pdf")
	if err := os.WriteFile(path, pages(t, Document{}), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(pdftotext, path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	sheets := strings.Split(string(out), "\f")
	for i, want := range []string{"Motions", "Карта — µ", "Γράφημα"} {
		if i >= len(sheets) || !strings.Contains(sheets[i], want) {
			t.Errorf("page %d lacks %q", i+1, want)
		}
	}
}

func TestDocumentDependsOnItsDateAlone(t *testing.T) {
	a := pages(t, Document{Title: "x", Marks: true})
	if b := pages(t, Document{Title: "x", Marks: true}); !bytes.Equal(a, b) {
		t.Error("two writings of a document differ")
	}
	if b := pages(t, Document{Title: "x", Marks: true, Date: time.Unix(1e9, 0).UTC()}); bytes.Equal(a, b) {
		t.Error("the date does not reach the file")
	}
}

func TestUnusedFontsStayOutOfADocument(t *testing.T) {
	one := Figure{Size: Pt(50, 50), Static: func(s *Surface) {
		s.Text(Pt(0, 20), "x", TextStyle{Font: Font{Size: 8}, Colour: black})
	}}
	var b bytes.Buffer
	if err := one.WritePDF(&b); err != nil {
		t.Fatal(err)
	}
	if got := bytes.Count(b.Bytes(), []byte("/FontDescriptor /FontName")); got != 1 {
		t.Errorf("%d fonts in a file that uses one", got)
	}
}
