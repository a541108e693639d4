package store

import "slices"

const (
	recentsFile = "recents.json"
	// recentsKept is how many cases the menu offers; more would not be read.
	recentsKept = 12
)

// Recents are the paths of the cases last opened or saved, newest first. The
// paths are all that is kept: no name and no content of a case.
type Recents []string

// LoadRecents reads the list. Without a file it is empty; with a damaged one
// it is empty and the error is a *Fault.
func (h Home) LoadRecents() (Recents, error) {
	var file struct {
		Cases Recents `json:"cases"`
	}
	if err := h.load(recentsFile, &file); err != nil {
		return nil, err
	}
	return file.Cases.trimmed(), nil
}

// SaveRecents writes the list whole.
func (h Home) SaveRecents(r Recents) error {
	return h.save(recentsFile, map[string]Recents{"cases": slices.Concat(Recents{}, r.trimmed())})
}

// With returns the list with path at its head, once.
func (r Recents) With(path string) Recents {
	return slices.Concat(Recents{path}, r.Without(path)).trimmed()
}

// Without returns the list without path.
func (r Recents) Without(path string) Recents {
	return slices.DeleteFunc(slices.Clone(r), func(p string) bool { return p == path })
}

func (r Recents) trimmed() Recents { return r[:min(len(r), recentsKept)] }
