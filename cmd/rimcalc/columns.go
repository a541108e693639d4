package main

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"
)

// inputColumns are what a sweep reads; needed ones must be in the header.
var inputColumns = []string{
	"id", "side", "ri", "ra", "fa", "ccd", "head_d", "neck_d", "arc", "wall", "inset",
	"lip_h", "lip_c", "lip_w", "lip_r", "tap_d0", "tap_s0", "tap_d1", "tap_s1",
	"oval_a", "oval_b", "oval_roll", "skirt_d", "skirt_l", "flex", "add", "ir", "motion", "end",
}

var neededColumns = []string{"ri", "ra", "fa", "ccd", "head_d", "arc", "motion", "end"}

// answerColumns are what a sweep writes first. Such columns of the input are
// replaced, not repeated.
var answerColumns = []string{"id", "status", "limit_deg", "contact_clock_deg", "contact_intervals"}

// columns says where a sweep's columns stand.
type columns struct {
	header  []string
	at      map[string]int // input columns by name
	carried []int          // all that are neither read nor written
}

// columnsOf reads a header. Names are trimmed and their case is passed over.
func columnsOf(header []string) (columns, error) {
	c := columns{header: header, at: map[string]int{}}
	seen := map[string]bool{}
	for i, cell := range header {
		name := strings.ToLower(strings.TrimSpace(cell))
		if seen[name] && name != "" {
			return c, misused("line 1: column %q stands twice; it must stand once", name)
		}
		seen[name] = true
		switch {
		case slices.Contains(inputColumns, name):
			c.at[name] = i
		case !slices.Contains(answerColumns, name):
			c.carried = append(c.carried, i)
		}
	}
	return c, c.check()
}

func (c columns) check() error {
	first := c.header[0]
	for _, cell := range c.header {
		if !utf8.ValidString(cell) || strings.ContainsRune(cell, 0) {
			return misused("line 1: the header must be text in UTF-8")
		}
	}
	if len(c.header) == 1 && strings.ContainsAny(first, ";\t|") {
		return misused("line 1: the columns must be separated by commas, with points in decimal numbers")
	}
	var missing []string
	for _, name := range neededColumns {
		if _, ok := c.at[name]; !ok {
			missing = append(missing, name)
		}
	}
	if len(missing) > 0 {
		return misused("line 1: no column %s; needed are %s", strings.Join(missing, ", "), strings.Join(neededColumns, ", "))
	}
	return nil
}

// titles returns the header of the answers.
func (c columns) titles() []string {
	return append(slices.Clone(answerColumns), c.others(c.header)...)
}

// others returns the cells that are carried through, none of them a formula.
func (c columns) others(row []string) []string {
	cells := make([]string, len(c.carried))
	for i, at := range c.carried {
		if at < len(row) {
			cells[i] = harmless(row[at])
		}
	}
	return cells
}

// cell returns an input cell, trimmed; "" where the column or cell is absent.
func (c columns) cell(row []string, name string) string {
	at, ok := c.at[name]
	if !ok || at >= len(row) {
		return ""
	}
	return strings.TrimSpace(row[at])
}

// complaint is what is wrong with one cell.
type complaint struct{ column, value, must string }

func (c complaint) String() string {
	if c.value == "" {
		return fmt.Sprintf("%s is empty: %s", c.column, c.must)
	}
	return fmt.Sprintf("%s %q: %s", c.column, shortened(c.value), c.must)
}

func shortened(s string) string {
	const most = 60
	if len(s) <= most {
		return s
	}
	return strings.ToValidUTF8(s[:most], "") + "…"
}
