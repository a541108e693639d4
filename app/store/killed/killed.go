// Package killed runs a test program that writes without end and kills it, for
// tests that nothing is lost or torn. Only tests import it.
package killed

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"time"
)

// Run starts this test program once more with a variable added to its
// environment, by which it knows that it is the one to write, and kills it a
// while after it has printed its first number. It returns the last number
// printed, and an error if anything else is or if it ended by itself.
func Run(variable, value string, after time.Duration) (last int, err error) {
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), variable+"="+value)
	out, err := c.StdoutPipe()
	if err != nil {
		return 0, err
	}
	if err := c.Start(); err != nil {
		return 0, err
	}
	defer c.Wait() // it was killed
	defer c.Process.Kill()
	var kill *time.Timer
	lines := bufio.NewScanner(out)
	for lines.Scan() {
		n, err := strconv.Atoi(lines.Text())
		if err != nil {
			return last, fmt.Errorf("the program that writes says %q", lines.Text())
		}
		if kill == nil {
			kill = time.AfterFunc(after, func() { c.Process.Kill() })
		}
		last = n
	}
	if kill == nil || kill.Stop() {
		return last, fmt.Errorf("the program that writes ended by itself after %d", last)
	}
	return last, nil
}
