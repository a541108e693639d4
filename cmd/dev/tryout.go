package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// tryOut unpacks the tarball into a clean folder, asks rimcalc its version and
// the usual limits there, and has app/e2e drive the window from there on a
// display of its own.
func (r release) tryOut(ctx context.Context, tarball string) error {
	clean, err := os.MkdirTemp("", "rimclear-release")
	if err != nil {
		return err
	}
	defer os.RemoveAll(clean)
	if err := r.child(ctx, environment(), "tar", "-xzf", tarball, "-C", clean).Run(); err != nil {
		return fmt.Errorf("unpacking: %w", err)
	}
	bin := filepath.Join(clean, r.name, "bin")
	for _, ask := range [][]string{{"rimcalc", "--version"}, {"rimcalc", "limits"}} {
		c := exec.CommandContext(ctx, filepath.Join(bin, ask[0]), ask[1:]...)
		c.Dir, c.Env = clean, []string{"HOME=" + clean}
		out, err := c.CombinedOutput()
		if err != nil {
			return fmt.Errorf("%v: %w\n%s", ask, err, out)
		}
		if ask[1] == "--version" && !strings.Contains(string(out), r.version) {
			return fmt.Errorf("%v says %q, want version %s", ask, out, r.version)
		}
	}
	env := secluded(pure, "RIMCLEAR_E2E=1", "RIMCLEAR_BINARY="+filepath.Join(bin, "rimclear"))
	c := r.child(ctx, env, "dbus-run-session", "--", "go", "test", "-count=1", "-v", "-run", "^TestSliderMovesTheJointAndClosingEndsTheProgram$", "./app/e2e")
	if err := c.Run(); err != nil {
		return fmt.Errorf("the window from a clean folder: %w", err)
	}
	return nil
}
