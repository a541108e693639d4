package present

import (
	"slices"
	"strconv"

	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/unit"
)

// Rival is what is compared of one design.
type Rival struct {
	Letter string
	Ratio  float64    // head to neck
	Theta  unit.Angle // half the oscillation angle, where Round
	Round  bool

	Answers []kinematics.Answer // of ComparedQuestions, in their order
	// Doubt is by how much one standard deviation of placement alone moves each
	// answer.
	Doubt []unit.Angle

	Verdict kinematics.Verdict // of the motions required
	Jump    float64            // least jump distance under the load of standing, mm
	Share   kinematics.Share
	Shared  bool // Share was worked out
}

// comparedKeys are the limits in which designs are compared: the cardinal
// motions, and rotation at 90° flexion.
var comparedKeys = []string{"flexion", "extension", "abduction", "adduction", "internal_at_0", "external_at_0", "internal_at_90", "external_at_90"}

// ComparedQuestions are the limits in which designs are compared.
var ComparedQuestions = func() []kinematics.Question {
	var list []kinematics.Question
	for _, key := range comparedKeys {
		i := slices.IndexFunc(kinematics.Questions, func(q kinematics.Question) bool { return q.Key == key })
		list = append(list, kinematics.Questions[i])
	}
	return list
}()

// RivalOf returns what is compared of a design with a verdict, by its letter:
// all but Doubt and Share. answer answers one of ComparedQuestions.
func RivalOf(letter string, d kinematics.Design, j kinematics.Joint, v kinematics.Verdict, answer func(kinematics.Question) kinematics.Answer) Rival {
	r := Rival{Letter: letter, Ratio: d.HeadNeckRatio(), Verdict: v,
		Jump: j.Stability(d, kinematics.Loads[0], kinematics.CobaltChrome).LeastJump}
	r.Theta, r.Round = j.Aperture.Theta()
	for _, q := range ComparedQuestions {
		r.Answers = append(r.Answers, answer(q))
	}
	return r
}

// CompareCell is one design's value in a row, and by how much it differs from
// the base's; "" where it does not, or where that means nothing.
type CompareCell struct {
	Value, Change string
	Grey          bool // beyond the native passive range
}

// CompareRow is one line of the table of differences.
type CompareRow struct {
	Key, Name, Help string
	Number          string        // see Numbers
	Cells           []CompareCell // by design
}

// CompareRows returns the table of differences from the design base.
func (w *Words) CompareRows(list []Rival, base int) []CompareRow {
	var rows []CompareRow
	add := func(key, number string, cell func(r, b *Rival) CompareCell) {
		row := CompareRow{Key: key, Name: w.Phrase("compare_row_" + key), Help: w.Phrase("compare_help_" + key), Number: number}
		for i := range list {
			c := cell(&list[i], &list[base])
			if i == base {
				c.Change = ""
			}
			row.Cells = append(row.Cells, c)
		}
		rows = append(rows, row)
	}
	for k, q := range ComparedQuestions {
		row := CompareRow{Key: q.Key, Name: w.Phrase("compare_limit_" + q.Key), Help: w.limitHelp(q), Number: "limit"}
		for i := range list {
			row.Cells = append(row.Cells, w.limitCell(&list[i], &list[base], k, i == base))
		}
		rows = append(rows, row)
	}
	add("oscillation", "oscillation_deg", w.oscillationCell)
	add("ratio", "head_neck_ratio", func(r, b *Rival) CompareCell {
		return CompareCell{Value: w.Digits(r.Ratio, 2), Change: w.changed(r.Ratio-b.Ratio, 2)}
	})
	add("served", "motion_margin", w.servedCell)
	add("margin", "motion_margin", w.marginCell)
	add("jump", "jump_least", func(r, b *Rival) CompareCell {
		return CompareCell{Value: w.Digits(r.Jump, 1), Change: w.changed(r.Jump-b.Jump, 1)}
	})
	add("share", "share", w.shareCell)
	return rows
}

// limitHelp says what a row of the table is, with the source of the native
// range up to which differences count.
func (w *Words) limitHelp(q kinematics.Question) string {
	title := w.Question(new(kinematics.Case), q) // none of them asks at the given adduction
	if !q.Native.Known() {
		return title
	}
	return w.Phrase("compare_limit_help", "question", title, "native", w.shortDegrees(q.Native.Range), "source", w.Source(q.Native.Source))
}

func (w *Words) limitCell(r, b *Rival, k int, base bool) CompareCell {
	if k >= len(r.Answers) {
		return CompareCell{}
	}
	a := r.Answers[k]
	c := CompareCell{Value: w.word(statusSection, "not_reached"), Grey: a.BeyondNative()}
	switch {
	case !a.Reached:
		if a.Limit.Status == kinematics.StartsInContact {
			c.Value = w.word(statusSection, "contact_at_start")
		}
		return c
	case c.Grey:
		c.Value = w.Phrase("compare_beyond", "native", w.native(a))
	default:
		c.Value = w.Degrees(a.Reading)
	}
	if d, ok := further(r, b, k); ok && !base {
		c.Change = w.changed(d.Degrees(), 1)
	}
	return c
}

// within returns how far a movement goes before neck and rim touch or the
// native passive range ends, whichever is first.
func within(a kinematics.Answer) (unit.Angle, bool) {
	switch {
	case !a.Reached:
		return 0, false
	case a.BeyondNative():
		return a.Question.Native.Range, true
	}
	return a.Reading, true
}

// further returns by how much r goes further than b in the k-th limit, up to
// the native passive range.
func further(r, b *Rival, k int) (unit.Angle, bool) {
	if k >= len(r.Answers) || k >= len(b.Answers) {
		return 0, false
	}
	x, okX := within(r.Answers[k])
	y, okY := within(b.Answers[k])
	return x - y, okX && okY
}

func (w *Words) oscillationCell(r, b *Rival) CompareCell {
	if !r.Round {
		return CompareCell{Value: w.Phrase("compare_not_round"), Grey: true}
	}
	c := CompareCell{Value: w.Degrees(2 * r.Theta)}
	if b.Round {
		c.Change = w.changed((2 * (r.Theta - b.Theta)).Degrees(), 1)
	}
	return c
}

// served returns how many motions are met and how many are asked for.
func served(v *kinematics.Verdict) (met, asked int) {
	asked = len(v.Outcomes) - v.Count[kinematics.Asked]
	return asked - v.Count[kinematics.Short], asked
}

func (w *Words) servedCell(r, b *Rival) CompareCell {
	met, asked := served(&r.Verdict)
	if asked == 0 {
		return CompareCell{Value: w.Phrase("no_reading")}
	}
	before, _ := served(&b.Verdict)
	return CompareCell{Value: w.Phrase("compare_of", "met", strconv.Itoa(met), "asked", strconv.Itoa(asked)), Change: w.changed(float64(met-before), 0)}
}

func (w *Words) marginCell(r, b *Rival) CompareCell {
	m, ok := leastMargin(&r.Verdict)
	if !ok {
		return CompareCell{Value: w.Phrase("no_reading")}
	}
	c := CompareCell{Value: w.Margin(m)}
	if n, ok := leastMargin(&b.Verdict); ok {
		c.Change = w.changed((m - n).Degrees(), 1)
	}
	return c
}

func leastMargin(v *kinematics.Verdict) (unit.Angle, bool) {
	if v.First < 0 || v.First >= len(v.Outcomes) {
		return 0, false
	}
	return v.Outcomes[v.First].Least.Margin, true
}

func (w *Words) shareCell(r, b *Rival) CompareCell {
	if !r.Shared {
		return CompareCell{Value: w.Phrase("compare_wait"), Grey: true}
	}
	c := CompareCell{Value: w.Percent(r.Share.Share, 0)}
	if b.Shared {
		c.Change = w.changed(100*(r.Share.Share-b.Share.Share), 0)
	}
	return c
}

// JointAngle says a joint angle with its movement: "98.3° flexion".
func (w *Words) JointAngle(a hip.JointAngle, v unit.Angle) string { return w.shaftAngle(a, v) }
