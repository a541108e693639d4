// Rimclear shows how far a hip replacement moves before its neck meets its rim.
package main

import (
	"os"

	fyne "fyne.io/fyne/v2/app"

	"rimclear/app"
)

func main() {
	os.Exit(app.Run(fyne.NewWithID("rimclear"), os.Args[1:], os.Stderr))
}
