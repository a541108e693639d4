package store

import (
	"errors"
	"os"
	"syscall"
)

// sharingViolation is what Windows answers when another process has the file
// open and shares it with nobody.
const sharingViolation = syscall.Errno(32)

// claim opens the file so that no other process can; that ends with this one.
func claim(path string) (*os.File, error) {
	name, err := syscall.UTF16PtrFromString(path)
	if err != nil {
		return nil, &Fault{Path: path, Step: StepOpen, Err: err}
	}
	h, err := syscall.CreateFile(name, syscall.GENERIC_READ|syscall.GENERIC_WRITE, 0, nil, syscall.OPEN_ALWAYS, syscall.FILE_ATTRIBUTE_NORMAL, 0)
	switch {
	case errors.Is(err, sharingViolation):
		return nil, nil
	case err != nil:
		return nil, &Fault{Path: path, Step: StepOpen, Err: err}
	}
	return os.NewFile(uintptr(h), path), nil
}
