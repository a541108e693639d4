package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"syscall"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
	"rimclear/assets"
)

// terminal is where a command reads and writes.
type terminal struct {
	in        io.Reader
	out, errs io.Writer
}

// usageError is the user's to mend: a flag, a value, a file's contents.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func misused(format string, args ...any) error { return usageError{fmt.Errorf(format, args...)} }

// errRows says that rows failed whose faults were already written.
var errRows = errors.New("some rows could not be answered")

// code writes an error, if there is one, and returns the exit code.
func (t *terminal) code(err error) int {
	var usage usageError
	switch {
	case err == nil:
		return fine
	case errors.Is(err, errRows), errors.Is(err, errWrong), errors.Is(err, syscall.EPIPE):
		return failed
	case errors.Is(err, context.Canceled):
		t.say(errors.New("stopped before it was done"))
		return failed
	case errors.As(err, &usage):
		t.say(err)
		fmt.Fprintln(t.errs, "rimcalc --help tells more.")
		return misuse
	}
	t.say(err)
	return failed
}

// say writes an error on the error output, each of its lines with the
// program's name.
func (t *terminal) say(err error) {
	for line := range strings.Lines(err.Error()) {
		fmt.Fprintf(t.errs, "rimcalc: %s\n", strings.TrimRight(line, "\n"))
	}
}

const exitCodes = `Exit codes: 0 all was answered; 1 some rows or answers failed, or a file could not be written;
2 the command line or its input is wrong, and nothing was answered.`

// described returns lines as the description of a command, with the exit codes
// and the caution below.
func described(lines ...string) string {
	return strings.Join(append(lines, "", exitCodes, "", present.English().Caution()), "\n")
}

func (t *terminal) root() *cli.Command {
	commands := t.commands()
	for _, c := range commands {
		c.OnUsageError = unusable
		c.HideHelpCommand = true
	}
	return &cli.Command{
		Name:      "rimcalc",
		Version:   assets.Version(),
		Usage:     "how far a hip replacement moves before its neck meets the rim",
		UsageText: "rimcalc COMMAND [options]",
		Description: described(
			"rimcalc limits                      the limits of a usual 32 mm hip",
			"rimcalc limits --head-diameter-mm 36 --json",
			"rimcalc limits --case hip.rimclear.json --design B",
			"rimcalc target --criteria severe    where the cup should point, and what decides",
			"rimcalc placement --scatter bosker  how many placements would serve",
			"rimcalc compare --base B            the designs of a case side by side",
			"rimcalc activities                  what there is to require, and where it comes from",
			"rimcalc check hip.rimclear.json     all that is wrong with a file",
			"rimcalc sweep cohort.csv > answers.csv",
			"rimcalc demo --out demo",
		),
		Commands:                        commands,
		EnableShellCompletion:           true,
		ConfigureShellCompletionCommand: completion,
		Reader:                          t.in,
		Writer:                          t.out,
		ErrWriter:                       t.errs,
		HideHelpCommand:                 true,
		OnUsageError:                    unusable,
		ExitErrHandler:                  func(context.Context, *cli.Command, error) {},
		Action: func(_ context.Context, c *cli.Command) error {
			if name := c.Args().First(); name != "" {
				return misused("no command %q; there are %s%s", name, names(c.Commands), didYouMean(name, strings.Split(names(c.Commands), ", ")))
			}
			return misused("name a command: %s", names(c.Commands))
		},
	}
}

// unusable names an option that there is not as it was typed, and the one that
// may be meant.
func unusable(_ context.Context, c *cli.Command, err error, _ bool) error {
	name, unknown := strings.CutPrefix(err.Error(), "flag provided but not defined: -")
	if !unknown {
		return usageError{err}
	}
	var options []string
	for _, f := range c.Flags {
		for _, n := range f.Names() {
			if len(n) > 1 {
				options = append(options, "--"+n)
			}
		}
	}
	return misused("no option --%s of %s%s", strings.TrimLeft(name, "-"), c.Name, didYouMean("--"+strings.TrimLeft(name, "-"), options))
}

func names(commands []*cli.Command) string {
	var list []string
	for _, c := range commands {
		if !c.Hidden {
			list = append(list, c.Name)
		}
	}
	return strings.Join(list, ", ")
}
