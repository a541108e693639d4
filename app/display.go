package app

import (
	"errors"
	"fmt"
	"net"
	"os"
	"runtime"
	"strings"
	"time"
)

// Display returns an error that says what to do if there is no screen to open a
// window on, where the toolkit would only fail.
func Display() error {
	switch runtime.GOOS {
	case "windows", "darwin", "android", "ios":
		return nil
	}
	name := os.Getenv("DISPLAY")
	if name == "" {
		return errors.New("there is no display (DISPLAY is not set); rimcalc gives the same answers in a terminal")
	}
	host, rest, _ := strings.Cut(name, ":")
	number, _, _ := strings.Cut(rest, ".")
	if host != "" && host != "unix" || number == "" {
		return nil // over a network; the toolkit finds out
	}
	path := "/tmp/.X11-unix/X" + number
	for _, at := range []string{path, "@" + path} {
		if c, err := net.DialTimeout("unix", at, 2*time.Second); err == nil {
			return c.Close()
		}
	}
	return fmt.Errorf("the display %s does not answer; rimcalc gives the same answers in a terminal", name)
}
