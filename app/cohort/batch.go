package cohort

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
)

// mostLine is the longest line read, in bytes: a file that is no cohort must
// not fill the memory.
const mostLine = 1 << 20

// A batch is handed over when it has so many bytes or lines: enough to make
// that cheap, few enough to keep all workers busy on slow cases. The first have
// fewer lines, so that a short file of slow cases is shared too.
const (
	batchBytes = 16 << 10
	batchLines = 128
	firstLines = 8
)

// batch is a stretch of lines of one shard and, once done, their results.
type batch struct {
	text  []byte // lines, each with its end
	lines int
	first int // number of the first line
	every int // step from one line's number to the next
	most  int // lines it takes

	out      []byte
	answered int
	faults   []Fault
	whole    int   // length of out before the first fault's result
	end      int64 // bytes of the input up to here
}

// reset empties the batch, keeping its room.
func (b *batch) reset() {
	b.text, b.out, b.faults = b.text[:0], b.out[:0], b.faults[:0]
	b.lines, b.answered, b.whole = 0, 0, 0
}

// count returns the number of lines.
func count(text []byte) int { return bytes.Count(text, []byte{'\n'}) }

// full reports whether the batch is to be handed over.
func (b *batch) full() bool { return len(b.text) >= batchBytes || b.lines >= b.most }

// answer answers all lines of the batch. Blank lines have no result.
func (b *batch) answer(w *worker) {
	rest := b.text
	for k := range b.lines {
		end := bytes.IndexByte(rest, '\n')
		line := plain(rest[:end])
		rest = rest[end+1:]
		if len(line) == 0 {
			continue
		}
		b.answered++
		before := len(b.out)
		var fault *Fault
		if b.out, fault = w.answer(b.out, line, b.first+k*b.every); fault != nil {
			if len(b.faults) == 0 {
				b.whole = before
			}
			b.faults = append(b.faults, *fault)
		}
	}
}

// plain returns a line without the end that Windows gives it and without the
// spaces around it.
func plain(line []byte) []byte {
	if n := len(line); n > 0 && line[n-1] == '\r' {
		line = line[:n-1]
	}
	if len(line) > 0 && (line[0] == ' ' || line[0] == '\t') && len(bytes.TrimLeft(line, " \t")) == 0 {
		return nil
	}
	return line
}

// lineReader reads the lines of one shard.
type lineReader struct {
	in    *bufio.Reader
	s     *Settings
	from  int // lines up to this one are passed over; they were answered before
	line  int // number of the last line read
	index int // of the next line after the header
	own   int // lines of the shard that are not blank, up to from
	bytes int64
	begun int // batches
}

// next returns one line with its end. The last line of a file has one too,
// whether it stands there or not.
func (r *lineReader) next() ([]byte, error) {
	line, err := r.in.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		return nil, fmt.Errorf("line %d is longer than %d bytes; is this a cohort?", r.line+1, mostLine)
	}
	if err != nil && (err != io.EOF || len(line) == 0) {
		return nil, err
	}
	r.bytes += int64(len(line))
	if line[len(line)-1] != '\n' {
		line = append(line[:len(line):len(line)], '\n')
	}
	r.line++
	return line, nil
}

// fill reads lines of the shard into a batch until it is full or, with io.EOF,
// the lines have ended.
func (r *lineReader) fill(b *batch) error {
	b.reset()
	b.every, b.most = max(r.s.Shards, 1), min(batchLines, firstLines<<min(r.begun, 8))
	r.begun++
	for !b.full() {
		line, err := r.next()
		if err != nil {
			return err
		}
		own := r.s.own(r.index)
		r.index++
		switch {
		case !own:
			continue
		case r.line <= r.from:
			if len(plain(line[:len(line)-1])) > 0 {
				r.own++
			}
			continue
		}
		if b.lines == 0 {
			b.first = r.line
		}
		b.lines++
		b.text = append(b.text, line...)
	}
	return nil
}

// Marks at the front of files that are not text in UTF-8, and of those that
// are.
var (
	mark8       = []byte("\xef\xbb\xbf")
	mark16      = [][]byte{[]byte("\xff\xfe"), []byte("\xfe\xff")}
	errNotUTF8  = errors.New("the file must be text in UTF-8; it is in UTF-16, as a spreadsheet's \"Unicode text\" is")
	errNotText  = errors.New("the file must be text in UTF-8; it holds zero bytes")
	errEmpty    = errors.New("the file is empty; the first line must name the columns")
	errNoLines  = errors.New("the file's lines end with a carriage return alone; they must end with a line feed")
	separatorIs = []byte("sep=")
)

// start passes over the mark of UTF-8 and reads the header of CSV.
func (r *lineReader) start() (*table, dialect, error) {
	front, err := r.in.Peek(4)
	if err != nil && err != io.EOF {
		return nil, dialect{}, err
	}
	for _, m := range mark16 {
		if bytes.HasPrefix(front, m) {
			return nil, dialect{}, errNotUTF8
		}
	}
	if bytes.HasPrefix(front, mark8) {
		n, _ := r.in.Discard(len(mark8))
		r.bytes += int64(n)
	}
	if r.s.Format == NDJSON {
		return r.s.everyColumn(), dialect{',', '.'}, nil
	}
	return r.header()
}

func (r *lineReader) header() (*table, dialect, error) {
	line, err := r.next()
	if err == nil && bytes.HasPrefix(line, separatorIs) { // as one spreadsheet program writes it
		line, err = r.next()
	}
	if err == io.EOF {
		return nil, dialect{}, errEmpty
	}
	if err != nil {
		return nil, dialect{}, err
	}
	line = plain(line[:len(line)-1])
	switch {
	case len(line) == 0:
		return nil, dialect{}, errEmpty
	case bytes.IndexByte(line, 0) >= 0:
		return nil, dialect{}, errNotText
	case bytes.IndexByte(line, '\r') >= 0:
		return nil, dialect{}, errNoLines
	}
	d := dialectOf(line)
	t, err := r.s.header(line, d)
	return t, d, err
}
