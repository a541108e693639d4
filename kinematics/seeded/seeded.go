// Package seeded makes property tests draw from one seed, so that a run is like
// the last; runs that may take long draw from new ones. Tests import it for that
// effect alone, and a -rapid.seed on the command line goes before it.
package seeded

import (
	"flag"
	"os"

	_ "pgregory.net/rapid" // which defines the flag
)

func init() {
	if os.Getenv("RIMCLEAR_LONG") != "" {
		return
	}
	if err := flag.Set("rapid.seed", "20"); err != nil {
		panic(err)
	}
}
