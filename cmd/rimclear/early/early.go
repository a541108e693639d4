// Package early sets what the toolkit reads from the environment while its own
// packages are initialised. It imports nothing but os, so that it comes first;
// GODEBUG=inittrace=1 shows the order.
package early

import "os"

func init() {
	// The toolkit keeps the texture of every text it has drawn for a minute;
	// numbers under a dragged slider are not seen again.
	if _, set := os.LookupEnv("FYNE_CACHE"); !set {
		os.Setenv("FYNE_CACHE", "5s")
	}
}
