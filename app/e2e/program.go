package e2e

import (
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// State is what the program tells of itself in its state file. Fields it does
// not write stay zero.
type State struct {
	Ready   bool            `json:"ready"`    // the first picture is on screen
	Frames  int             `json:"frames"`   // pictures drawn since the start
	FrameMS float64         `json:"frame_ms"` // our own work for the last picture, ms
	View    string          `json:"view"`     // the open view
	Case    json.RawMessage `json:"case"`     // the case as its file would hold it
	Posture json.RawMessage `json:"posture"`  // the joint's three angles, degrees
	Answer  string          `json:"answer"`   // the sentence on screen
	// Goroutines are how many the program has.
	Goroutines int `json:"goroutines"`
	// Places are the rectangles [x, y, width, height], in pixels of the
	// window, of what can be reached: sliders by the key of their parameter
	// ("cup_inclination_deg"), and areas by name ("joint", "chart").
	Places map[string][4]int `json:"places"`
}

// Place returns the rectangle of a slider or an area.
func (s State) Place(name string) (image.Rectangle, error) {
	p, ok := s.Places[name]
	if !ok {
		return image.Rectangle{}, fmt.Errorf("the state file names no place %q", name)
	}
	return image.Rect(p[0], p[1], p[0]+p[2], p[1]+p[3]), nil
}

// Program is a running rimclear.
type Program struct {
	Home   string // its RIMCLEAR_HOME, and what else it writes
	run    *exec.Cmd
	log    *os.File
	ending chan error
}

// StartProgram runs the binary on the display, with the folder home for all it
// keeps. A second program on the same home finds what the first one left.
func StartProgram(d *Display, binary, home string, args ...string) (*Program, error) {
	log, err := os.Create(filepath.Join(home, "program.log"))
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(filepath.Join(home, ".cache"), 0o755); err != nil {
		return nil, errors.Join(err, log.Close())
	}
	p := &Program{Home: home, run: exec.Command(binary, args...), log: log, ending: make(chan error, 1)}
	if err := os.Remove(p.stateFile()); err != nil && !errors.Is(err, os.ErrNotExist) {
		return nil, err
	}
	p.run.Env = append(slices.DeleteFunc(os.Environ(), foreign),
		"DISPLAY="+d.Name(), "LIBGL_ALWAYS_SOFTWARE=1",
		"HOME="+home, "RIMCLEAR_HOME="+home, "XDG_CONFIG_HOME="+home, "RIMCLEAR_STATE_FILE="+p.stateFile())
	p.run.Stdout, p.run.Stderr = log, log
	if err := p.run.Start(); err != nil {
		return nil, errors.Join(err, log.Close())
	}
	go func() { p.ending <- p.run.Wait() }()
	return p, nil
}

// foreign reports whether the setting would tie the program to the desktop of
// whoever runs the test.
func foreign(setting string) bool {
	return slices.ContainsFunc([]string{"DISPLAY=", "HOME=", "WAYLAND_DISPLAY=", "XDG_CONFIG_HOME=", "RIMCLEAR_"}, func(p string) bool {
		return strings.HasPrefix(setting, p)
	})
}

func (p *Program) stateFile() string { return filepath.Join(p.Home, "state.json") }

// PID returns the program's process number.
func (p *Program) PID() int { return p.run.Process.Pid }

// State reads the state file as it is now.
func (p *Program) State() (State, error) {
	var s State
	data, err := os.ReadFile(p.stateFile())
	if err != nil {
		return s, err
	}
	return s, json.Unmarshal(data, &s)
}

// Await reads the state file until it is as wanted.
func (p *Program) Await(what string, wait time.Duration, wanted func(State) bool) (State, error) {
	var s State
	var err error
	for end := time.Now().Add(wait); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if s, err = p.State(); err == nil && wanted(s) {
			return s, nil
		}
		select {
		case ending := <-p.ending:
			p.ending <- ending
			return s, fmt.Errorf("the program ended before it was %s: %v\n%s", what, ending, p.Log())
		default:
		}
	}
	return s, fmt.Errorf("the program was not %s within %v (reading the state: %v)\n%s", what, wait, err, p.Log())
}

// Ended waits for the program to end and returns its exit code.
func (p *Program) Ended(wait time.Duration) (int, error) {
	select {
	case err := <-p.ending:
		p.ending <- err
		var exit *exec.ExitError
		if err != nil && !errors.As(err, &exit) {
			return -1, err
		}
		return p.run.ProcessState.ExitCode(), nil
	case <-time.After(wait):
		return -1, fmt.Errorf("the program still runs after %v\n%s", wait, p.Log())
	}
}

// Kill ends the program at once, as a crash would, and waits for its end.
func (p *Program) Kill() {
	p.run.Process.Kill()
	ending := <-p.ending
	p.ending <- ending
	p.log.Close()
}

// Log returns what the program wrote to its standard outputs.
func (p *Program) Log() string {
	data, err := os.ReadFile(p.log.Name())
	if err != nil {
		return err.Error()
	}
	return string(data)
}
