package report

import (
	"bytes"
	"context"
	"image"
	"strings"
	"testing"

	"rimclear/app/chart"
	"rimclear/app/figure"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
)

// recorder is a canvas that keeps where texts stand.
type recorder struct{ texts []written }

type written struct {
	text string
	box  figure.Rect
}

func (r *recorder) Stroke([][]figure.Point, figure.Stroke) {}
func (r *recorder) Fill([][]figure.Point, figure.Colour)   {}
func (r *recorder) Image(figure.Affine, image.Image)       {}
func (r *recorder) Clip([][]figure.Point)                  {}
func (r *recorder) Unclip()                                {}

func (r *recorder) Text(at figure.Point, text string, t figure.TextStyle) {
	w := t.Width(text)
	left := map[figure.HAlign]float64{figure.Left: at.X, figure.Centre: at.X - w/2, figure.Right: at.X - w}[t.H]
	if t.Turn != 0 { // axis titles run upwards
		r.texts = append(r.texts, written{text, figure.Box(at.X-t.Ascent(), at.Y-w/2, t.Ascent(), w)})
		return
	}
	r.texts = append(r.texts, written{text, figure.Box(left, at.Y-t.Ascent(), w, t.Ascent()+t.Descent())})
}

func recorded(f figure.Figure) []written {
	r := &recorder{}
	f.Draw(r)
	return r.texts
}

// whole is all text of a page, with single spaces.
func whole(list []written) string {
	var parts []string
	for _, t := range list {
		parts = append(parts, t.text)
	}
	return strings.Join(strings.Fields(strings.ReplaceAll(strings.Join(parts, " "), "\u00a0", " ")), " ")
}

func TestAReportHasOneToThreePagesWithNothingCut(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	for _, n := range []int{1, 2, 4} {
		f := worked(t, n)
		for _, p := range Papers {
			pages := f.Pages(p)
			if len(pages) < 1 || len(pages) > 3 {
				t.Errorf("%d designs on %s: %d pages", n, p.Key, len(pages))
			}
			for i, page := range pages {
				for _, w := range recorded(page) {
					if w.box.Min.X < 24 || w.box.Max.X > p.Size.X-24 || w.box.Min.Y < 20 || w.box.Max.Y > p.Size.Y-20 {
						t.Errorf("%d designs on %s, page %d: %q at %v is cut or at the edge", n, p.Key, i+1, w.text, w.box)
					}
				}
			}
		}
	}
}

// Lines of text that are set by the flow never lie on each other.
func TestNoBlockLiesOnAnother(t *testing.T) {
	f := worked(t, 2)
	st := &sheet{typeset: newTypeset(), width: Papers[0].width(), paper: Papers[0]}
	var list []block
	for _, section := range sections {
		list = append(list, section(f, st)...)
		st.used = column{blocks: list}.height()
	}
	for i, page := range flow(Papers[0], list) {
		body, y := Papers[0].body(i == 0), 0.0
		for _, b := range page {
			if b.at.Min.Y < y-0.01 || b.at.Max.Y > body.Max.Y+0.02 {
				t.Errorf("page %d: a block at %v begins above %.1f or ends below %.1f", i+1, b.at, y, body.Max.Y)
			}
			y = b.at.Max.Y
		}
	}
}

func TestEveryPageSaysWhatTheModelIsNot(t *testing.T) {
	f := worked(t, 2)
	pages := f.Pages(Papers[0])
	for i, page := range pages {
		text := whole(recorded(page))
		for _, want := range []string{f.Words.Caution(), page.Title, "case " + f.Fingerprint[:12], f.Program} {
			if !strings.Contains(text, want) {
				t.Errorf("page %d lacks %q", i+1, want)
			}
		}
	}
}

// A chart that is saved shows what the screen shows of the same case, every line
// of it.
func TestASavedChartIsTheChartOfTheCase(t *testing.T) {
	f := worked(t, 2)
	svg := func(g figure.Figure) string {
		var b bytes.Buffer
		if err := g.WriteSVG(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	for _, c := range chart.All {
		d, ok := f.FindDrawing(c.Key)
		if !ok {
			t.Errorf("%s cannot be saved", c.Key)
			continue
		}
		if got, want := svg(d.Draw(d.Size)), svg(c.Draw(chart.SubjectOf(f.Case, f.Active), f.chartLook(d.Size))); got != want {
			t.Errorf("%s is saved with %d bytes, the case's own has %d", c.Key, len(got), len(want))
		}
	}
}

func TestAReportTellsWhatItMust(t *testing.T) {
	f := worked(t, 2)
	var text string
	for _, page := range f.Pages(Papers[1]) {
		text += " " + whole(recorded(page))
	}
	w := f.Words
	for _, want := range []string{
		"beyond 121°",                // no number past what a native hip reaches
		"Kouyoumdjian",               // its source
		"[from memory]", "[assumed]", // marks of weak values
		"Cup, operative", "Cup, anatomic", "Murray", "anterior pelvic plane",
		w.Serves(f.serve(&f.Designs[0]))[:20], // the answer in words
		"Where cup A may point", "Where cup B may point", "If placement varies", "How the cup holds the head",
		"not reached", "Method", "Where the model ends", "Sources", f.Fingerprint, "2026-11-25", "right hip",
		"Not a share of successes",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the report does not say %q", want)
		}
	}
	if strings.Contains(text, "128.7") {
		t.Error("the report gives a number past what a native hip reaches")
	}
}

func TestEqualFactsGiveEqualBytes(t *testing.T) {
	q := sample(t, 1)
	once := printed(t, q, Papers[0])
	if !bytes.Equal(once, printed(t, q, Papers[0])) {
		t.Error("two reports on one case differ")
	}
	q.Date = ""
	if bytes.Equal(once, printed(t, q, Papers[0])) {
		t.Error("the date does not reach the page")
	}
}

func printed(t testing.TB, q Question, p Paper) []byte {
	t.Helper()
	f, err := Work(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.WritePDF(&b, p); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestAnyChangeOfTheInputsChangesTheFingerprint(t *testing.T) {
	a := sample(t, 2)
	c := a.Case
	c.Designs[1].Cup.Anteversion += 1e-4
	if b := question(t, c); a.Fingerprint == b.Fingerprint || len(a.Fingerprint) != 64 {
		t.Errorf("fingerprints %s and %s", a.Fingerprint, b.Fingerprint)
	}
	if b := sample(t, 2); a.Fingerprint != b.Fingerprint {
		t.Error("equal cases have different fingerprints")
	}
}

// A report on paper must be traceable to the program that made it.
func TestAReportNamesTheReleaseThatRimcalcAndTheWindowName(t *testing.T) {
	if got := Program(); got != "Rimclear "+assets.Version() {
		t.Errorf("Program() = %q, the program calls itself %q", got, assets.Version())
	}
}

func TestALeftHipSaysSo(t *testing.T) {
	c := sample(t, 1).Case
	c.Hip.Side = hip.Left
	f, err := Work(context.Background(), question(t, c))
	if err != nil {
		t.Fatal(err)
	}
	if text := whole(recorded(f.Pages(Papers[0])[0])); !strings.Contains(text, "left hip") || strings.Contains(text, "right hip") {
		t.Errorf("the first page of a left hip reads %q", text[:200])
	}
}

func TestWithoutMotionsTheReportSaysThatNoneIsAsked(t *testing.T) {
	c := sample(t, 2).Case
	c.Goal.Motions = ""
	f, err := Work(context.Background(), question(t, c))
	if err != nil {
		t.Fatal(err)
	}
	var text string
	for _, page := range f.Pages(Papers[0]) {
		text += whole(recorded(page))
	}
	if !strings.Contains(text, f.Words.Phrase("serves_nothing_asked")) || strings.Contains(text, "may point") {
		t.Error("a case that asks for no motion is told where its cup may point")
	}
}

func TestAnswersOfWeighingAreToldAndOpenQuestionsNamed(t *testing.T) {
	q := sample(t, 1)
	q.Weighing = func(key string) (rule, answer string) {
		if key == "bone_density" {
			return "T-score above −2.5", "measured last month: " + strings.Repeat("very ", 120) + "end"
		}
		return "", ""
	}
	f, err := Work(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	var text string
	for _, page := range f.Pages(Papers[0]) {
		text += " " + whole(recorded(page))
	}
	open := text[strings.Index(text, "Not answered:"):]
	for _, r := range f.weighing() {
		if listed := strings.Contains(open, r.Question); listed == r.Answered {
			t.Errorf("%q answered %v, listed as open %v", r.Question, r.Answered, listed)
		}
	}
	if !strings.Contains(text, "T-score above −2.5") || !strings.Contains(text, "measured last month") || strings.Contains(text, "very end") {
		t.Error("rule and answer are not told, or at any length")
	}
	for _, table := range f.Tables() {
		if table.Key == "weighing" && !strings.HasSuffix(table.Rows[3][3].(string), "very end") {
			t.Errorf("the table has %v", table.Rows[3])
		}
	}
}

func TestWorkEndsWithItsContext(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Work(ctx, sample(t, 2)); err == nil {
		t.Error("work that was ended gives no error")
	}
}

// A design that touches from the start, and one that is asked for more motions
// than are printed, still make a report.
func TestExtremeCasesMakeAReport(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes long, and nothing in it runs at once")
	}
	c := kinematics.Default()
	c.Designs[0].Cup = kinematics.Cup{Inclination: 5 * hipDegree, Anteversion: -40 * hipDegree}
	c.Label = strings.Repeat("A long label with Ελληνικά and Кириллица. ", 4)
	c.Designs[1] = c.Designs[0]
	c.Designs[1].Name = strings.Repeat("name ", 14)
	c.Count = 2
	for _, a := range motionKeys()[:mostMotions+4] {
		c.Goal.Motions = c.Goal.Motions.With(a)
	}
	f, err := Work(context.Background(), question(t, c))
	if err != nil {
		t.Fatal(err)
	}
	for _, page := range f.Pages(Papers[1]) {
		for _, w := range recorded(page) {
			if w.box.Max.X > Papers[1].Size.X-20 {
				t.Errorf("%q runs over the edge", w.text)
			}
		}
	}
}

// BenchmarkReport works out a report and writes it: of the demo with one design
// and two, of four with a lip and an oval neck among them, and of the slowest
// there are, a lip over an oval neck.
func BenchmarkReport(b *testing.B) {
	both := sample(b, 2).Case
	both.Designs[1].Rim.Lips[0] = implant.Lip{Height: 15 * hipDegree, Centre: -120 * hipDegree, Plateau: 60 * hipDegree, Ramp: 30 * hipDegree}
	for _, of := range []struct {
		name string
		q    Question
	}{{"one", sample(b, 1)}, {"two", sample(b, 2)}, {"four", sample(b, 4)}, {"lip_over_oval", question(b, both)}} {
		b.Run(of.name, func(b *testing.B) {
			for b.Loop() {
				printed(b, of.q, Papers[0])
			}
		})
	}
}
