//go:build unix

package cohort

import (
	"os"
	"syscall"
)

// lock keeps two runs from writing one file; the system lets go of it when the
// process ends, however it ends.
func lock(f *os.File) error { return syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB) }
