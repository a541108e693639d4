package main

import (
	"slices"
	"testing"
)

func TestWindowOpensOnlyWhereADisplayAnswers(t *testing.T) {
	const none, listening, silent = "none", "listening", "silent"
	for _, c := range []struct {
		system, display, wayland, server string
		opens                            bool
	}{
		{"linux", "", "", none, false},
		{"linux", "", "wayland-0", none, false},
		{"linux", ":0", "", listening, true},
		{"linux", ":0", "wayland-0", listening, true},
		{"linux", ":9", "", silent, false},
		{"darwin", "", "", none, true},
		{"windows", "", "", none, true},
	} {
		variable := func(name string) string {
			return map[string]string{"DISPLAY": c.display, "WAYLAND_DISPLAY": c.wayland}[name]
		}
		reason := noDisplay(c.system, variable, func(string, string) bool { return c.server == listening })
		if (reason == "") != c.opens {
			t.Errorf("noDisplay(%s, DISPLAY=%q, WAYLAND_DISPLAY=%q, %s) = %q, want it to open: %v", c.system, c.display, c.wayland, c.server, reason, c.opens)
		}
	}
}

func TestDisplayNamesAreReadAsXReadsThem(t *testing.T) {
	for display, want := range map[string][2]string{
		":0":                  {"unix", "/tmp/.X11-unix/X0"},
		":12.0":               {"unix", "/tmp/.X11-unix/X12"},
		"unix:3":              {"unix", "/tmp/.X11-unix/X3"},
		"localhost:10.0":      {"tcp", "localhost:6010"},
		"[::1]:1":             {"tcp", "[::1]:6001"},
		"/private/tmp/x/it:0": {"unix", "/private/tmp/x/it:0"},
	} {
		if network, address := displayAddress(display); network != want[0] || address != want[1] {
			t.Errorf("displayAddress(%q) = %s %s, want %v", display, network, address, want)
		}
	}
}

func TestOnlyFullyInstalledPackagesCount(t *testing.T) {
	listing := "gcc ii \nxvfb rc \nlibgl-dev ii \nlibgl-dev un \nlibgl-dev-extra ii \n"
	got := missingFrom(listing, []string{"gcc", "xvfb", "libgl-dev", "libx11-dev", "libgl"})
	if want := []string{"xvfb", "libx11-dev", "libgl"}; !slices.Equal(got, want) {
		t.Errorf("missingFrom = %v, want %v", got, want)
	}
}

func TestSettingsReplaceTheCallersOwn(t *testing.T) {
	t.Setenv("CGO_ENABLED", "1")
	t.Setenv("DISPLAY", ":77")
	env := secluded(pure)
	if n := len(slices.DeleteFunc(slices.Clone(env), func(s string) bool { return s != "CGO_ENABLED=0" && s != "CGO_ENABLED=1" })); n != 1 || !slices.Contains(env, pure) {
		t.Errorf("secluded(%s) holds CGO_ENABLED %d times", pure, n)
	}
	if slices.Contains(env, "DISPLAY=:77") || !slices.Contains(environment(), "DISPLAY=:77") {
		t.Error("the display must be gone from secluded and stay in environment")
	}
}
