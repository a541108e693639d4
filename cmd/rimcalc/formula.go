package main

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// formulaStarts are the characters with which a spreadsheet lets a formula
// begin, the wide forms of East Asian keyboards among them; a tab or a line
// break may be passed over before one.
const formulaStarts = "=+-@\t\r\n＝＋－＠"

// harmless returns a text cell as a spreadsheet shows it and does not compute
// it: what could be taken for a formula gets an apostrophe in front. Numbers
// stay numbers. It is for every cell that a user's text may stand in.
func harmless(s string) string {
	first, _ := utf8.DecodeRuneInString(s)
	if s == "" || !strings.ContainsRune(formulaStarts, first) || isNumber(s) {
		return s
	}
	return "'" + s
}

// isNumber reports whether a cell is a plain decimal number, which no
// spreadsheet computes: "-5.25", "+3", "-1e-3".
func isNumber(s string) bool {
	if strings.Trim(s, "+-.0123456789eE") != "" {
		return false
	}
	_, err := strconv.ParseFloat(s, 64)
	return err == nil
}
