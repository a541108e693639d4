package kinematics

import (
	"flag"
	"os"
)

// Property tests draw from one seed, so that a run is like the last; those that
// may take long take new ones.
func init() {
	if os.Getenv("RIMCLEAR_LONG") == "" {
		if err := flag.Set("rapid.seed", "20"); err != nil {
			panic(err)
		}
	}
}
