package figure

import (
	"math"
	"strings"
	"testing"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"pgregory.net/rapid"
)

// letters holds what the program writes in its languages and formulas.
const letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,;:!?()[]{}%&/+-−–—=<>≤≥≠≈±×·•…°′″µ√∞½²³" +
	"ÄÖÜäöüßÀÁÂÃÇÈÉÊËÌÍÎÏÑÒÓÔÕÙÚÛàáâãçèéêëìíîïñòóôõùúûøåæœŒąćęłńśźżěščřžýůőűğışț" +
	"ΑΒΓΔΕΖΗΘΙΚΛΜΝΞΟΠΡΣΤΥΦΧΨΩαβγδεζηθικλμνξοπρστυφχψωςάέήίόύώ" +
	"АБВГДЕЖЗИЙКЛМНОПРСТУФХЦЧШЩЪЫЬЭЮЯабвгдежзийклмнопрстуфхцчшщъыьэюяёіїє‘’“”„«»←→↑↓↔"

func TestFontsCoverLatinGreekAndCyrillic(t *testing.T) {
	for _, f := range []Font{{Size: 10}, {Size: 10, Bold: true}, {Size: 10, Mono: true}} {
		for _, r := range letters {
			if !f.Covers(string(r)) {
				t.Errorf("%+v has no letter for %q", f, r)
			}
		}
	}
	if (Font{Size: 10}).Covers("漢") {
		t.Error("Covers reports a letter that the font lacks")
	}
}

func TestTextIsAsLongAsMeasured(t *testing.T) {
	runes := []rune(letters)
	rapid.Check(t, func(t *rapid.T) {
		// The bars at both ends show where the text begins and ends; their
		// side bearings are equal.
		text := "|" + string(rapid.SliceOfN(rapid.SampledFrom(runes), 0, 20).Draw(t, "letters")) + "|"
		f := Font{Size: rapid.Float64Range(6, 40).Draw(t, "size"), Bold: rapid.Bool().Draw(t, "bold")}
		h := rapid.SampledFrom([]HAlign{Left, Centre, Right}).Draw(t, "align")
		const scale = 2.0
		w := f.Width(text)
		place := 10 + []float64{0, w / 2, w}[h]
		img := drawn(w+20, 60, scale, func(s *Surface) {
			s.Text(Pt(place, 40), text, TextStyle{Font: f, Colour: black, H: h})
		})
		got := ink(img)
		left := float64(got.Min.X)/scale - 10
		right := 10 + w - float64(got.Max.X)/scale
		if math.Abs(left-right) > 3/scale || left < -1/scale {
			t.Fatalf("%q: ink begins %.2f after and ends %.2f before the measured box", text, left, right)
		}
		if top := 40 - float64(got.Min.Y)/scale; top > f.Ascent()+1 {
			t.Fatalf("%q rises %.2f above the baseline, measured %.2f", text, top, f.Ascent())
		}
		if deep := float64(got.Max.Y)/scale - 40; deep > f.Descent()+1 {
			t.Fatalf("%q reaches %.2f below the baseline, measured %.2f", text, deep, f.Descent())
		}
	})
}

func TestCapitalIsAsHighAsMeasured(t *testing.T) {
	f := Font{Size: 40}
	img := drawn(60, 60, 2, func(s *Surface) {
		s.Text(Pt(10, 30), "H", TextStyle{Font: f, Colour: black, V: Middle})
	})
	r := ink(img)
	if h := float64(r.Dy()) / 2; math.Abs(h-f.CapHeight()) > 1 {
		t.Errorf("H is %v high, want %v", h, f.CapHeight())
	}
	if middle := float64(r.Min.Y+r.Max.Y) / 4; math.Abs(middle-30) > 0.6 {
		t.Errorf("H is centred on %v, want 30", middle)
	}
}

func TestTurnedTextRunsUpwards(t *testing.T) {
	f := Font{Size: 12}
	img := drawn(60, 200, 1, func(s *Surface) {
		s.Text(Pt(30, 180), "upwards", TextStyle{Font: f, Colour: black, Turn: 90})
	})
	r := ink(img)
	if r.Min.X < 30-int(f.Ascent())-1 || r.Max.X > 30+int(f.Descent())+1 {
		t.Errorf("ink in %v, want it to the left of x = 30", r)
	}
	if length := float64(r.Dy()); math.Abs(length-f.Width("upwards")) > 3 || r.Max.Y > 181 {
		t.Errorf("ink in %v, want %v upwards from 180", r, f.Width("upwards"))
	}
}

func TestWrappedLinesFitAndLoseNoWord(t *testing.T) {
	word := rapid.StringMatching(`[a-zß-ö]{1,40}`)
	bare := func(s string) string { return strings.ReplaceAll(s, " ", "") }
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.SliceOfN(word, 1, 30).Draw(t, "words")
		width := rapid.Float64Range(20, 300).Draw(t, "width")
		f := Font{Size: 9}
		lines := f.Wrap(strings.Join(words, " "), width)
		if got := strings.Join(lines, " "); bare(got) != strings.Join(words, "") || width > 250 && got != strings.Join(words, " ") {
			t.Fatalf("wrapped to %q", got)
		}
		for _, l := range lines {
			if f.Width(l) > width {
				t.Fatalf("line %q is %v long, want at most %v", l, f.Width(l), width)
			}
		}
	})
}

func TestThinSpacesHaveTheWidthThatIsDrawn(t *testing.T) {
	f := Font{Size: 10}
	if got, want := f.Width("1\u202f000"), f.Width("1\u00a0000"); got != want {
		t.Errorf("width with a thin space %v, want %v", got, want)
	}
}

func TestSubsetKeepsTheOutlinesOfItsLettersAlone(t *testing.T) {
	for _, fc := range faces() {
		used := map[rune]bool{'A': true, 'ä': true, 'Ж': true, '≥': true, '°': true}
		data, err := subset(fc.data, used)
		if err != nil {
			t.Fatal(err)
		}
		if len(data) > len(fc.data)/4 {
			t.Errorf("%s: subset of 5 letters has %d of %d bytes", fc.name, len(data), len(fc.data))
		}
		cut, err := sfnt.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range letters {
			got, want := outlineOf(t, cut, r), outlineOf(t, fc.font, r)
			if used[r] && (len(got) == 0 || len(got) != len(want) || got[0] != want[0]) {
				t.Errorf("%s: outline of %q changed", fc.name, r)
			}
			if !used[r] && len(got) > 0 && !partOfUsed(r) {
				t.Errorf("%s: outline of %q is still there", fc.name, r)
			}
		}
	}
}

// partOfUsed reports whether r may share an outline with a letter kept above.
func partOfUsed(r rune) bool { return strings.ContainsRune("aАΑäаАα", r) }

func outlineOf(t *testing.T, f *sfnt.Font, r rune) sfnt.Segments {
	var buf sfnt.Buffer
	g, err := f.GlyphIndex(&buf, r)
	if err != nil {
		t.Fatal(err)
	}
	s, err := f.LoadGlyph(&buf, g, fixed.I(100), nil)
	if err != nil {
		t.Fatal(err)
	}
	return append(sfnt.Segments(nil), s...)
}

func TestDamagedFontIsRefused(t *testing.T) {
	data := faces()[0].data
	for _, n := range []int{0, 4, 11, 40, 300, len(data) / 2} {
		if _, err := subset(data[:n], map[rune]bool{'A': true}); err == nil {
			t.Errorf("font cut to %d bytes was accepted", n)
		}
	}
}
