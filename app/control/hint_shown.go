package control

// Shown returns the sentence that is on screen, "" for none.
func (h *Hint) Shown() string {
	if h == nil || !h.plate.Visible() {
		return ""
	}
	return h.text.Text
}
