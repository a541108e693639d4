package casefile

import "slices"

// migrations leads a file from each version to the next: step i takes the
// fields of version i+1. The values keep their places in the file, so that a
// message still names the line. Fields no version knew then are never lost: one
// that has since been given a meaning is renamed.
var migrations = [Version - 1]func([]Member) []Member{
	fromFirst,
}

// migrated returns the fields of a file of some version as this version has
// them.
func migrated(list []Member, version int) []Member {
	for _, step := range migrations[version-1:] {
		list = step(list)
	}
	return list
}

// fromFirst takes version 1 to 2. Version 2 has answers of the user's own and
// recordings; what a file of version 1 has under their names was somebody
// else's.
func fromFirst(list []Member) []Member {
	return renamed(list, "_of_version_1", recordingsField, weighingField)
}

// renamed returns the fields with an ending put to the names of some, as often
// as it takes to make a name of its own.
func renamed(list []Member, ending string, keys ...string) []Member {
	list = slices.Clone(list)
	taken := index(list)
	for i, m := range list {
		if !slices.Contains(keys, m.Key) {
			continue
		}
		for is := true; is; _, is = taken[m.Key] {
			m.Key += ending
		}
		list[i] = m
		taken[m.Key] = m
	}
	return list
}
