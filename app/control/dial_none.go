package control

// SetNone changes what stands in the entry where there is no value.
func (d *Dial) SetNone(s string) {
	if s != d.entry.PlaceHolder {
		d.entry.SetPlaceHolder(s)
	}
}
