//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package store

import (
	"errors"
	"os"
	"syscall"
)

// claim opens the file and locks it; the lock ends with the last process that
// has it open.
func claim(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, &Fault{Path: path, Step: StepOpen, Err: err}
	}
	switch err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB); {
	case errors.Is(err, syscall.EWOULDBLOCK):
		return nil, f.Close()
	case err != nil && !errors.Is(err, syscall.ENOTSUP) && !errors.Is(err, syscall.ENOLCK):
		return nil, errors.Join(&Fault{Path: path, Step: StepOpen, Err: err}, f.Close())
	}
	return f, nil
}
