package app

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/app/store"
	"rimclear/app/view"
	"rimclear/kinematics"
)

// Window is the program's one window: a session, its view, its menu, and the
// files it reads and writes.
type Window struct {
	window   fyne.Window
	app      fyne.App
	session  *session.Session
	context  *view.Context
	pages    *view.Pages
	explore  *view.Explore
	menu     menu
	home     store.Home // "" where no folder could be made
	settings store.Settings
	autosave *autosave
	state    *stateFile
	closed   bool
}

// Run opens the window, on the case file named by the first argument if there
// is one, works until it is closed, and returns the exit code.
func Run(a fyne.App, args []string, complain io.Writer) int {
	if len(args) > 1 || len(args) == 1 && strings.HasPrefix(args[0], "-") {
		fmt.Fprintln(complain, present.English().Phrase("window_usage"))
		return 2
	}
	w := New(a, time.Now, fyne.Do)
	if len(args) == 1 {
		if err := w.OpenFile(args[0]); err != nil {
			fmt.Fprintln(complain, "rimclear:", err)
			w.Close()
			return 2
		}
	}
	w.window.ShowAndRun()
	w.Close()
	return 0
}

// Size of the window at the first start.
const firstWidth, firstHeight = 1280, 800

// New makes the window without showing it. clock tells the time; post runs a
// function on the goroutine that draws.
func New(a fyne.App, clock func() time.Time, post func(func())) *Window {
	w := &Window{app: a}
	w.loadSettings()
	th := &control.Theme{Brightness: brightnessOf(w.settings.Theme), Scale: float32(w.settings.TextScale)}
	a.Settings().SetTheme(th)
	after := func(d time.Duration, f func()) func() {
		t := time.AfterFunc(d, func() {
			post(func() {
				if !w.closed {
					f()
				}
			})
		})
		return func() { t.Stop() }
	}
	w.session = session.New(kinematics.Default(), post, clock)
	w.autosave = newAutosave(w.home, w.session.File, after, post)
	w.begin()
	w.context = &view.Context{
		Session: w.session, Words: present.English(), Theme: th, Hint: control.NewHint(after),
		Post: post, After: after, Now: clock,
	}
	w.context.Ask = w.showNumber
	w.window = a.NewWindow("Rimclear")
	w.pages = view.NewPages(w.context, w.turned)
	w.explore = w.pages.Explore
	w.pages.Target.OnImport(w.readRecording)
	w.state = newStateFile(os.Getenv(stateVariable), w)
	w.explore.Pace.OnDrawn = w.state.drawn
	w.menu = newMenu(w)
	w.window.SetMainMenu(w.menu.main)
	w.window.SetPadded(false)
	w.window.SetContent(container.NewStack(w.pages.Object(), w.context.Hint))
	w.window.SetMaster()
	w.window.SetCloseIntercept(w.quit)
	w.window.Canvas().SetOnTypedKey(w.typed)
	w.window.SetOnDropped(w.dropped)
	w.resize()
	w.session.Watch(w.display)
	w.display(w.session.Now())
	return w
}

// begin starts on the case of the last time, or else on the first sample.
func (w *Window) begin() {
	if f, saved, path, ok := w.lastCase(); ok {
		w.session.Resume(f, saved, path)
		return
	}
	if f, err := sample(0); err == nil {
		w.session.Begin(f, "")
	}
}

func (w *Window) resize() {
	s := fyne.NewSize(float32(w.settings.WindowWidth), float32(w.settings.WindowHeight))
	if s.Width < 400 || s.Height < 300 {
		s = fyne.NewSize(firstWidth, firstHeight)
	}
	w.window.Resize(s)
}

// display keeps title, menu and autosave up with a snapshot.
func (w *Window) display(s *session.Snapshot) {
	if t := w.title(s); t != w.window.Title() {
		w.window.SetTitle(t)
	}
	w.menu.display(w)
	w.autosave.ask()
	w.state.changed()
}

// turned keeps menu and state file up with the view that is open.
func (w *Window) turned(view.Page) {
	w.menu.display(w)
	w.state.changed()
}

// title names the case by its file, or else by its label, marks what is not
// saved, and ends with the program's name.
func (w *Window) title(s *session.Snapshot) string {
	name := s.Case.Label
	if s.Path != "" {
		name = fileName(s.Path)
	}
	if name == "" {
		name = w.context.Words.Phrase("window_untitled")
	}
	key := "window_title"
	if s.Unsaved {
		key = "window_title_unsaved"
	}
	return w.context.Words.Phrase(key, "case", name)
}

// typed gets the keys no widget has.
func (w *Window) typed(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyF1:
		w.showShortcuts()
		return
	case fyne.KeyF2:
		w.showFocusedNumber()
		return
	case fyne.KeyEscape:
		if top := w.window.Canvas().Overlays().Top(); top != nil {
			top.Hide()
			return
		}
	}
	w.pages.Seen().TypedKey(e)
}

func (w *Window) dropped(_ fyne.Position, files []fyne.URI) {
	if len(files) > 0 {
		w.leave(func() { w.complain(w.OpenFile(files[0].Path())) })
	}
}

// quit closes the window. What was not saved is kept and is there again at the
// next start.
func (w *Window) quit() {
	s := w.window.Canvas().Size()
	w.settings.WindowWidth, w.settings.WindowHeight = float64(s.Width), float64(s.Height)
	w.saveSettings()
	w.autosave.finish(w.session.File())
	w.window.Close()
}

// Close ends all work in the background.
func (w *Window) Close() {
	w.closed = true
	w.state.close()
	w.autosave.close()
	w.pages.Close()
	w.session.Close()
}

// File returns the present case as it is to be kept.
func (w *Window) File() casefile.File { return w.session.File() }
