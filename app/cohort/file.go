package cohort

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"
)

// ErrOther says that an output belongs to another run.
var ErrOther = errors.New("it belongs to another run; name another file, or delete it to begin anew")

// File runs a cohort from one file into another, or goes on where an earlier
// run of the same settings on the same input was ended, however it was ended:
// results that stand there are kept, a torn last line is cut off and answered
// again. What was asked for and a fingerprint of the input are kept beside the
// output (StatePath), and must be the same; else the error is ErrOther.
//
// resumed is how many lines were answered before; the tally counts them too.
func File(ctx context.Context, s Settings, program, in, out string, report Report) (t Tally, resumed int, err error) {
	if err := s.Check(); err != nil {
		return t, 0, err
	}
	input, err := os.Open(in)
	if err != nil {
		return t, 0, err
	}
	defer input.Close()
	state, err := stateOf(&s, program, input)
	if err == nil {
		_, err = input.Seek(0, io.SeekStart)
	}
	if err != nil {
		return t, 0, err
	}
	r := runner{s: &s, report: report}
	if err := r.begin(input, 0); err != nil { // before anything is written
		return t, 0, err
	}
	if err := claim(state, out); err != nil {
		return t, 0, err
	}
	f, w, err := take(out, &s)
	if err != nil {
		return t, 0, err
	}
	r.lines.from = w.last
	r.tally = Tally{Answered: w.rows, Faults: w.faults}
	err = errors.Join(r.into(ctx, f, w), f.Close())
	if err == nil && !r.tally.Stopped {
		state.Done, state.Rows, state.Faults = true, r.tally.Answered, r.tally.Faults
		err = state.write(out)
	}
	return r.tally, w.rows, err
}

// claim makes sure that an output is this run's, and says so beside it.
func claim(state State, out string) error {
	old, err := readState(out)
	switch {
	case err == nil:
		if d := old.differs(state); d != "" {
			return fmt.Errorf("%s: %w (not the same: %s)", out, ErrOther, d)
		}
		if old.Shard != state.Shard {
			return fmt.Errorf("%s: %w (it is shard %d)", out, ErrOther, old.Shard)
		}
		return nil
	case !errors.Is(err, fs.ErrNotExist):
		return err
	case exists(out):
		return fmt.Errorf("%s: %w (nothing beside it tells of which)", out, ErrOther)
	}
	return state.write(out)
}

// into writes what is still to be written to the output.
func (r *runner) into(ctx context.Context, f *os.File, w written) error {
	if w.bytes == 0 {
		if _, err := f.WriteString(r.s.Header()); err != nil {
			return err
		}
	}
	if err := r.run(ctx, &steady{f: f, last: time.Now()}); err != nil {
		return err
	}
	if r.lines.own != w.rows {
		return fmt.Errorf("%s has %d results up to line %d, where the input has %d cases", f.Name(), w.rows, w.last, r.lines.own)
	}
	return f.Sync()
}

// steady brings what was written to the disk every few seconds, so that little
// is lost if the power fails.
type steady struct {
	f    *os.File
	last time.Time
}

const syncEvery = 10 * time.Second

func (s *steady) Write(p []byte) (int, error) {
	n, err := s.f.Write(p)
	if err == nil && time.Since(s.last) > syncEvery {
		err = s.f.Sync()
		s.last = time.Now()
	}
	return n, err
}
