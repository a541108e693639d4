package e2e

import (
	"encoding/json"
	"image"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"
)

// A window whose brightness and letters are changed looks in every view as one
// that is started with them.
func TestALookThatIsChangedIsThatOfAStartWithIt(t *testing.T) {
	d := display(t, 1280, 800)
	dark := startedWith(t, d, "dark", 1.1)
	want := views(dark, "10-dark")
	closes(t, dark.p, dark.w)
	l := &long{consultation: startedWith(t, d, "light", 1), brightnessItem: firstItem}
	light := views(l.consultation, "")
	l.press('=', Control)
	if !l.relit(brightness(l.shoot(""))) {
		t.Fatal("the menu leaves the brightness")
	}
	got := views(l.consultation, "11-turned-dark")
	closes(t, l.p, l.w)
	const most = 0.005 // what is worked out may not have come to its end
	for _, view := range slices.Sorted(maps.Keys(want)) {
		if c := Changed(want[view], light[view]); c < 0.5 {
			t.Fatalf("%s: light and dark differ in %.1f %% of the pixels only", view, 100*c)
		}
		if c := Changed(want[view], got[view]); c > most {
			t.Errorf("%s: %.2f %% of the pixels are not as after a start in dark and larger letters", view, 100*c)
		}
	}
}

// startedWith starts the program in a home of its own with such settings, and
// nothing that moves.
func startedWith(t *testing.T, d *Display, theme string, scale float64) *consultation {
	t.Helper()
	home := t.TempDir()
	settings, err := json.Marshal(map[string]any{"theme": theme, "text_scale": scale, "reduced_motion": true})
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(home, "settings.json"), settings, 0o600); err != nil {
		t.Fatal(err)
	}
	p, w := start(t, d, home)
	return &consultation{T: t, p: p, w: w}
}

// views opens every view, waits until nothing moves, and takes its picture.
func views(c *consultation, name string) map[string]*image.RGBA {
	c.Helper()
	if err := c.w.Move(image.Pt(1278, 798)); err != nil { // where it asks for no hint
		c.Fatal(err)
	}
	m := map[string]*image.RGBA{}
	for _, v := range []struct {
		key  Keysym
		view string
	}{{'t', "target"}, {'m', "compare"}, {'j', "explain"}, {'e', "explore"}} {
		c.act(c.key(v.key, Control), v.view, func(s State) bool { return s.View == v.view && s.Answer != "" })
		m[v.view] = c.still()
		if name != "" {
			if folder := os.Getenv("RIMCLEAR_E2E_OUT"); folder != "" {
				if err := keep(m[v.view], filepath.Join(folder, name+"-"+v.view+".png")); err != nil {
					c.Error(err)
				}
			}
		}
	}
	return m
}

// still returns the picture of the window once it has not changed for a while.
func (c *consultation) still() *image.RGBA {
	c.Helper()
	last := c.shoot("")
	for end, since := time.Now().Add(stay), time.Now(); time.Now().Before(end); time.Sleep(200 * time.Millisecond) {
		now := c.shoot("")
		if Changed(last, now) > 0 {
			last, since = now, time.Now()
		} else if time.Since(since) > 1500*time.Millisecond {
			return now
		}
	}
	c.Fatal("the window does not come to rest")
	return nil
}
