package control

// Chosen reports whether it is the chosen one.
func (c *Chip) Chosen() bool { return c.chosen }
