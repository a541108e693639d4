package present

import (
	"strconv"

	"rimclear/kinematics"
	"rimclear/kinematics/unit"
)

// leastDifference is the difference under which two limits count as the same;
// our own choice: half a step of the posture's sliders would not be seen.
const leastDifference = 0.5 * unit.Degree

// leastJumpLoss is the fall of the jump distance, in mm, under which it is not
// named as a cost; our own choice.
const leastJumpLoss = 0.5

// leastMarginLoss is the fall of a side's least margin under which it is not
// named as a cost; our own choice.
const leastMarginLoss = unit.Degree

// Differs says how a design differs from the base: what goes further and by
// how much, whether that is more than placement alone moves it, and what it
// costs. at is the design spoken of; where it is the base itself, it is the
// other that differs most. "" where there is nothing to compare.
func (w *Words) Differs(list []Rival, base, at int) string {
	if len(list) < 2 || base >= len(list) {
		return ""
	}
	if at == base || at >= len(list) {
		at = farthest(list, base)
	}
	r, b := &list[at], &list[base]
	gain, loss := extremes(r, b)
	switch {
	case r.stuck() || b.stuck():
		return w.twoSentences(w.withoutLimits(r, b), w.jumps(r, b))
	case gain < 0 && loss < 0:
		text := w.Phrase("compare_alike", "design", r.Letter, "base", b.Letter)
		return w.twoSentences(w.twoSentences(text, w.jumps(r, b)), w.servesBoth(r, b))
	case gain < 0:
		d, _ := further(r, b, loss)
		text := w.Phrase("compare_only_loss", "design", r.Letter, "base", b.Letter,
			"less", w.Phrase("compare_less_"+comparedKeys[loss], "angle", w.Degrees(d.Abs())))
		text = w.twoSentences(w.twoSentences(text, w.placementError(r, b, loss, d)), w.jumps(r, b))
		return w.twoSentences(text, w.servesBoth(r, b))
	}
	d, _ := further(r, b, gain)
	text := w.Phrase("compare_further_"+comparedKeys[gain], "design", r.Letter, "base", b.Letter, "angle", w.Degrees(d))
	text = w.twoSentences(text, w.placementError(r, b, gain, d))
	return w.twoSentences(w.twoSentences(text, w.costs(r, b, loss)), w.servesBoth(r, b))
}

// stuck reports whether neck and rim touch in neutral already, so that there is
// no limit to compare.
func (r *Rival) stuck() bool {
	for _, a := range r.Answers {
		if a.Limit.Status != kinematics.StartsInContact {
			return false
		}
	}
	return len(r.Answers) > 0
}

// withoutLimits says which of two designs touches in neutral already.
func (w *Words) withoutLimits(r, b *Rival) string {
	switch {
	case r.stuck() && b.stuck():
		return w.Phrase("compare_stuck_both", "design", r.Letter, "base", b.Letter)
	case r.stuck():
		return w.Phrase("compare_stuck", "design", r.Letter)
	}
	return w.Phrase("compare_stuck", "design", b.Letter)
}

func (w *Words) twoSentences(first, second string) string {
	switch {
	case first == "":
		return second
	case second == "":
		return first
	}
	return w.Phrase("two_sentences", "first", first, "second", second)
}

// farthest returns the design other than the base that differs most from it.
func farthest(list []Rival, base int) int {
	best, most := (base+1)%len(list), unit.Angle(-1)
	for i := range list {
		for k := range comparedKeys {
			if d, ok := further(&list[i], &list[base], k); ok && i != base && d.Abs() > most {
				best, most = i, d.Abs()
			}
		}
	}
	return best
}

// extremes returns the limits in which r goes further than b by most, and less
// far by most, by their place; -1 for none.
func extremes(r, b *Rival) (gain, loss int) {
	gain, loss = -1, -1
	up, down := leastDifference, -leastDifference
	for k := range comparedKeys {
		d, ok := further(r, b, k)
		if ok && d >= up {
			gain, up = k, d
		}
		if ok && d <= down {
			loss, down = k, d
		}
	}
	return gain, loss
}

// placementError sets a difference beside what one standard deviation of
// placement alone does to the limit.
func (w *Words) placementError(r, b *Rival, k int, d unit.Angle) string {
	if k >= len(r.Doubt) || k >= len(b.Doubt) {
		return ""
	}
	doubt := max(r.Doubt[k], b.Doubt[k])
	if doubt.Degrees() < 0.05 {
		return ""
	}
	if d.Abs() <= doubt {
		return w.Phrase("compare_within_error", "error", w.Degrees(doubt))
	}
	return w.Phrase("compare_beyond_error", "error", w.Degrees(doubt))
}

// jumps says how the jump distance differs, "" where it hardly does.
func (w *Words) jumps(r, b *Rival) string {
	switch rise := r.Jump - b.Jump; {
	case rise >= leastJumpLoss:
		return w.Phrase("compare_jump_more", "design", r.Letter, "length", w.Millimetres(rise))
	case rise <= -leastJumpLoss:
		return w.Phrase("compare_jump_less", "design", r.Letter, "length", w.Millimetres(-rise))
	}
	return ""
}

// costs says what goes less far, and what else is given up.
func (w *Words) costs(r, b *Rival, loss int) string {
	var list []string
	if loss >= 0 {
		d, _ := further(r, b, loss)
		list = append(list, w.Phrase("compare_less_"+comparedKeys[loss], "angle", w.Degrees(d.Abs())))
	}
	list = append(list, w.marginsLost("compare_less_posterior", r.Verdict.Posterior, b.Verdict.Posterior)...)
	list = append(list, w.marginsLost("compare_less_anterior", r.Verdict.Anterior, b.Verdict.Anterior)...)
	if fall := b.Jump - r.Jump; fall >= leastJumpLoss {
		list = append(list, w.Phrase("compare_less_jump", "length", w.Millimetres(fall)))
	}
	if len(list) == 0 {
		return w.Phrase("compare_no_cost")
	}
	return w.Phrase("compare_cost", "list", w.enumerated(list))
}

// marginsLost says what the required motions that risk dislocation to one side
// lose of their least margin, and what they are left with.
func (w *Words) marginsLost(phrase string, r, b kinematics.Flank) []string {
	if fall := b.Margin - r.Margin; r.Known && b.Known && fall >= leastMarginLoss {
		return []string{w.Phrase(phrase, "angle", w.Degrees(fall), "left", w.Margin(r.Margin))}
	}
	return nil
}

// servesBoth says how many motions each serves.
func (w *Words) servesBoth(r, b *Rival) string {
	met, asked := served(&r.Verdict)
	base, _ := served(&b.Verdict)
	switch {
	case asked == 0:
		return ""
	case met == base:
		return w.Phrase("compare_serve_same", "met", strconv.Itoa(met), "asked", strconv.Itoa(asked))
	}
	return w.Phrase("compare_serve", "design", r.Letter, "met", strconv.Itoa(met), "asked", strconv.Itoa(asked), "base", b.Letter, "before", strconv.Itoa(base))
}
