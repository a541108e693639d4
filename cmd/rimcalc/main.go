// Command rimcalc gives the program's answers in a terminal, for scripts and
// cohorts: how far a hip replacement moves before the neck meets the rim. It
// needs no display and no C library.
package main

import (
	"context"
	"io"
	"os"
	"os/signal"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	context.AfterFunc(ctx, stop) // a second interrupt ends the program at once
	os.Exit(run(ctx, os.Args, os.Stdin, os.Stdout, os.Stderr))
}

// Exit codes.
const (
	fine   = 0 // everything was answered
	failed = 1 // some rows or answers failed, or a file could not be written
	misuse = 2 // the command or its input is wrong; nothing was answered
)

// run is main with its surroundings given; it returns the exit code.
func run(ctx context.Context, args []string, in io.Reader, out, errs io.Writer) int {
	t := &terminal{in: in, out: out, errs: errs}
	if t.completeValue(args) {
		return fine
	}
	return t.code(t.root().Run(ctx, args))
}
