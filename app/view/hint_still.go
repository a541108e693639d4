package view

// Playing reports whether a motion plays.
func (t *Transport) Playing() bool { return t.player.Playing() }
