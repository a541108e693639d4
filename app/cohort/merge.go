package cohort

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
)

// Merge joins the results of all shards of a run to what the run would have
// written by itself, byte for byte. Each shard must have come to its end, and
// all must be of the same input and settings.
func Merge(shards []string, out io.Writer) (Tally, error) {
	states, err := complete(shards)
	if err != nil {
		return Tally{}, err
	}
	format := Format(max(0, slices.Index(FormatKeys, states[0].Written)))
	var list []*shard
	for _, path := range shards {
		f, err := os.Open(path)
		if err != nil {
			return Tally{}, err
		}
		defer f.Close()
		list = append(list, &shard{path: path, format: format, in: bufio.NewReaderSize(f, mostLine)})
	}
	w := bufio.NewWriterSize(out, 1<<16)
	t, err := join(list, w)
	if err == nil {
		err = w.Flush()
	}
	if want := total(states); err == nil && t != want {
		err = fmt.Errorf("the shards hold %d results, %d of them faults, where their runs ended with %d and %d", t.Answered, t.Faults, want.Answered, want.Faults)
	}
	return t, err
}

func total(states []State) (t Tally) {
	for _, s := range states {
		t.Answered += s.Rows
		t.Faults += s.Faults
	}
	return t
}

// complete makes sure that the shards are all there, done, and of one run.
func complete(shards []string) ([]State, error) {
	if len(shards) == 0 {
		return nil, errors.New("there are no shards to merge")
	}
	states := make([]State, len(shards))
	seen := map[int]string{}
	for i, path := range shards {
		s, err := readState(path)
		if err != nil {
			return nil, err
		}
		states[i] = s
		if d := states[0].differs(s); d != "" {
			return nil, fmt.Errorf("%s is of another run than %s (not the same: %s)", path, shards[0], d)
		}
		if !s.Done {
			return nil, fmt.Errorf("%s is not finished; run its shard again to go on with it", path)
		}
		if twin, twice := seen[s.Shard]; twice {
			return nil, fmt.Errorf("%s and %s are both shard %d", twin, path, s.Shard)
		}
		seen[s.Shard] = path
	}
	for i := 1; i <= states[0].Shards; i++ {
		if seen[i] == "" {
			return nil, fmt.Errorf("shard %d/%d is missing", i, states[0].Shards)
		}
	}
	return states, nil
}

// shard is the results of one shard as they are read.
type shard struct {
	path   string
	format Format
	in     *bufio.Reader
	line   []byte
	number int
	status string
	ended  bool
}

// next reads the next result.
func (s *shard) next() error {
	line, err := s.in.ReadSlice('\n')
	if err == io.EOF && len(line) == 0 {
		s.ended = true
		return nil
	}
	if err != nil {
		return fmt.Errorf("%s: %w", s.path, err)
	}
	var ok bool
	s.line = line
	if s.number, s.status, ok = front(line, s.format); !ok {
		return fmt.Errorf("%s: no result of a cohort: %s", s.path, shortened(line))
	}
	return nil
}

// join writes the results of all shards in the order of their lines.
func join(list []*shard, out io.Writer) (t Tally, err error) {
	for i, s := range list {
		if s.format == CSV {
			line, err := s.in.ReadSlice('\n')
			if err != nil {
				return t, fmt.Errorf("%s: %w", s.path, err)
			}
			if i == 0 {
				if _, err := out.Write(line); err != nil {
					return t, err
				}
			}
		}
		if err := s.next(); err != nil {
			return t, err
		}
	}
	for {
		var first *shard
		for _, s := range list {
			if !s.ended && (first == nil || s.number < first.number) {
				first = s
			}
		}
		if first == nil {
			return t, nil
		}
		t.Answered++
		if first.status == refused {
			t.Faults++
		}
		if _, err := out.Write(first.line); err != nil {
			return t, err
		}
		if err := first.next(); err != nil {
			return t, err
		}
	}
}
