package main

import "github.com/urfave/cli/v3"

// commands are the commands in the order of the help. A new one is one line
// here.
func (t *terminal) commands() []*cli.Command {
	return []*cli.Command{
		t.limits(),
		t.envelope(),
		t.target(),
		t.placement(),
		t.compare(),
		t.activities(),
		t.check(),
		t.sweep(),
		t.cohort(),
		t.summary(),
		t.evidence(),
		t.report(),
		t.figure(),
		t.demo(),
	}
}
