package main

import (
	"os"
	"runtime"
	"slices"
	"strings"
)

// uiTags are the build tags of everything that compiles Fyne, in every
// command, so that it is compiled once: another set, or -trimpath, compiles it
// again. migrated_fynedo: this program keeps to fyne.Do. no_emoji: without a font
// of 4 MB that the toolkit reads anew for each style, and none of our words need.
// gles: OpenGL ES halves the cold build. x11: no Wayland headers needed (Wayland
// desktops run it through XWayland).
var uiTags = tagsFor(runtime.GOOS)

func tagsFor(system string) string {
	if system == "linux" {
		return "migrated_fynedo,no_emoji,gles,x11"
	}
	return "migrated_fynedo,no_emoji"
}

var exeSuffix = map[bool]string{true: ".exe"}[runtime.GOOS == "windows"]

// The two ways to build: pure needs only Go, cgo also a C compiler.
const (
	pure = "CGO_ENABLED=0"
	cgo  = "CGO_ENABLED=1"
)

// environment is the caller's, with the given settings put over it.
func environment(settings ...string) []string { return over(os.Environ(), settings...) }

// secluded is environment without the caller's display and session bus: tests
// neither open windows on the desktop nor depend on one.
func secluded(settings ...string) []string {
	env := slices.DeleteFunc(os.Environ(), func(s string) bool {
		name, _, _ := strings.Cut(s, "=")
		return slices.Contains([]string{"DISPLAY", "WAYLAND_DISPLAY", "DBUS_SESSION_BUS_ADDRESS", "RIMCLEAR_HOME"}, name)
	})
	return over(env, settings...)
}

func over(env []string, settings ...string) []string {
	for _, s := range settings {
		name, _, _ := strings.Cut(s, "=")
		env = slices.DeleteFunc(env, func(e string) bool { return strings.HasPrefix(e, name+"=") })
		env = append(env, s)
	}
	return env
}
