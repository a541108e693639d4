package control

import "strings"

// widths keeps how wide words are, which takes long to find out.
type widths struct {
	size float32
	has  map[string]float32
}

func (w *widths) of(text string, size float32) float32 {
	if w.has == nil || w.size != size || len(w.has) > 4*wordsKept {
		w.size, w.has = size, map[string]float32{}
	}
	x, ok := w.has[text]
	if !ok {
		x = (word{text: text, size: size}).wide()
		w.has[text] = x
	}
	return x
}

// wrap breaks words into lines of a width.
func (w *widths) wrap(text string, size, wide float32) []string {
	var lines []string
	start, end, x := 0, 0, float32(0)
	blank := w.of(" ", size)
	for at := 0; at < len(text); {
		next := at
		for next < len(text) && text[next] != ' ' {
			next++
		}
		one := w.of(text[at:next], size)
		if at > start && x+blank+one > wide {
			lines = append(lines, text[start:end])
			start, x = at, one
		} else {
			x += one
			if at > start {
				x += blank
			}
		}
		end = next
		for at = next; at < len(text) && text[at] == ' '; at++ {
		}
	}
	return append(lines, text[start:end])
}

// cut shortens a text to a width.
func cut(w word, wide float32) word {
	if w.wide() <= wide {
		return w
	}
	note(Inked{Text: w.text, Wide: w.wide(), Short: true})
	runes := []rune(w.text)
	for len(runes) > 1 {
		runes = runes[:len(runes)-1]
		w.text = strings.TrimRight(string(runes), " ,") + "…"
		if w.wide() <= wide {
			break
		}
	}
	return w
}
