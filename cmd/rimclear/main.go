// Rimclear shows how far a hip replacement moves before its neck meets its rim.
package main

import (
	"fmt"
	"os"

	fyne "fyne.io/fyne/v2/app"

	"rimclear/app"
	_ "rimclear/cmd/rimclear/early"
)

func main() {
	if err := app.Display(); err != nil {
		fmt.Fprintln(os.Stderr, "rimclear:", err)
		os.Exit(3)
	}
	os.Exit(app.Run(fyne.NewWithID("rimclear"), os.Args[1:], os.Stderr))
}
