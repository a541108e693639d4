package control

import "slices"

// SetWords changes the words there are to choose from.
func (p *Pick) SetWords(words []string) {
	if !slices.Equal(words, p.choose.Options) {
		p.silent = true
		p.choose.SetOptions(words)
		p.silent = false
	}
}
