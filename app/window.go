package app

import (
	"fmt"
	"io"
	"os"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"rimclear/app/casefile"
	"rimclear/app/control"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/app/store"
	"rimclear/app/view"
	"rimclear/assets"
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
	place    place
	recent   *recent
	autosave *autosave
	crashed  bool // the last window did not come to its end
	unread   bool // what was kept cannot be read
	shared   bool // another window has the file open
	state    *stateFile
	closed   bool
}

// Run opens the window, on the case file named by the first argument if there
// is one, works until it is closed, and returns the exit code. Where that file
// cannot be read the window says why, over the work of the last time.
func Run(a fyne.App, args []string, complain io.Writer) int {
	if len(args) > 1 || len(args) == 1 && strings.HasPrefix(args[0], "-") {
		fmt.Fprintln(complain, present.English().Phrase("window_usage"))
		return 2
	}
	first := firstStart()
	w := New(a, time.Now, fyne.Do)
	var unread error
	if len(args) == 1 {
		unread = w.openGiven(args[0])
	}
	w.greet()
	w.complain(unread)
	if first && len(args) == 0 {
		w.showStart()
	}
	w.window.ShowAndRun()
	w.Close()
	return 0
}

// openGiven begins on the file the program was started with. Work that is in no
// file stays where it is kept, for another start; a recording is asked about,
// as one that is dropped on the window.
func (w *Window) openGiven(path string) error {
	if isRecording(path) {
		return w.OpenRecording(path)
	}
	c, err := readCase(path)
	if err != nil {
		return err
	}
	if w.session.Now().Unsaved && w.autosave.desk != nil {
		if err := w.autosave.move(w.home); err != nil {
			return err
		}
		w.crashed = false
	}
	w.beginOn(c)
	return nil
}

// Size of the window at the first start.
const firstWidth, firstHeight = 1280, 800

// New makes the window without showing it. clock tells the time; post runs a
// function on the goroutine that draws.
func New(a fyne.App, clock func() time.Time, post func(func())) *Window {
	w := &Window{app: a}
	w.loadSettings()
	storage := writeWhole()
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
	w.autosave = newAutosave(w.sit(), w.work, after, post, w.complain)
	w.begin()
	w.context = &view.Context{
		Session: w.session, Words: w.words(), Theme: th, Hint: control.NewHint(after),
		Post: post, After: after, Now: clock,
	}
	w.context.Ask, w.context.Import = w.showNumber, w.readRecording
	w.window = a.NewWindow("Rimclear")
	w.pages = view.NewPages(w.context, w.turned)
	w.explore = w.pages.Explore
	w.state = newStateFile(os.Getenv(stateVariable), w)
	w.pages.OnDrawn(w.state.drawn)
	w.recent = newRecent(w)
	w.menu = newMenu(w)
	w.window.SetMainMenu(w.menu.main)
	w.window.SetPadded(false)
	w.window.SetIcon(fyne.NewStaticResource("icon.png", assets.Icon))
	w.window.SetContent(container.NewStack(w.pages.Object(), w.context.Hint))
	w.window.SetMaster()
	w.window.SetCloseIntercept(w.quit)
	w.window.Canvas().SetOnTypedKey(w.typed)
	w.window.SetOnDropped(w.dropped)
	w.resize()
	w.session.Watch(w.display)
	w.display(w.session.Now())
	w.explore.SetLayout(w.settings.Layout)
	w.pages.Open(view.PageByKey(w.settings.View))
	w.complain(storage)
	w.keep()
	return w
}

// keep has the views kept from now on.
func (w *Window) keep() {
	w.pages.Keep()
	w.context.After(view.KeepEvery, w.keep)
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
func (w *Window) turned(p view.Page) {
	w.window.Canvas().Unfocus() // what had the keys is no longer seen
	w.settings.View = p.Key()
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
		over := w.window.Canvas().Overlays()
		if top := over.Top(); top != nil {
			top.Hide()
			over.Remove(top) // a hidden one would still catch every click
			return
		}
	}
	w.pages.Seen().TypedKey(e)
}

// quit closes the window. What was not saved is kept and is there again at the
// next start; where it cannot be kept the window asks before it closes.
func (w *Window) quit() {
	s := w.window.Canvas().Size()
	w.settings.WindowWidth, w.settings.WindowHeight = float64(s.Width), float64(s.Height)
	w.settings.Layout = w.explore.Layout()
	w.saveSettings()
	err := w.autosave.finish()
	if err == nil || !w.session.Now().Unsaved {
		w.window.Close()
		return
	}
	words := w.context.Words
	w.ask(words.Phrase("file_unkept_title"), words.Phrase("file_unkept", "fault", err.Error()),
		choice{words.Phrase("file_other_name"), w.saveAs, widget.HighImportance},
		choice{words.Phrase("file_close_anyway"), w.window.Close, widget.DangerImportance},
		choice{words.Phrase("file_cancel"), func() {}, widget.MediumImportance})
}

// Close ends all work in the background.
func (w *Window) Close() {
	w.closed = true
	w.state.close()
	w.recent.there.Close()
	w.autosave.close()
	w.place.claim.Release()
	w.pages.Close()
	w.session.Close()
}

// File returns the present case as it is to be kept.
func (w *Window) File() casefile.File { return w.session.File() }
