package main

import (
	"runtime"

	"github.com/urfave/cli/v3"
)

// workersFlag is the same for all long work.
func workersFlag() cli.Flag {
	return &cli.IntFlag{Name: "workers", Usage: "use `N` cores at a time; 0 for all. The answers are the same"}
}

// workers returns how many goroutines are to work.
func workers(cmd *cli.Command) (int, error) {
	switch n := cmd.Int("workers"); {
	case n < 0 || n > mostWorkers:
		return 0, misused("--workers %d: must be from 0 to %d", n, mostWorkers)
	case n > 0:
		return n, nil
	}
	return runtime.GOMAXPROCS(0), nil
}
