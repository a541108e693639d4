package assets

import "runtime/debug"

// Release is the release this code becomes.
const Release = "0.1.0"

// stamp is the commit a release was built from: set by the linker with
// -X rimclear/assets.stamp=….
var stamp string

// Version returns the program's version: the release, and after a plus sign the
// commit it was built from where that is known. A copy with changes of its own
// says so.
func Version() string {
	if from := builtFrom(); from != "" {
		return Release + "+" + from
	}
	return Release
}

func builtFrom() string {
	if stamp != "" {
		return stamp
	}
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return ""
	}
	revision, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			revision = s.Value[:min(len(s.Value), 12)]
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ".changed"
		}
	}
	if revision == "" {
		return ""
	}
	return revision + changed
}
