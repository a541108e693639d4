package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"slices"
	"strings"
)

// headers are the Debian packages Fyne's window is compiled with.
var headers = []string{
	"gcc", "libc6-dev", "pkg-config", "libgl-dev", "libx11-dev", "libxcursor-dev",
	"libxrandr-dev", "libxinerama-dev", "libxi-dev", "libxxf86vm-dev",
}

// screen are the Debian packages a window without a desktop needs: a display,
// its OpenGL in software, and a session bus.
var screen = []string{"xvfb", "libgl1-mesa-dri", "dbus-daemon"}

// absent returns those of the packages that are not installed. It knows
// Debian and its kin only; elsewhere nothing is absent and the build says what
// it misses.
func absent(ctx context.Context, packages []string) ([]string, error) {
	if _, err := exec.LookPath("dpkg-query"); err != nil {
		return nil, nil
	}
	c := exec.CommandContext(ctx, "dpkg-query", append([]string{"-W", "-f", "${Package} ${db:Status-Abbrev}\n"}, packages...)...)
	listing, err := c.Output() // exit code 1: some are unknown to dpkg
	if _, plain := err.(*exec.ExitError); err != nil && !plain {
		return nil, err
	}
	return missingFrom(string(listing), packages), nil
}

// missingFrom reads dpkg-query's lines "NAME STATUS" and returns the packages
// that none of them calls installed.
func missingFrom(listing string, packages []string) []string {
	return slices.DeleteFunc(slices.Clone(packages), func(p string) bool {
		return slices.ContainsFunc(strings.Split(listing, "\n"), func(line string) bool {
			name, status, _ := strings.Cut(line, " ")
			return name == p && strings.HasPrefix(status, "ii")
		})
	})
}

// errInstall is returned when packages are absent and only the user can
// install them.
type errInstall struct{ packages []string }

func (e errInstall) Error() string {
	return "these packages are not installed and this user may not install them; please run:\n  sudo apt-get install -y --no-install-recommends " +
		strings.Join(e.packages, " ")
}

// install brings in the packages that are absent: as root, or with sudo when
// it may. sudo asks for a password only if mayAsk. Nothing absent: apt is not
// touched.
func (w *workshop) install(ctx context.Context, packages []string, mayAsk bool) error {
	missing, err := absent(ctx, packages)
	if err != nil || len(missing) == 0 {
		return err
	}
	rights, ok := rights(ctx, mayAsk)
	if !ok {
		return errInstall{missing}
	}
	fmt.Fprintln(w.out, "installing", strings.Join(missing, " "))
	if err := w.apt(ctx, rights, "update", "-q"); err != nil {
		return fmt.Errorf("apt-get update: %w", err)
	}
	if err := w.apt(ctx, rights, append([]string{"install", "-y", "-q", "--no-install-recommends"}, missing...)...); err != nil {
		return fmt.Errorf("apt-get install: %w", err)
	}
	if missing, err = absent(ctx, packages); err == nil && len(missing) > 0 {
		err = errInstall{missing}
	}
	return err
}

// rights returns the command that apt-get has to be run under, none for root.
func rights(ctx context.Context, mayAsk bool) ([]string, bool) {
	if os.Geteuid() == 0 {
		return nil, true
	}
	if _, err := exec.LookPath("sudo"); err != nil {
		return nil, false
	}
	if mayAsk && terminal(os.Stdin) {
		return []string{"sudo"}, true
	}
	return []string{"sudo", "-n"}, exec.CommandContext(ctx, "sudo", "-n", "true").Run() == nil
}

func terminal(f *os.File) bool {
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

func (w *workshop) apt(ctx context.Context, rights []string, args ...string) error {
	line := slices.Concat(rights, []string{"env", "DEBIAN_FRONTEND=noninteractive", "apt-get"}, args)
	c := w.child(ctx, environment(), line[0], line[1:]...)
	c.Stdin = os.Stdin
	return c.Run()
}
