package assets

import "embed"

//go:embed bearings/*.json
var bearings embed.FS

// Bearings returns the built-in files of generic bearings, in the order of
// their names. Every value in them says what it rests on; no maker's product is
// behind any.
func Bearings() [][]byte { return contents(bearings, "bearings/*.json") }
