package cohort

import "bytes"

// dialect is how a CSV file separates its cells and marks decimals.
type dialect struct{ separator, mark byte }

// split cuts a line of CSV into cells, trimmed of spaces, into a list that is
// used again. Quoted cells may hold the separator and doubled quotation marks;
// a cell ends with its line. scratch takes cells that had to be changed.
func (d dialect) split(line []byte, cells [][]byte, scratch *[]byte) ([][]byte, string) {
	cells, *scratch = cells[:0], (*scratch)[:0]
	for {
		for len(line) > 0 && line[0] == ' ' {
			line = line[1:]
		}
		if len(line) > 0 && line[0] == '"' {
			cell, rest, wrong := d.quoted(line[1:], scratch)
			if wrong != "" {
				return cells, wrong
			}
			cells = append(cells, cell)
			if rest == nil {
				return cells, ""
			}
			line = rest
			continue
		}
		at := bytes.IndexByte(line, d.separator)
		cell := line
		if at >= 0 {
			cell = line[:at]
		}
		if bytes.IndexByte(cell, '"') >= 0 {
			return cells, `a quotation mark stands inside a cell; it must be doubled, and the cell quoted`
		}
		cells = append(cells, trimmed(cell))
		if at < 0 {
			return cells, ""
		}
		line = line[at+1:]
	}
}

// quoted reads a cell after its opening mark. rest is what follows its
// separator, nil at the end of the line.
func (d dialect) quoted(line []byte, scratch *[]byte) (cell, rest []byte, wrong string) {
	start := len(*scratch)
	plain := true
	for from := line; ; {
		at := bytes.IndexByte(line, '"')
		if at < 0 {
			return nil, nil, "a quotation mark is not closed on its line; one case stands on one line"
		}
		if at+1 < len(line) && line[at+1] == '"' {
			*scratch = append(*scratch, line[:at+1]...)
			line, plain = line[at+2:], false
			continue
		}
		if plain {
			cell = from[:at]
		} else {
			*scratch = append(*scratch, line[:at]...)
			cell = (*scratch)[start:len(*scratch):len(*scratch)]
		}
		line = line[at+1:]
		for len(line) > 0 && line[0] == ' ' {
			line = line[1:]
		}
		switch {
		case len(line) == 0:
			return trimmed(cell), nil, ""
		case line[0] != d.separator:
			return nil, nil, "something stands between a closing quotation mark and the end of its cell"
		}
		return trimmed(cell), line[1:], ""
	}
}

func trimmed(cell []byte) []byte {
	for len(cell) > 0 && (cell[0] == ' ' || cell[0] == '\t') {
		cell = cell[1:]
	}
	for len(cell) > 0 && (cell[len(cell)-1] == ' ' || cell[len(cell)-1] == '\t') {
		cell = cell[:len(cell)-1]
	}
	return cell
}
