package cohort

import (
	"fmt"
	"slices"
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
)

// column is one named value of a line: a parameter of some designs, the case's
// id, or text that is carried into the result.
type column struct {
	name    string
	p       *kinematics.Parameter
	designs []int // whose value it is; {0} for one of the case
	carried int   // index among the carried texts, -1 for none
	id      bool
	order   int // in which parameters are set
}

// tidy reports whether a value that is right by itself leaves those that it is
// checked against right: not where it is another reading of them, or a goal.
func (c *column) tidy() bool {
	return c.p == nil || !c.p.Derived && c.p.Group != kinematics.GoalGroup
}

// idName is the column that names a case.
const idName = "id"

// columnOf returns the column of a name. Parameters go by their keys; with a
// design's letter and a point in front they are that design's alone, without
// they are every design's.
func (s *Settings) columnOf(name string) (column, error) {
	c := column{name: name, carried: slices.Index(s.Carry, name), order: -1}
	if name == idName {
		c.id = true
		return c, nil
	}
	if c.carried >= 0 {
		return c, nil
	}
	key, design := name, -1
	if len(name) > 2 && name[1] == '.' {
		design, key = int(name[0]|0x20)-'a', name[2:]
	}
	c.p = kinematics.ParameterByKey(key)
	switch {
	case c.p == nil:
		return c, fmt.Errorf("%q is no parameter%s; a column that is only to be copied is named by --carry", name, meant(key))
	case design < 0:
	case c.p.Scope == kinematics.OfCase:
		return c, fmt.Errorf("%q belongs to the case, not to one design", name)
	case design >= s.Base.Count:
		return c, fmt.Errorf("%q: the run has %d design(s); --designs gives their number", name, s.Base.Count)
	}
	c.order = slices.IndexFunc(kinematics.Parameters, func(p kinematics.Parameter) bool { return p.Key == key })
	if c.p.Derived {
		c.order += len(kinematics.Parameters) // after what it is read from
	}
	c.order *= 2
	switch {
	case design >= 0:
		c.designs, c.order = []int{design}, c.order+1 // after the value of all
	case c.p.Scope == kinematics.OfCase:
		c.designs = []int{0}
	default:
		for i := range s.Base.Count {
			c.designs = append(c.designs, i)
		}
	}
	return c, nil
}

// meant names the parameter whose key is nearest to a name, if any is near.
func meant(name string) string {
	keys := make([]string, len(kinematics.Parameters))
	for i := range kinematics.Parameters {
		keys[i] = kinematics.Parameters[i].Key
	}
	if nearest := present.Nearest(strings.ToLower(name), keys); nearest != "" {
		return fmt.Sprintf(" (%s?)", nearest)
	}
	return ""
}

// table is the columns of a run. A CSV file has those of its header; an NDJSON
// file may have any on each line.
type table struct {
	columns []column
	byName  map[string]int
	order   []int // of parameters as they are set: as files of cases do it
}

func (t *table) add(c column) {
	t.byName[c.name] = len(t.columns)
	t.columns = append(t.columns, c)
}

// arrange notes in which order values are set.
func (t *table) arrange() {
	t.order = t.order[:0]
	for i := range t.columns {
		if t.columns[i].p != nil {
			t.order = append(t.order, i)
		}
	}
	slices.SortFunc(t.order, func(a, b int) int { return t.columns[a].order - t.columns[b].order })
}

// everyColumn returns all columns there can be, for NDJSON.
func (s *Settings) everyColumn() *table {
	t := &table{byName: map[string]int{}}
	names := append([]string{idName}, s.Carry...)
	for i := range kinematics.Parameters {
		p := &kinematics.Parameters[i]
		names = append(names, p.Key)
		if p.Scope == kinematics.OfDesign {
			for d := range s.Base.Count {
				names = append(names, present.Letter(d)+"."+p.Key)
			}
		}
	}
	for _, name := range names {
		if c, err := s.columnOf(name); err == nil {
			t.add(c)
		}
	}
	t.arrange()
	return t
}

// header reads the names of a CSV file's columns.
func (s *Settings) header(line []byte, d dialect) (*table, error) {
	var scratch []byte
	cells, wrong := d.split(line, nil, &scratch)
	if wrong != "" {
		return nil, fmt.Errorf("the header: %s", wrong)
	}
	t := &table{byName: map[string]int{}}
	for i, cell := range cells {
		name := string(cell)
		if !slices.Contains(s.Carry, name) {
			name = spelt(name)
		}
		if _, twice := t.byName[name]; twice {
			return nil, fmt.Errorf("the header: %q stands twice; it must stand once", name)
		}
		if name == "" {
			return nil, fmt.Errorf("the header: column %d has no name", i+1)
		}
		c, err := s.columnOf(name)
		if err != nil {
			return nil, fmt.Errorf("the header: %w", err)
		}
		t.add(c)
	}
	t.arrange()
	for i := range s.Carry {
		if !slices.ContainsFunc(t.columns, func(c column) bool { return c.carried == i }) {
			return nil, fmt.Errorf("the header: there is no column %q to carry", s.Carry[i])
		}
	}
	return t, nil
}

// spelt returns a name as the columns are spelt: keys in small letters, a
// design's letter in front in a capital one.
func spelt(name string) string {
	name = strings.ToLower(name)
	if len(name) > 2 && name[1] == '.' {
		name = strings.ToUpper(name[:1]) + name[1:]
	}
	return name
}

// dialectOf tells from the header how a file is written. Between semicolons or
// tabs a decimal may have a comma, as spreadsheets of many countries write it.
func dialectOf(header []byte) dialect {
	count := func(c byte) int { return strings.Count(string(header), string(c)) }
	switch {
	case count(';') > 0 && count(';') >= count(','):
		return dialect{';', ','}
	case count('\t') > 0 && count('\t') >= count(','):
		return dialect{'\t', ','}
	}
	return dialect{',', '.'}
}
