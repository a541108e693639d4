package store

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// Desk is the place in the program's folder where one window keeps what it is
// at. Each open window has its own, so that none writes over another's.
type Desk struct {
	home  Home
	n     int
	claim *Claim
}

// desks is how many windows can have one.
const desks = 16

// ErrNoDesk is the cause when more windows are open than there are desks.
var ErrNoDesk = errors.New("too many windows are open")

// Desk takes the first desk that no open window has; with bare, the first on
// which no work was left either.
func (h Home) Desk(bare bool) (*Desk, error) {
	for n := range desks {
		d := &Desk{home: h, n: n}
		c, err := Take(h.Path(d.name() + ".lock"))
		if err != nil {
			return nil, err
		}
		if c == nil {
			continue
		}
		if d.claim = c; !bare || !d.laid() {
			return d, nil
		}
		if err := c.Release(); err != nil {
			return nil, err
		}
	}
	return nil, ErrNoDesk
}

// Left takes the desks, other than this one, on which work lies and at which no
// window is: theirs has crashed, or was closed before the work was saved. Each
// is to be released.
func (d *Desk) Left() []*Desk {
	var list []*Desk
	for n := range desks {
		o := &Desk{home: d.home, n: n}
		if n == d.n || !o.laid() {
			continue
		}
		if c, err := Take(d.home.Path(o.name() + ".lock")); err == nil && c != nil {
			o.claim = c
			list = append(list, o)
		}
	}
	return list
}

// name is what the desk's files are called: "last" for the first.
func (d *Desk) name() string {
	if d.n == 0 {
		return "last"
	}
	return fmt.Sprintf("last-%d", d.n)
}

// First reports whether this is the desk of a single window.
func (d *Desk) First() bool { return d.n == 0 }

// Path returns where the desk's work lies.
func (d *Desk) Path() string { return d.home.Path(d.name() + ".rimclear.json") }

// laid reports whether work lies on the desk.
func (d *Desk) laid() bool {
	_, err := os.Stat(d.Path())
	return err == nil
}

// Clear removes the desk's work.
func (d *Desk) Clear() error {
	if err := os.Remove(d.Path()); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return &Fault{Path: d.Path(), Step: StepRename, Err: err}
	}
	return nil
}

// Release leaves the desk to others, with what lies on it.
func (d *Desk) Release() error { return d.claim.Release() }

// Open takes the claim to work on the file at path among the windows of this
// user on this machine, or nil if another window has it. Nothing is written
// beside the file itself, whose folder may be anybody's.
func (h Home) Open(path string) (*Claim, error) {
	folder := h.Path(openFolder)
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, &Fault{Path: folder, Step: StepOpen, Err: err}
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real
	}
	name := filepath.Join(folder, string(MarkOf([]byte(path)))[:32]+".lock")
	c, err := Take(name)
	if c != nil {
		now := time.Now()
		err = os.Chtimes(name, now, now) // for SweepOpen
	}
	return c, err
}

// openFolder holds a file for each case file that was opened of late.
const openFolder = "open"

// SweepOpen removes what Open has left of files that were not opened for the
// given age. On Windows, where a file that is held cannot be removed, they stay.
func (h Home) SweepOpen(age time.Duration) error {
	entries, err := os.ReadDir(h.Path(openFolder))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	for _, e := range entries {
		info, fault := e.Info()
		if fault != nil || !info.Mode().IsRegular() || time.Since(info.ModTime()) < age {
			continue
		}
		name := filepath.Join(h.Path(openFolder), e.Name())
		c, fault := Take(name)
		if c != nil {
			fault = errors.Join(os.Remove(name), c.Release())
		}
		err = errors.Join(err, fault)
	}
	return err
}
