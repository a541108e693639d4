package store

import (
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// disk is what Write asks of the operating system, one call per step, so that
// a test can break any of them.
type disk interface {
	resolve(path string) (string, error)
	stat(path string) (fs.FileInfo, error)
	create(path string) (file, error)
	chmod(path string, mode fs.FileMode) error
	rename(from, to string) error
	remove(path string) error
	syncFolder(folder string) error
}

// file is the temporary file while it is written.
type file interface {
	io.WriteCloser
	Sync() error
}

// system is the real disk.
type system struct{}

// resolve follows symbolic links, so that a save replaces the file and not the
// link to it. A path with nothing at its end stays as it is, and so does a
// link that leads nowhere yet.
func (system) resolve(path string) (string, error) {
	real, err := filepath.EvalSymlinks(path)
	if os.IsNotExist(err) {
		return path, nil
	}
	return real, err
}

func (system) stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// create makes a file that must not exist yet; the umask applies.
func (system) create(path string) (file, error) {
	return os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
}

func (system) chmod(path string, mode fs.FileMode) error { return os.Chmod(path, mode) }

func (system) rename(from, to string) error { return os.Rename(from, to) }

func (system) remove(path string) error { return os.Remove(path) }

// syncFolder makes the rename itself durable. Windows has no such call; its
// file system journals the rename.
func (system) syncFolder(folder string) error {
	if runtime.GOOS == "windows" {
		return nil
	}
	d, err := os.Open(folder)
	if err != nil {
		return err
	}
	err = d.Sync()
	if closing := d.Close(); err == nil {
		err = closing
	}
	return err
}
