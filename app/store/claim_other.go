//go:build !(darwin || dragonfly || freebsd || linux || netbsd || openbsd || windows)

package store

import "os"

// claim opens the file; this system knows no lock that ends with the process.
func claim(path string) (*os.File, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return nil, &Fault{Path: path, Step: StepOpen, Err: err}
	}
	return f, nil
}
