// Rimclear shows how far a hip replacement moves before its neck meets its rim.
package main

import (
	"fmt"
	"os"
	"runtime/debug"

	fyne "fyne.io/fyne/v2/app"

	"rimclear/app"
	_ "rimclear/cmd/rimclear/early"
)

// collectAt is by how much, in percent, what is in use may grow before what is
// not is collected: less than usual (100), for less memory.
const collectAt = 30

func main() {
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(collectAt)
	}
	if err := app.Display(); err != nil {
		fmt.Fprintln(os.Stderr, "rimclear:", err)
		os.Exit(3)
	}
	os.Exit(app.Run(fyne.NewWithID("rimclear"), os.Args[1:], os.Stderr))
}
