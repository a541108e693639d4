package view

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// Mapping asks how the columns of a table are to be read as a recording. What
// the headings say is filled in; signs and zero can only be declared.
type Mapping struct {
	*Context
	table motion.Table

	name     *control.Line
	risk     *widget.Select
	time     *widget.Select
	timeUnit *widget.Select
	rate     *control.Line
	columns  [3]*widget.Select
	turned   [3]*widget.Check
	unit     *widget.Select
	zero     *widget.Select
	axis     *widget.Check
	preview  *widget.Label
	object   *widget.Form

	recording motion.Recording
	err       error
}

// zeros are what the angles may be counted from, in the order of the choice.
var zeros = func() []motion.Zero {
	list := []motion.Zero{{Reference: motion.RecordingReference, Basis: motion.Own}, {Reference: motion.PelvisReference, Basis: motion.Own}}
	for _, r := range []motion.Reference{motion.PostureReference, motion.RoomReference} {
		for p := hip.Supine; p < hip.PlaneCount; p++ {
			list = append(list, motion.Zero{Reference: r, Plane: p, Basis: motion.Own})
		}
	}
	return list
}()

// NewMapping returns the question about a table, whose name is proposed for the
// recording.
func NewMapping(c *Context, t motion.Table, name string) *Mapping {
	m := &Mapping{Context: c, table: t}
	guess := t.Guess(m.side())
	w := c.Words
	changed := func(string) { m.look() }
	check := func(key string, on bool) *widget.Check {
		k := widget.NewCheck(w.Phrase(key), nil)
		k.SetChecked(on)
		k.OnChanged = func(bool) { m.look() }
		return k
	}
	choice := func(words []string, at int) *widget.Select {
		s := widget.NewSelect(words, nil)
		s.SetSelectedIndex(max(at, 0))
		s.OnChanged = changed
		return s
	}
	m.name = control.NewLine()
	m.name.SetText(name)
	var risks []string
	for r := range motion.RiskCount {
		risks = append(risks, w.Risk(r))
	}
	m.risk = choice(risks, 0)
	m.time = choice(m.headings(), m.index(guess.Time.Column))
	m.timeUnit = choice([]string{w.Phrase("record_seconds"), w.Phrase("record_milliseconds"), w.Phrase("record_samples")}, int(guess.Time.Unit))
	m.rate = control.NewLine()
	m.rate.SetText(m.Words.Shortest(guess.Time.Rate, 3))
	m.rate.OnChanged = changed
	for k := range m.columns {
		m.columns[k] = choice(m.headings(), m.index(guess.Channels[k].Column))
		m.turned[k] = check([3]string{"record_extension", "record_abduction", "record_external"}[k], guess.Channels[k].Negative)
	}
	m.unit = choice([]string{w.Phrase("record_degrees"), w.Phrase("record_radians")}, int(guess.Unit))
	var names []string
	for _, z := range zeros {
		names = append(names, w.Zero(z))
	}
	m.zero = choice(names, 0)
	m.axis = check("record_mechanical", guess.Mechanical)
	m.preview = widget.NewLabel("")
	m.preview.Wrapping, m.preview.SizeName = fyne.TextWrapWord, theme.SizeNameCaptionText
	m.arrange()
	m.look()
	return m
}

// side is the side whose columns are proposed: the case's own, if the table has
// it.
func (m *Mapping) side() hip.Side {
	side := m.Session.Now().Case.Hip.Side
	if sides := m.table.Sides(); len(sides) == 1 {
		return sides[0]
	}
	return side
}

// headings are the columns there are to choose from, after none.
func (m *Mapping) headings() []string {
	return append([]string{m.Words.Phrase("record_none")}, m.table.Columns...)
}

func (m *Mapping) index(column string) int {
	for i, c := range m.table.Columns {
		if c == column && column != "" {
			return i + 1
		}
	}
	return 0
}

func (m *Mapping) arrange() {
	w := m.Words
	m.object = widget.NewForm(
		widget.NewFormItem(w.Phrase("record_name"), m.name),
		widget.NewFormItem(w.Phrase("record_time"), m.time),
		widget.NewFormItem(w.Phrase("record_time_unit"), m.timeUnit),
		widget.NewFormItem(w.Phrase("record_rate"), m.rate),
	)
	for k, key := range [3]string{"flexion_deg", "adduction_deg", "internal_rotation_deg"} {
		m.object.Append(w.Name(key), m.columns[k])
		m.object.Append("", m.turned[k])
	}
	m.object.Append(w.Phrase("record_unit"), m.unit)
	m.object.Append(w.Phrase("record_zero"), m.zero)
	m.object.Append("", m.axis)
	m.object.Append(w.Phrase("record_risk"), m.risk)
	m.object.Append(w.Phrase("record_read"), m.preview)
}

// Object returns the form.
func (m *Mapping) Object() fyne.CanvasObject { return m.object }

// Asked returns the mapping as it is filled in.
func (m *Mapping) Asked() motion.Mapping {
	column := func(s *widget.Select) string {
		if i := s.SelectedIndex(); i > 0 {
			return m.table.Columns[i-1]
		}
		return ""
	}
	rate, _ := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(m.rate.Text), ",", "."), 64)
	a := motion.Mapping{
		Time: motion.TimeColumn{Column: column(m.time), Unit: motion.TimeUnit(max(m.timeUnit.SelectedIndex(), 0)), Rate: rate},
		Unit: motion.AngleUnit(max(m.unit.SelectedIndex(), 0)), Zero: zeros[max(m.zero.SelectedIndex(), 0)], Mechanical: m.axis.Checked,
	}
	for k := range a.Channels {
		a.Channels[k] = motion.Channel{Column: column(m.columns[k]), Negative: m.turned[k].Checked}
	}
	return a
}

// look reads the table as asked, and says what was read or what is wrong.
func (m *Mapping) look() {
	m.recording, m.err = m.table.Recording(m.Asked())
	if m.err != nil {
		m.preview.Importance = widget.DangerImportance
		m.preview.SetText(firstLines(m.err.Error(), 4))
		return
	}
	m.preview.Importance = widget.MediumImportance
	r := m.recording
	text := m.Words.Phrase("record_span", "count", strconv.Itoa(len(r.Times)), "time", m.Words.Digits(r.Duration(), 1))
	for k := hip.Flexion; k <= hip.InternalRotation; k++ {
		lo, hi := r.Postures[0].Angle(k), r.Postures[0].Angle(k)
		for _, p := range r.Postures {
			lo, hi = min(lo, p.Angle(k)), max(hi, p.Angle(k))
		}
		text = m.Words.Phrase("list", "first", text, "rest", m.Words.Phrase("record_range",
			"name", m.Words.Movement(kinematics.Movement(2*k)), "least", m.Words.Margin(lo), "most", m.Words.Margin(hi)))
	}
	m.preview.SetText(text)
}

func firstLines(text string, most int) string {
	lines := strings.Split(text, "\n")
	if len(lines) > most {
		lines = append(lines[:most], "…")
	}
	return strings.Join(lines, "\n")
}

// Take keeps the recording in the case, requires it, and returns its key; the
// error is what is wrong with the table or the mapping, or that the case has no
// room for it.
func (m *Mapping) Take() (string, error) {
	m.look()
	if m.err != nil {
		return "", m.err
	}
	name := strings.TrimSpace(m.name.Text)
	if name == "" {
		name = m.Words.Phrase("record_unnamed")
	}
	return m.Session.Record(casefile.Recording{
		Name: name, Risk: motion.Risk(max(m.risk.SelectedIndex(), 0)), Recording: m.recording, Mapping: m.Asked(),
	})
}
