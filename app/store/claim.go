package store

import "os"

// Claim is the sole right to something of which there is one, as long as this
// process holds it. The system takes it back when the process ends, even when
// it is killed; so nothing is ever left claimed.
type Claim struct{ file *os.File }

// Take returns the claim that a file stands for, which it makes if need be, or
// nil if another window has it. Where the system has no such rights everybody
// gets one.
func Take(path string) (*Claim, error) {
	f, err := claim(path)
	if err != nil || f == nil {
		return nil, err
	}
	return &Claim{f}, nil
}

// Release gives the claim back. The file stays: removing it could take it from
// a window that has just claimed it.
func (c *Claim) Release() error {
	if c == nil || c.file == nil {
		return nil
	}
	err := c.file.Close()
	c.file = nil
	return err
}
