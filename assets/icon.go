package assets

import _ "embed"

// Icon is the program's icon, a PNG of 512×512 pixels, drawn by icon/gen: a
// head in its cup, and the arc through which it moves.
//
//go:embed icon/rimclear.png
var Icon []byte
