package main

import "fmt"

// didYouMean names the word of a list that is spelt most like another, "" where
// none is.
func didYouMean(word string, list []string) string {
	best, at := max(1, len(word)/3)+1, ""
	for _, other := range list {
		if d := edits(word, other); d < best {
			best, at = d, other
		}
	}
	if at == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %s?", at)
}

// edits returns how many bytes must be put in, taken out or replaced to make
// one word the other (Levenshtein).
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for k := range row {
		row[k] = k
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for k := range len(b) {
			swap := corner
			if a[i] != b[k] {
				swap++
			}
			corner = row[k+1]
			row[k+1] = min(swap, row[k]+1, row[k+1]+1)
		}
	}
	return row[len(b)]
}
