package report

import (
	"io"
	"strconv"
	"time"

	"rimclear/app/figure"
)

// mostPages is how many pages a report should have. It is set smaller until it
// has no more, down to the last of the scales.
const mostPages = 3

var scales = []float64{1, 0.975, 0.95, 0.925, 0.9, 0.875, 0.85, 0.825}

// Pages returns the report as pages: one to three for all but extreme cases.
func (f *Facts) Pages(p Paper) []figure.Figure {
	for _, k := range scales[:len(scales)-1] {
		if pages := f.pages(p, k); len(pages) <= mostPages {
			return pages
		}
	}
	return f.pages(p, scales[len(scales)-1])
}

// pages sets the report k times as large as usual: on a larger sheet, which is
// drawn smaller.
func (f *Facts) pages(paper Paper, k float64) []figure.Figure {
	p := Paper{paper.Key, paper.Size.Scale(1 / k)}
	st := &sheet{typeset: newTypeset(), width: p.width(), paper: p}
	var list []block
	for _, section := range sections {
		list = append(list, section(f, st)...)
		st.used = column{blocks: list}.height()
	}
	pages := flow(p, list)
	figures := make([]figure.Figure, len(pages))
	for i, page := range pages {
		number := f.Words.Phrase("report_page", "page", strconv.Itoa(i+1), "of", strconv.Itoa(len(pages)))
		figures[i] = figure.Figure{
			Title: number, Alt: f.title(), Size: paper.Size, Paper: st.palette.Paper,
			Static: func(s *figure.Surface) {
				s.Push(figure.Scaling(k, k))
				defer s.Pop()
				if i > 0 {
					f.drawHead(s, st)
				}
				for _, b := range page {
					b.draw(s, b.at)
				}
				f.drawFoot(s, st, number)
			},
		}
	}
	return figures
}

// WritePDF writes the report as a PDF, which says it was made on the date given
// where that is a day such as 2026-05-04. Equal facts give equal bytes.
func (f *Facts) WritePDF(w io.Writer, p Paper) error {
	d := figure.Document{Title: f.title(), Subject: f.Words.Caution(), Lang: f.Words.Language(), Marks: true}
	if day, err := time.Parse(time.DateOnly, f.Date); err == nil {
		d.Date = day
	}
	return figure.WritePDF(w, d, f.Pages(p)...)
}

func (f *Facts) title() string {
	if f.Case.Label == "" {
		return f.Words.Phrase("report_title")
	}
	return f.Words.Phrase("report_title_of", "title", f.Words.Phrase("report_title"), "case", f.Case.Label)
}

// drawHead names the case at the top of the pages after the first.
func (f *Facts) drawHead(s *figure.Surface, st *sheet) {
	t := st.soft(noteSize)
	y := topMargin + t.Ascent()
	right := f.Words.Side(&f.Case)
	s.Text(figure.Pt(st.paper.Size.X-sideMargin, y), right, t.At(figure.Right, figure.Baseline))
	s.Text(figure.Pt(sideMargin, y), shortened(t.Font, f.title(), st.width-t.Width(right)-20), t)
	line := topMargin + t.LineHeight() + 1
	s.Line(figure.Pt(sideMargin, line), figure.Pt(st.paper.Size.X-sideMargin, line), st.hair())
}

// drawFoot writes the caution, and under it program, case and page.
func (f *Facts) drawFoot(s *figure.Surface, st *sheet, number string) {
	t := st.soft(noteSize)
	left, right := float64(sideMargin), st.paper.Size.X-sideMargin
	y := st.paper.Size.Y - footMargin
	s.Line(figure.Pt(left, y-2*t.LineHeight()), figure.Pt(right, y-2*t.LineHeight()), st.hair())
	s.Text(figure.Pt(left, y-t.LineHeight()), f.Words.Caution(), t)
	about := f.Words.Phrase("report_foot", "program", f.Program, "fingerprint", f.Fingerprint[:min(len(f.Fingerprint), 12)])
	s.Text(figure.Pt(left, y), about, t)
	s.Text(figure.Pt(right, y), number, t.At(figure.Right, figure.Baseline))
}

// shortened returns text with an ellipsis where it is longer than room.
func shortened(f figure.Font, text string, room float64) string {
	letters := []rune(text)
	for n := len(letters); n > 0; n-- {
		short := string(letters[:n])
		if n < len(letters) {
			short += "…"
		}
		if f.Width(short) <= room {
			return short
		}
	}
	return ""
}
