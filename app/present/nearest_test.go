package present

import "testing"

func TestAMisspeltWordIsFoundAndAnotherIsNot(t *testing.T) {
	list := []string{"head_diameter_mm", "neck_diameter_mm", "wall_mm"}
	for word, want := range map[string]string{
		"wall_mm": "wall_mm", "wal_mm": "wall_mm", "head_diamter_mm": "head_diameter_mm", "hed_dimeter_mm": "head_diameter_mm",
		"shoe_size": "", "": "", "wxyz_mm": "",
	} {
		if got := Nearest(word, list); got != want {
			t.Errorf("nearest to %q is %q, want %q", word, got, want)
		}
	}
}
