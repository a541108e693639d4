package present

// Nearest returns the word of a list that is spelt most like another, "" where
// none is near: a third of its letters may be wrong.
func Nearest(word string, list []string) string {
	least, nearest := max(1, len(word)/3)+1, ""
	for _, other := range list {
		if n := edits(word, other); n < least {
			least, nearest = n, other
		}
	}
	return nearest
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
