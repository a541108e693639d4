package app

import (
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/figure"
	"rimclear/app/report"
	"rimclear/app/store"
)

// saveReport asks for the paper and a file, and writes the report.
func (w *Window) saveReport() {
	words := w.context.Words
	var names []string
	for _, p := range report.Papers {
		names = append(names, p.Name(words))
	}
	paper := chooser(names)
	w.form("report_save", func() {
		p := report.Papers[paper.SelectedIndex()]
		w.saveAt(words.Phrase("report_file_name"), ".pdf", func(path string) { w.WriteReport(path, p) })
	}, widget.NewFormItem(words.Phrase("report_paper"), paper))
}

// Formats of a figure by the ending of its file, and the dots to the inch there
// are to choose from.
var (
	figureEndings = []string{".svg", ".png", ".pdf"}
	figureDots    = []string{"300", "96", "150", "600", "1200"}
	dotsOf        = map[string]float64{"300": 300, "96": 96, "150": 150, "600": 600, "1200": 1200}
)

// saveFigure asks for a figure, its format and a file, and writes it.
func (w *Window) saveFigure() {
	words := w.context.Words
	q, err := w.question()
	if err != nil {
		w.complain(err)
		return
	}
	list := report.Index(q)
	var titles []string
	for _, d := range list {
		titles = append(titles, d.Title)
	}
	kind, ending, dots := chooser(titles), chooser(figureEndings), chooser(figureDots)
	w.form("report_save_figure", func() {
		d, end, dpi := list[kind.SelectedIndex()], ending.Selected, dotsOf[dots.Selected]
		w.saveAt(d.Key, end, func(path string) { w.WriteFigure(path, d.Key, dpi) })
	},
		widget.NewFormItem(words.Phrase("report_figure"), kind),
		widget.NewFormItem(words.Phrase("report_format"), ending),
		widget.NewFormItem(words.Phrase("report_dots"), dots))
}

// saveTables asks for a folder and writes every table into it, as CSV and as
// JSON.
func (w *Window) saveTables() {
	d := dialog.NewFolderOpen(func(l fyne.ListableURI, err error) {
		if l == nil || err != nil {
			w.complain(err)
			return
		}
		w.WriteTables(l.Path())
	}, w.window)
	w.show(d)
}

func chooser(names []string) *widget.Select {
	s := widget.NewSelect(names, nil)
	s.SetSelectedIndex(0)
	return s
}

// form asks for something before a file is asked for.
func (w *Window) form(title string, act func(), items ...*widget.FormItem) {
	words := w.context.Words
	d := dialog.NewForm(words.Phrase(title), words.Phrase("report_next"), words.Phrase("file_cancel"), items, func(yes bool) {
		if yes {
			act()
		}
	}, w.window)
	d.Resize(fyne.NewSize(min(560, w.window.Canvas().Size().Width*0.9), 0))
	d.Show()
}

// saveAt asks for a file with an ending. A name typed without it gets it, and
// what is there under the whole name is asked about.
func (w *Window) saveAt(name, ending string, write func(path string)) {
	words := w.context.Words
	w.chooseName(name+ending, ending, func(path string) {
		if strings.EqualFold(filepath.Ext(path), ending) {
			write(path)
			return
		}
		if path += ending; !isFile(path) {
			write(path)
			return
		}
		w.ask(words.Phrase("file_overwrite_title"), words.Phrase("file_exists", "file", path),
			choice{words.Phrase("file_overwrite"), func() { write(path) }, widget.DangerImportance},
			choice{words.Phrase("file_cancel"), func() {}, widget.MediumImportance})
	})
}

// question is what a report on the present case is asked.
func (w *Window) question() (report.Question, error) {
	f := w.session.File()
	data, err := casefile.Encode(f)
	if err != nil {
		return report.Question{}, err
	}
	q := report.Question{
		Case: f.Case, Active: w.session.Now().Active, Fingerprint: report.Fingerprint(data),
		Program: report.Program(), Date: w.context.Now().Format(time.DateOnly), Words: w.context.Words,
		Weighing: func(key string) (rule, answer string) { return f.Weighing[key].Rule, f.Weighing[key].Answer },
	}
	q.Required, q.Lost = w.context.Motions.Required(&f.Case)
	return q, nil
}

// WriteReport writes a report on the present case into a file.
func (w *Window) WriteReport(path string, p report.Paper) {
	w.export(path, func(f *report.Facts) error {
		return store.WriteFrom(path, func(out io.Writer) error { return f.WritePDF(out, p) })
	})
}

// WriteFigure writes a figure of the present case, by its key, in the format
// that the file's ending says.
func (w *Window) WriteFigure(path, key string, dpi float64) {
	w.export(path, func(f *report.Facts) error {
		d, ok := f.FindDrawing(key)
		if !ok {
			return os.ErrNotExist // asked for from a list of those there are
		}
		return store.WriteFrom(path, writerOf(d.Draw(d.Size), filepath.Ext(path), dpi))
	})
}

func writerOf(f figure.Figure, ending string, dpi float64) func(io.Writer) error {
	switch strings.ToLower(ending) {
	case ".png":
		return func(out io.Writer) error { return f.WritePNG(out, dpi/72) }
	case ".pdf":
		return f.WritePDF
	}
	return f.WriteSVG
}

// WriteTables writes every table of the present case into a folder.
func (w *Window) WriteTables(folder string) {
	w.export(folder, func(f *report.Facts) error {
		for _, t := range f.Tables() {
			if err := store.WriteFrom(filepath.Join(folder, t.Key+".csv"), t.WriteCSV); err != nil {
				return err
			}
			if err := store.WriteFrom(filepath.Join(folder, t.Key+".json"), t.WriteJSON); err != nil {
				return err
			}
		}
		return nil
	})
}

// export works out what there is to report away from the goroutine that draws,
// writes it, and says where it is.
func (w *Window) export(path string, write func(*report.Facts) error) {
	words := w.context.Words
	q, err := w.question()
	if err != nil {
		w.complain(err)
		return
	}
	wait := dialog.NewCustomWithoutButtons(words.Phrase("report_working"), widget.NewLabel(path), w.window)
	wait.Show()
	go func() {
		f, err := report.Work(context.Background(), q)
		if err == nil {
			err = write(f)
		}
		w.context.Post(func() {
			if w.closed {
				return
			}
			wait.Hide()
			if err != nil {
				w.complain(err)
				return
			}
			w.tell(words.Phrase("report_written"), path)
		})
	}()
}
