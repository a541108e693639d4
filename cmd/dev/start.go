package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"time"
)

// start opens the window, or writes the demo where there is no display. The
// arguments go to rimclear as they are.
func start(ctx context.Context, w *workshop, args []string) error {
	if reason := noDisplay(runtime.GOOS, os.Getenv, answers); reason != "" {
		fmt.Fprintln(w.out, reason)
		return w.demo(ctx)
	}
	if runtime.GOOS == "linux" {
		var refused errInstall
		switch err := w.install(ctx, headers, true); {
		case errors.As(err, &refused):
			fmt.Fprintln(w.errs, refused)
			return exitCode(3)
		case err != nil:
			return err
		}
	}
	program, err := w.buildWindow(ctx)
	if err != nil {
		return err
	}
	c := w.child(ctx, environment(), program, args...)
	c.Dir, c.Stdin = w.here, os.Stdin
	return ended(c.Run())
}

// buildWindow compiles rimclear into the cache folder and returns its path.
func (w *workshop) buildWindow(ctx context.Context) (string, error) {
	program := w.built("rimclear")
	fmt.Fprintln(w.out, "building the window (the first time takes a minute or two)")
	err := w.child(ctx, environment(cgo), "go", "build", "-tags", uiTags, "-o", program, "./cmd/rimclear").Run()
	if err != nil {
		return "", fmt.Errorf("building the window: %w", err)
	}
	return program, nil
}

// demo has the terminal program, which needs only Go, write its table and
// pictures.
func (w *workshop) demo(ctx context.Context) error {
	program := w.built("rimcalc")
	if err := w.child(ctx, environment(pure), "go", "build", "-o", program, "./cmd/rimcalc").Run(); err != nil {
		return fmt.Errorf("building rimcalc: %w", err)
	}
	folder := filepath.Join(w.root, "out", "demo")
	if err := ended(w.child(ctx, environment(), program, "demo", "--out", folder).Run()); err != nil {
		return err
	}
	fmt.Fprintln(w.out, "the demo is in", folder)
	return nil
}

// ended turns a program's exit code into ours.
func ended(err error) error {
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > 0 {
		return exitCode(exit.ExitCode())
	}
	return err
}

// noDisplay returns why no window can open here, or "".
func noDisplay(system string, variable func(string) string, answers func(network, address string) bool) string {
	if system != "linux" {
		return ""
	}
	display := variable("DISPLAY")
	switch {
	case display == "" && variable("WAYLAND_DISPLAY") != "":
		return "This Wayland desktop offers no X11 display (XWayland), which the window needs; writing the demo instead."
	case display == "":
		return "There is no display here; writing the demo instead of opening the window."
	case !answers(displayAddress(display)):
		return "Nothing answers at DISPLAY=" + display + "; writing the demo instead of opening the window."
	}
	return ""
}

// displayAddress returns where the X server of a DISPLAY such as ":0",
// "host:10.0" or "/path/socket:0" listens.
func displayAddress(display string) (network, address string) {
	colon := strings.LastIndex(display, ":")
	if colon < 0 {
		return "unix", display
	}
	host := display[:colon]
	number, _, _ := strings.Cut(display[colon+1:], ".")
	if strings.HasPrefix(host, "/") {
		return "unix", display
	}
	if host == "" || host == "unix" {
		return "unix", "/tmp/.X11-unix/X" + number
	}
	var port int
	fmt.Sscan(number, &port)
	return "tcp", net.JoinHostPort(strings.Trim(host, "[]"), fmt.Sprint(6000+port))
}

func answers(network, address string) bool {
	c, err := net.DialTimeout(network, address, 2*time.Second)
	if err != nil {
		return false
	}
	return c.Close() == nil
}
