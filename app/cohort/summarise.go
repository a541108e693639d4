package cohort

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"rimclear/kinematics"
)

// Summarise reads the results of a run, of one shard or of all, and returns
// what they come to.
func Summarise(in io.Reader) (*Summary, error) {
	r := &tallier{in: bufio.NewReaderSize(in, mostLine), sum: &Summary{Fields: map[string]int{}}}
	if err := r.begin(); err != nil {
		return nil, err
	}
	for {
		line, err := r.line()
		if err == io.EOF {
			return r.sum, nil
		}
		if err == nil && len(line) > 0 {
			err = r.take(line)
		}
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", r.number, err)
		}
	}
}

// tallier reads results.
type tallier struct {
	in     *bufio.Reader
	sum    *Summary
	number int
	format Format
	first  []byte // NDJSON: the line that told the fields

	cells   [][]byte
	scratch []byte
	byName  map[string]int
	fields  int // how many there are, and where two of them stand
	status  int
	field   int
	designs []places
}

// places says in which cells the answers of one design stand, -1 for nowhere.
type places struct {
	limits   [][2]int // angle and ending
	margins  []int
	verdicts []int
	serves   int
	least    int
}

func (r *tallier) line() ([]byte, error) {
	if line := r.first; line != nil {
		r.first = nil
		return line, nil
	}
	line, err := r.in.ReadSlice('\n')
	if err == bufio.ErrBufferFull {
		return nil, errors.New("is too long for a result")
	}
	if len(line) == 0 {
		return nil, err
	}
	if err != nil && err != io.EOF {
		return nil, err
	}
	r.number++
	return plain(bytes.TrimSuffix(line, []byte{'\n'})), nil
}

// begin reads the names of the fields.
func (r *tallier) begin() error {
	line, err := r.line()
	if err == io.EOF {
		return errors.New("there are no results: the file is empty")
	}
	if err != nil {
		return err
	}
	var names []string
	if line = bytes.TrimPrefix(line, mark8); len(line) > 0 && line[0] == '{' {
		r.format, r.first = NDJSON, bytes.Clone(line)
		if names, err = r.names(line); err != nil {
			return err
		}
	} else {
		cells, wrong := dialect{',', '.'}.split(line, nil, &r.scratch)
		if wrong != "" {
			return errors.New(wrong)
		}
		for _, c := range cells {
			names = append(names, string(c))
		}
	}
	return r.place(names)
}

// names returns the names of an object's members.
func (r *tallier) names(line []byte) ([]string, error) {
	r.byName = map[string]int{}
	var names []string
	_, err := r.members(line, func(name []byte) int {
		names = append(names, string(name))
		r.byName[string(name)] = len(names) - 1
		return len(names) - 1
	})
	return names, err
}

// members reads an object into cells, at the places at tells.
func (r *tallier) members(line []byte, at func(name []byte) int) ([][]byte, error) {
	r.cells = append(r.cells[:0], make([][]byte, r.fields)...)
	o := members{text: line}
	if !o.take('{') {
		return nil, errNoResult
	}
	for first := true; !o.take('}'); first = false {
		if !first && !o.take(',') {
			return nil, errNoResult
		}
		name, ok := o.string()
		if !ok || !o.take(':') {
			return nil, errNoResult
		}
		value, quoted, ok := o.value()
		if !ok {
			return nil, errNoResult
		}
		if !quoted && string(value) == "null" {
			value = nil
		}
		i := at(name)
		for i >= len(r.cells) {
			r.cells = append(r.cells, nil)
		}
		if i >= 0 {
			r.cells[i] = value
		}
	}
	return r.cells, nil
}

var errNoResult = errors.New("is no result of a cohort")

// place finds where the answers stand.
func (r *tallier) place(names []string) error {
	at := func(name string) int { return slices.Index(names, name) }
	r.fields, r.status, r.field = len(names), at(statusColumn), at("fault_field")
	if at(lineColumn) != 0 || r.status < 0 || r.field < 0 {
		return fmt.Errorf("%w: it does not begin with %s, %s", errNoResult, lineColumn, statusColumn)
	}
	for i := range kinematics.MaxDesigns {
		letter := string(rune('A' + i))
		prefix := letter + "."
		if at(prefix+"oscillation_deg") < 0 {
			if i > 0 || at("oscillation_deg") < 0 {
				break
			}
			letter, prefix = "", ""
		}
		r.design(letter, prefix, names, at)
	}
	if len(r.designs) == 0 {
		return fmt.Errorf("%w: it has no answers", errNoResult)
	}
	return nil
}

// design finds where the answers of one design stand.
func (r *tallier) design(letter, prefix string, names []string, at func(string) int) {
	d := DesignSummary{Letter: letter, Least: map[string]int{}}
	p := places{serves: at(prefix + "serves"), least: at(prefix + "least_motion")}
	for _, q := range kinematics.Questions {
		if i, k := at(prefix+"limit_"+q.Key+"_deg"), at(prefix+"status_"+q.Key); i >= 0 && k >= 0 {
			p.limits = append(p.limits, [2]int{i, k})
			d.Limits = append(d.Limits, Spread{Key: q.Key})
		}
	}
	margin := func(key string, i int) {
		p.margins = append(p.margins, i)
		d.Margins = append(d.Margins, Spread{Key: key})
	}
	if i := at(prefix + "least_margin_deg"); i >= 0 {
		margin("least", i)
	}
	for i, name := range names {
		own, ok := strings.CutPrefix(name, prefix+"margin_")
		if key, is := strings.CutSuffix(own, "_deg"); ok && is {
			margin(key, i)
			p.verdicts = append(p.verdicts, at(prefix+"verdict_"+key))
			d.Criteria = append(d.Criteria, Share{Key: key})
		}
	}
	r.designs = append(r.designs, p)
	r.sum.Designs = append(r.sum.Designs, d)
}

// take counts one result.
func (r *tallier) take(line []byte) error {
	cells, err := r.read(line)
	if err != nil {
		return err
	}
	switch string(cells[r.status]) {
	case refused:
		r.sum.Faults++
		if name := string(cells[r.field]); len(r.sum.Fields) < mostFields || r.sum.Fields[name] > 0 {
			r.sum.Fields[name]++
		}
		return nil
	case answered:
	default:
		return errNoResult
	}
	r.sum.Answered++
	for i := range r.designs {
		if err := r.count(&r.sum.Designs[i], &r.designs[i], cells); err != nil {
			return err
		}
	}
	return nil
}

// mostFields bounds the fields at fault that are told apart.
const mostFields = 500

func (r *tallier) read(line []byte) (cells [][]byte, err error) {
	if r.format == NDJSON {
		return r.members(line, func(name []byte) int {
			if i, ok := r.byName[string(name)]; ok {
				return i
			}
			return -1
		})
	}
	var wrong string
	if r.cells, wrong = (dialect{',', '.'}).split(line, r.cells, &r.scratch); wrong != "" {
		return nil, errors.New(wrong)
	}
	if len(r.cells) != r.fields {
		return nil, errors.New(countText(len(r.cells), r.fields))
	}
	return r.cells, nil
}

// count counts the answers of one design.
func (r *tallier) count(d *DesignSummary, p *places, cells [][]byte) error {
	cell := func(i int) []byte {
		if i < 0 || i >= len(cells) {
			return nil
		}
		return cells[i]
	}
	for k, at := range p.limits {
		if err := d.Limits[k].add(cell(at[0]), cell(at[1])); err != nil {
			return err
		}
	}
	for k, at := range p.margins {
		if err := d.Margins[k].add(cell(at), []byte(EndingKeys[limited])); err != nil {
			return err
		}
	}
	if p.serves < 0 {
		return nil
	}
	worst := kinematics.Met
	for k, at := range p.verdicts {
		s := slices.Index(kinematics.StandingKeys, string(cell(at)))
		if s < 0 || s > int(kinematics.Short) {
			return fmt.Errorf("%w: no verdict on %s", errNoResult, d.Criteria[k].Key)
		}
		d.Criteria[k].Count[s]++
		worst = max(worst, kinematics.Standing(s))
	}
	d.Serves.Count[worst]++
	if key := string(cell(p.least)); len(d.Least) < mostFields || d.Least[key] > 0 {
		d.Least[key]++
	}
	return nil
}

// add counts one angle, or how a movement without one ended.
func (s *Spread) add(angle, ending []byte) error {
	e := slices.Index(EndingKeys, string(ending))
	if e < 0 {
		return fmt.Errorf("%w: %s ended as %q", errNoResult, s.Key, shortened(ending))
	}
	if e == int(limited) {
		x, ok := parse(angle, '.')
		if !ok {
			return fmt.Errorf("%w: %s is %q", errNoResult, s.Key, shortened(angle))
		}
		s.angles.add(x)
	}
	s.Count[e]++
	return nil
}
