package store

import (
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
)

// Mark tells the contents of a file from any others: the SHA-256 of what was
// last read from it or written to it, "" for none.
type Mark string

// MarkOf returns the mark of some contents.
func MarkOf(data []byte) Mark {
	sum := sha256.Sum256(data)
	return Mark(hex.EncodeToString(sum[:]))
}

// Changed reports whether the file at path now holds something else, so that
// writing would destroy what another window or program has put there. A file
// that is not there holds nothing to destroy.
func (m Mark) Changed(path string, limit int64) (bool, error) {
	data, err := Read(path, limit)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case errors.Is(err, ErrTooLarge):
		return true, nil
	case err != nil:
		return false, err
	}
	return MarkOf(data) != m, nil
}
