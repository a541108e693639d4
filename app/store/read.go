package store

import (
	"errors"
	"fmt"
	"io"
	"os"
)

// ErrTooLarge is the cause when a file holds more than the reader allows.
var ErrTooLarge = errors.New("the file is too large")

// Read returns the whole contents of the file at path if it holds no more than
// limit bytes. It never reads more than that, whatever the file claims to be.
// The error is a *Fault; errors.Is finds fs.ErrNotExist and ErrTooLarge.
func Read(path string, limit int64) ([]byte, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, &Fault{Path: path, Step: StepOpen, Err: err}
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, limit+1))
	if err != nil {
		return nil, &Fault{Path: path, Step: StepRead, Err: err}
	}
	if int64(len(data)) > limit {
		return nil, &Fault{Path: path, Step: StepRead, Err: fmt.Errorf("%w: more than %d bytes", ErrTooLarge, limit)}
	}
	return data, nil
}
