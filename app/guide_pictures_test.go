package app

import (
	"image"
	"os"
	"path/filepath"
	"testing"

	"rimclear/app/figure"
	"rimclear/app/present"
)

// inked returns the share of a picture that is not paper.
func inked(img *image.RGBA) float64 {
	paper, n := img.RGBAAt(0, 0), 0
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if img.RGBAAt(x, y) != paper {
				n++
			}
		}
	}
	return float64(n) / float64(img.Rect.Dx()*img.Rect.Dy())
}

// TestEveryPageOfTheGuideHasItsPicture draws them all; with RIMCLEAR_PICTURES
// set to a folder they are kept there.
func TestEveryPageOfTheGuideHasItsPicture(t *testing.T) {
	folder := os.Getenv("RIMCLEAR_PICTURES")
	for name, p := range map[string]figure.Palette{"light": figure.Light(), "dark": figure.Dark()} {
		for _, page := range present.GuidePages {
			f, ok := guideFigure(page, sketchbook{p, present.English()})
			if !ok {
				if page != "start" {
					t.Errorf("%s has no picture", page)
				}
				continue
			}
			img := f.Image(2)
			if share := inked(img); share < 0.03 || share > 0.95 {
				t.Errorf("%s, %s: %.0f %% of the picture is drawn on", page, name, 100*share)
			}
			if folder == "" {
				continue
			}
			w, err := os.Create(filepath.Join(folder, page+"-"+name+".png"))
			if err != nil {
				t.Fatal(err)
			}
			if err := f.WritePNG(w, 2); err != nil {
				t.Error(err)
			}
			if err := w.Close(); err != nil {
				t.Error(err)
			}
		}
	}
}
