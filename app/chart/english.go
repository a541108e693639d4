package chart

// english holds the words of the charts; other languages give the same keys.
var english = map[string]string{
	"chart_envelope_flexion_rotation":   "Free of neck-rim contact: flexion and rotation",
	"chart_envelope_flexion_adduction":  "Free of neck-rim contact: flexion and adduction",
	"chart_envelope_adduction_rotation": "Free of neck-rim contact: adduction and rotation",
	"chart_thigh_globe":                 "Where the thigh can point free of neck-rim contact",

	"chart_anterior":  "ANTERIOR",
	"chart_posterior": "POSTERIOR",
	"chart_superior":  "SUPERIOR",
	"chart_inferior":  "INFERIOR",
	"chart_lateral":   "LATERAL",
	"chart_medial":    "MEDIAL",

	"chart_flexion":           "flexion",
	"chart_extension":         "extension",
	"chart_adduction":         "adduction",
	"chart_abduction":         "abduction",
	"chart_internal_rotation": "internal rotation",
	"chart_external_rotation": "external rotation",

	"chart_held":        "at {angle} {direction}",
	"chart_free":        "free of contact",
	"chart_contact":     "neck on rim",
	"chart_beyond":      "bone and soft tissue stop first",
	"chart_margin_line": "margin {margin}",
}

// English returns the English words of a key, or the key itself where there
// are none.
func English(key string) string {
	if text, ok := english[key]; ok {
		return text
	}
	return key
}
