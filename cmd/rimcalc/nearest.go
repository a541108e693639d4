package main

import "rimclear/app/present"

// didYouMean names the word of a list that is spelt most like another, "" where
// none is.
func didYouMean(word string, list []string) string {
	if nearest := present.Nearest(word, list); nearest != "" {
		return "; did you mean " + nearest + "?"
	}
	return ""
}
