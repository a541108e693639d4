// Package early sets what the toolkit reads from the environment while it is
// initialised. It imports nothing but os, so that it comes first; GODEBUG=inittrace=1 shows the order.
package early

import "os"

func init() {
	// The toolkit keeps the texture of every text it has drawn for a minute;
	// numbers under a dragged slider are not seen again.
	unlessSet("FYNE_CACHE", "5s")
}

func unlessSet(name, value string) {
	if _, set := os.LookupEnv(name); !set {
		os.Setenv(name, value)
	}
}
