package app

import (
	"encoding/json"
	"runtime"
	"time"

	"fyne.io/fyne/v2"

	"rimclear/app/casefile"
	"rimclear/app/session"
	"rimclear/app/store"
)

// stateVariable names the file in which the program tells of itself, for tests
// that drive its window.
const stateVariable = "RIMCLEAR_STATE_FILE"

// stateEvery is how often, at most, the file is written.
const stateEvery = 250 * time.Millisecond

// stateFile writes what the program is at, whole each time.
type stateFile struct {
	path    string
	w       *Window
	writer  *session.Latest[told, error]
	waiting bool
	begun   bool // there was a picture
}

// told is what the file holds; the case is encoded by the writer.
type told struct {
	Ready   bool               `json:"ready"`
	Frames  int                `json:"frames"`
	FrameMS float64            `json:"frame_ms"`
	View    string             `json:"view"`
	Case    json.RawMessage    `json:"case"`
	Posture map[string]float64 `json:"posture"`
	Answer  string             `json:"answer"`
	Places  map[string][4]int  `json:"places"`

	Goroutines int `json:"goroutines"`

	file casefile.File
}

func newStateFile(path string, w *Window) *stateFile {
	s := &stateFile{path: path, w: w}
	s.writer = session.NewLatest(s.write, func(f func()) {}, nil)
	return s
}

func (s *stateFile) write(t told) error {
	data, err := casefile.Encode(t.file)
	if err != nil {
		return err
	}
	t.Case = data
	text, err := json.Marshal(t)
	if err != nil {
		return err
	}
	return store.Write(s.path, text)
}

// drawn and changed have the file written, soon; the first picture is told at
// once, since starts are measured by it.
func (s *stateFile) drawn() {
	if s.path != "" && !s.begun {
		s.begun = true
		s.w.context.Post(func() { s.writer.Ask(s.tell()) }) // all is laid out by then
	}
	s.wish()
}

func (s *stateFile) changed() { s.wish() }

func (s *stateFile) wish() {
	if s.path == "" || s.waiting {
		return
	}
	s.waiting = true
	s.w.context.After(stateEvery, func() {
		s.waiting = false
		s.writer.Ask(s.tell())
	})
}

func (s *stateFile) tell() told {
	pace, now := s.w.pages.Pace(), s.w.session.Now()
	t := told{
		Ready: pace.Pictures > 0, Frames: pace.Pictures, FrameMS: pace.Last.Seconds() * 1000,
		View: s.w.pages.Now().Key(), Answer: s.w.pages.Seen().Headline(), Places: map[string][4]int{}, file: s.w.session.File(),
		Posture: map[string]float64{
			"flexion_deg": now.Case.Posture.Flexion.Degrees(), "adduction_deg": now.Case.Posture.Adduction.Degrees(),
			"internal_rotation_deg": now.Case.Posture.InternalRotation.Degrees(),
		},
		Goroutines: runtime.NumGoroutine(),
	}
	d, k := fyne.CurrentApp().Driver(), s.w.window.Canvas().Scale()
	for name, o := range s.w.pages.Seen().Places() {
		if !o.Visible() || o.Size().IsZero() {
			continue
		}
		at, size := d.AbsolutePositionForObject(o), o.Size()
		t.Places[name] = [4]int{int(at.X * k), int(at.Y * k), int(size.Width * k), int(size.Height * k)}
	}
	return t
}

func (s *stateFile) close() { s.writer.Close() }
