package view

import (
	"bytes"
	"slices"
	"sync"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/assets"
	"rimclear/kinematics"
)

// bearings are those that come with the program.
var bearings = sync.OnceValue(func() []kinematics.Bearing {
	var all []kinematics.Bearing
	for _, data := range assets.Bearings() {
		list, err := kinematics.ReadCatalogue(bytes.NewReader(data))
		if err != nil {
			panic(err) // a test reads the same files
		}
		all = append(all, list...)
	}
	return all
})

// choices is the left column: which bearing the design looked at has and how it
// is placed, the posture of all, the socket they share, and what is weighed
// besides.
type choices struct {
	*Context
	contest  *contest
	panel    *panel
	bearing  *control.Pick
	base     *control.Pick
	note     *widget.Label
	weighing *weighing
	list     *fyne.Container
	scroll   *container.Scroll
	object   fyne.CanvasObject

	refusal string
	refused uint64 // the snapshot on which it was said
	matched matching
}

// matching is what the bearing shown was found for.
type matching struct {
	design kinematics.Design
	bases  int
}

// comparedValues are the values of the design looked at that are at hand here;
// those of the second list are shown when asked for.
var comparedValues = [2][]string{
	{"head_diameter_mm", "neck_diameter_mm", "cup_arc_deg", "cup_inclination_deg", "cup_anteversion_deg"},
	{"stem_anteversion_deg", "neck_shaft_deg"},
}

func newChoices(c *Context, of *contest) *choices {
	p := &choices{Context: c, contest: of, note: widget.NewLabel("")}
	p.panel = &panel{Context: c, dials: map[string]*control.Dial{}, picks: map[string]*control.Pick{}}
	w := c.Words
	names := []string{w.Phrase("compare_own")}
	for _, b := range bearings() {
		names = append(names, w.Bearing(b))
	}
	p.bearing = control.NewPick(w.Phrase("compare_bearing"), w.Phrase("compare_bearing_help"), names)
	p.bearing.Hint, p.bearing.Change = c.Hint, p.take
	p.base = control.NewPick(w.Phrase("compare_base"), w.Phrase("compare_base_help"), []string{present.Letter(0)})
	p.base.Hint, p.base.Change = c.Hint, of.setBase
	p.note.Wrapping, p.note.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	rows := func(keys ...string) (o []fyne.CanvasObject) {
		for _, key := range keys {
			o = append(o, p.panel.row(kinematics.ParameterByKey(key)))
		}
		return o
	}
	p.list = container.New(layout.NewCustomPaddedVBoxLayout(2))
	p.weighing = newWeighing(c)
	for _, g := range []struct {
		title      string
		main, rest []fyne.CanvasObject
	}{
		{"compare_design", append([]fyne.CanvasObject{p.bearing}, rows(comparedValues[0]...)...), rows(comparedValues[1]...)},
		{"compare_posture", rows(postureKeys[:]...), nil},
		{"compare_socket", []fyne.CanvasObject{p.base, p.panel.row(kinematics.ParameterByKey("socket")), p.note}, rows("socket_mm", "shell_mm", "least_liner_mm")},
	} {
		k := control.NewGroup(w.Phrase(g.title), w.Phrase("window_more"), g.main, g.rest)
		c.explainGroup(k)
		k.OnFold = p.list.Refresh
		p.list.Add(k)
	}
	p.list.Add(p.weighing.group)
	p.weighing.group.OnFold = p.weighed
	p.weighing.chosen = func(top, bottom float32) {
		y := p.weighing.group.Position().Y
		reveal(p.scroll, y+top, y+bottom)
	}
	p.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, 4), p.list))
	p.object = p.scroll
	return p
}

// weighed shows the questions where there is room for them.
func (p *choices) weighed() {
	p.list.Refresh()
	if p.weighing.group.Open() {
		p.scroll.Refresh() // it is as long as what is in it
		p.scroll.ScrollToOffset(fyne.NewPos(0, p.weighing.group.Position().Y))
	}
}

// take puts a bearing of the catalogue in the place of the design looked at. One
// that the socket does not hold is not taken, and that is said.
func (p *choices) take(i int) {
	if i == 0 {
		return
	}
	b, s := bearings()[i-1], p.Session.Now()
	faults := p.Session.Edit(session.Step{Key: "bearing", Design: s.Active}, func(c *kinematics.Case) {
		*c = b.Apply(*c, s.Active)
		c.Designs[s.Active].Name = p.Words.Bearing(b)
	})
	p.refusal, p.refused = p.Words.Refused(&s.Case, b, faults), p.Session.Now().Serial
	p.matched = matching{}
	p.write()
}

// display shows the values of the design looked at.
func (p *choices) display(s *session.Snapshot) { p.panel.display(s) }

// write puts the rest into words.
func (p *choices) write() {
	s := p.Session.Now()
	if m := (matching{*s.Design(), s.Case.Count}); m != p.matched {
		p.matched = m
		p.bearing.Display(1 + bearingOf(&s.Case, s.Active))
		var letters []string
		for i := range s.Case.Count {
			letters = append(letters, present.Letter(i))
		}
		p.base.SetWords(letters)
	}
	p.base.Display(p.contest.base)
	if s.Serial != p.refused {
		p.refusal = ""
	}
	text, importance := p.Words.SocketNote(&s.Case), widget.MediumImportance
	if p.refusal != "" {
		text, importance = p.refusal, widget.DangerImportance
	}
	if text != p.note.Text || importance != p.note.Importance {
		p.note.Importance = importance
		p.note.SetText(text)
		p.list.Refresh()
	}
	p.weighing.display(p.Session.File().Weighing)
}

// bearingOf returns which bearing of the catalogue a design has, -1 for none.
func bearingOf(c *kinematics.Case, i int) int {
	return slices.IndexFunc(bearings(), func(b kinematics.Bearing) bool { return hasShape(c, i, b) })
}
