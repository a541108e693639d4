package cohort

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"strconv"
)

// written is what of a run's results stands in its output already.
type written struct {
	bytes  int64 // up to the end of the last whole line
	rows   int
	faults int
	last   int // number of the last line answered
}

// survey reads the results that stand in an output. It goes as far as they are
// sound: whole lines, of rising numbers of this shard. What follows was torn
// off or never written, and is to be written again.
func survey(f io.Reader, s *Settings) (written, error) {
	var w written
	whole := wholeness{s: s, fields: len(resultNames(s))}
	r := bufio.NewReaderSize(f, mostLine)
	if h := s.Header(); h != "" {
		line, err := r.ReadSlice('\n')
		if err == io.EOF || bytes.IndexByte(line, 0) >= 0 { // torn within the header: begin anew
			return w, nil
		}
		if err != nil || string(line) != h {
			return w, errors.New("its header is not that of this run's results")
		}
		w.bytes = int64(len(h))
	}
	for {
		line, err := r.ReadSlice('\n')
		if err != nil && err != io.EOF {
			return w, err
		}
		number, status, ok := front(line, s.Format)
		if err == io.EOF || !ok || number <= w.last || !whole.has(line) {
			return w, nil
		}
		w.bytes += int64(len(line))
		w.rows++
		w.last = number
		if status == refused {
			w.faults++
		}
	}
}

// wholeness tells whole results from those a power cut tore and filled up.
type wholeness struct {
	s       *Settings
	fields  int
	cells   [][]byte
	scratch []byte
}

func (w *wholeness) has(line []byte) bool {
	if bytes.IndexByte(line, 0) >= 0 {
		return false
	}
	if w.s.Format == NDJSON {
		return bytes.HasSuffix(line, []byte("}\n"))
	}
	var wrong string
	w.cells, wrong = dialect{',', '.'}.split(line[:len(line)-1], w.cells, &w.scratch)
	return wrong == "" && len(w.cells) == w.fields
}

// front reads line number and status off the front of a result.
func front(line []byte, f Format) (number int, status string, ok bool) {
	before, between, after := "", ",", byte(',')
	if f == NDJSON {
		before, between, after = `{"`+lineColumn+`":`, `,"`+statusColumn+`":"`, '"'
	}
	rest, ok := bytes.CutPrefix(line, []byte(before))
	if !ok {
		return 0, "", false
	}
	digits, rest, ok := bytes.Cut(rest, []byte(between))
	if !ok {
		return 0, "", false
	}
	number, err := strconv.Atoi(string(digits))
	end := bytes.IndexByte(rest, after)
	if err != nil || end < 0 {
		return 0, "", false
	}
	switch status = string(rest[:end]); status {
	case answered, refused:
		return number, status, true
	}
	return 0, "", false
}

// take opens an output to go on with, cut behind its last whole line.
func take(path string, s *Settings) (*os.File, written, error) {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o666)
	if err != nil {
		return nil, written{}, err
	}
	if err := lock(f); err != nil {
		return nil, written{}, errors.Join(fmt.Errorf("%s is being written by another run: %w", path, err), f.Close())
	}
	w, err := survey(f, s)
	if err != nil {
		return nil, w, errors.Join(fmt.Errorf("%s: %w", path, err), f.Close())
	}
	if err := f.Truncate(w.bytes); err != nil {
		return nil, w, errors.Join(err, f.Close())
	}
	if _, err := f.Seek(w.bytes, io.SeekStart); err != nil {
		return nil, w, errors.Join(err, f.Close())
	}
	return f, w, nil
}
