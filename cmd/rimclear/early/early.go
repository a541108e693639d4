// Package early sets what the toolkit, and what that draws with, read from the
// environment while they are initialised. It imports nothing but os and
// runtime, so that it comes first; GODEBUG=inittrace=1 shows the order.
package early

import (
	"os"
	"runtime"
)

func init() {
	// The toolkit keeps the texture of every text it has drawn for a minute;
	// numbers under a dragged slider are not seen again.
	unlessSet("FYNE_CACHE", "5s")
	if runtime.GOOS == "linux" {
		// Without a graphics processor Mesa draws on the processor; with its
		// calls on a thread of their own a picture is done a sixth sooner.
		unlessSet("mesa_glthread", "true")
	}
}

func unlessSet(name, value string) {
	if _, set := os.LookupEnv(name); !set {
		os.Setenv(name, value)
	}
}
