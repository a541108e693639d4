package main

import (
	"bufio"
	"fmt"
)

// mostLine is the longest line read, in bytes. It keeps a file that is no CSV,
// or a quotation mark that is never closed, from filling the memory.
const mostLine = 1 << 20

// bounded passes a stream on and ends it with an error at a line that is too
// long.
type bounded struct {
	in   *bufio.Reader
	line int
}

func (b *bounded) Read(p []byte) (int, error) {
	n, err := b.in.Read(p)
	for _, c := range p[:n] {
		if c == '\n' {
			b.line = 0
		} else if b.line++; b.line > mostLine {
			return 0, fmt.Errorf("a line is longer than %d bytes", mostLine)
		}
	}
	return n, err
}
