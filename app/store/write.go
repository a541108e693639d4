package store

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// scrap ends the name of a temporary file: .NAME.0123456789abcdef.rimclear-part
const scrap = ".rimclear-part"

// Write makes data the whole contents of the file at path, or leaves what is
// there as it was. The permissions of a file already there are kept; a new file
// follows the user's umask. A read-only file, a folder and anything else that
// is not a plain file are refused. The error is a *Fault.
func Write(path string, data []byte) error {
	return WriteFrom(path, func(w io.Writer) error {
		_, err := io.Copy(w, bytes.NewReader(data))
		return err
	})
}

// WriteFrom is Write for contents that fill writes piece by piece. An error
// from fill leaves the file at path as it was.
func WriteFrom(path string, fill func(io.Writer) error) error {
	return writeOn(system{}, path, fill)
}

func writeOn(d disk, path string, fill func(io.Writer) error) error {
	fault := func(step Step, err error) error { return &Fault{Path: path, Step: step, Err: err} }
	real, err := d.resolve(path)
	if err != nil {
		return fault(StepResolve, err)
	}
	mode, err := writable(d, real)
	if err != nil {
		return fault(StepPermission, err)
	}
	part := partOf(real)
	f, err := d.create(part)
	if err != nil {
		return fault(StepCreate, err)
	}
	if step, err := complete(d, f, part, mode, fill); err != nil {
		return fault(step, errors.Join(err, discard(d, part)))
	}
	if err := d.rename(part, real); err != nil {
		return fault(StepRename, errors.Join(err, discard(d, part)))
	}
	if err := d.syncFolder(filepath.Dir(real)); err != nil {
		return fault(StepFolder, err)
	}
	return nil
}

// complete fills the temporary file, brings it to the disk and closes it.
func complete(d disk, f file, part string, mode fs.FileMode, fill func(io.Writer) error) (Step, error) {
	if err := fill(f); err != nil {
		return StepFill, errors.Join(err, f.Close())
	}
	if mode != 0 {
		if err := d.chmod(part, mode); err != nil {
			return StepMode, errors.Join(err, f.Close())
		}
	}
	if err := f.Sync(); err != nil {
		return StepSync, errors.Join(err, f.Close())
	}
	return StepClose, f.Close()
}

// writable returns the permissions to keep, 0 for a new file, and refuses what
// a rename would replace although an ordinary write could not.
func writable(d disk, path string) (fs.FileMode, error) {
	info, err := d.stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return 0, nil
	case err != nil:
		return 0, err
	case info.IsDir():
		return 0, errors.New("it is a folder")
	case !info.Mode().IsRegular():
		return 0, errors.New("it is not a plain file")
	case info.Mode().Perm()&0o200 == 0:
		return 0, fmt.Errorf("it is read-only: %w", fs.ErrPermission)
	}
	return info.Mode().Perm(), nil
}

// partOf names a temporary file beside path, so that the rename stays within
// one file system.
func partOf(path string) string {
	folder, name := filepath.Split(path)
	return filepath.Join(folder, fmt.Sprintf(".%s.%016x%s", name, rand.Uint64(), scrap))
}

// discard removes a temporary file that will not be used.
func discard(d disk, part string) error {
	if err := d.remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("the temporary file stays: %w", err)
	}
	return nil
}

// Sweep removes temporary files that a killed save left in the folder, those
// not touched for the given age, and returns how many. A younger one may belong
// to a save in another window.
func Sweep(folder string, age time.Duration) (int, error) {
	entries, err := os.ReadDir(folder)
	if err != nil {
		return 0, err
	}
	var swept int
	var faults []error
	for _, e := range entries {
		if !isScrap(e) {
			continue
		}
		info, err := e.Info()
		if err != nil || time.Since(info.ModTime()) < age {
			continue
		}
		if err := os.Remove(filepath.Join(folder, e.Name())); err != nil {
			faults = append(faults, err)
			continue
		}
		swept++
	}
	return swept, errors.Join(faults...)
}

func isScrap(e fs.DirEntry) bool {
	return e.Type().IsRegular() && strings.HasPrefix(e.Name(), ".") && strings.HasSuffix(e.Name(), scrap)
}
