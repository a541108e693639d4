package app

import (
	"math"

	"rimclear/app/control"
	"rimclear/app/store"
)

// brightnessWords are the settings' words for the brightness of the window.
var brightnessWords = map[control.Brightness]string{
	control.AsSystem: "", control.AlwaysLight: "light", control.AlwaysDark: "dark",
}

func brightnessOf(word string) control.Brightness {
	for b, s := range brightnessWords {
		if s == word {
			return b
		}
	}
	return control.AsSystem
}

// loadSettings reads the settings; without any, or with damaged ones, the
// window is as at the first start.
func (w *Window) loadSettings() {
	home, err := store.UserHome()
	if err != nil {
		return
	}
	w.home = home
	w.settings, _ = home.LoadSettings()
}

func (w *Window) saveSettings() {
	if w.home != "" {
		w.complain(w.home.SaveSettings(w.settings))
	}
}

// setBrightness changes to light, dark, or what the system has.
func (w *Window) setBrightness(b control.Brightness) {
	w.context.Theme.Brightness = b
	w.settings.Theme = brightnessWords[b]
	w.restyle()
}

// setScale changes the size of the text.
func (w *Window) setScale(k float64) {
	k = math.Round(min(max(k, control.LeastScale), control.MostScale)*10) / 10
	w.context.Theme.Scale, w.settings.TextScale = float32(k), k
	w.restyle()
}

func (w *Window) scale() float64 {
	if w.settings.TextScale == 0 {
		return 1
	}
	return w.settings.TextScale
}

func (w *Window) restyle() {
	w.context.Theme.Restyle(w.window, w.pages.Object())
	w.pages.Restyle()
	w.menu.display(w)
	w.saveSettings()
}
