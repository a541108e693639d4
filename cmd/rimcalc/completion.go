package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/session"
	"rimclear/kinematics"
)

// completing is what completion scripts put after the words before the cursor.
const completing = "--generate-shell-completion"

// completion puts the command that writes completion scripts into the help.
func completion(c *cli.Command) {
	c.Hidden = false
	c.HideHelpCommand, c.OnUsageError = true, unusable
	c.Usage = "write a completion script for a shell: bash, zsh, fish or pwsh"
	c.UsageText = "rimcalc completion SHELL"
	c.Description = strings.Join([]string{
		"Completes commands, options and their values as you type. For good:",
		"",
		"bash   rimcalc completion bash > ~/.local/share/bash-completion/completions/rimcalc",
		"zsh    rimcalc completion zsh > \"${fpath[1]}/_rimcalc\"",
		"fish   rimcalc completion fish > ~/.config/fish/completions/rimcalc.fish",
		"",
		"For this shell only: source <(rimcalc completion bash)",
	}, "\n")
	c.Action = func(_ context.Context, cmd *cli.Command) error {
		return misused("completion %q: must be one of bash, zsh, fish, pwsh", cmd.Args().First())
	}
}

// completeValue writes the values of the option before the cursor, one a line,
// and reports whether it is one of a few words.
func (t *terminal) completeValue(args []string) bool {
	n := len(args)
	if n < 3 || args[n-1] != completing {
		return false
	}
	words := valuesOf(strings.TrimPrefix(args[n-2], "--"))
	if len(words) > 0 && strings.HasPrefix(args[n-2], "--") {
		fmt.Fprintln(t.out, strings.Join(words, "\n"))
		return true
	}
	return false
}

// valuesOf returns the words that an option takes, none for one that takes
// numbers or files.
func valuesOf(flag string) []string {
	switch flag {
	case "sample":
		return sampleNames()
	case "design", "base":
		return []string{"A", "B", "C", "D"}
	case "motion":
		return append(activityKeys(session.BuiltIn()), "none")
	case "criteria":
		return append(setKeys(session.BuiltIn()), "none")
	case "scatter":
		return presetKeys()
	case "slice":
		return sliceKeys[:]
	case "x", "y":
		return mappedKeys()
	}
	if p := kinematics.ParameterByKey(strings.ReplaceAll(flag, "-", "_")); p != nil {
		return p.Choices
	}
	return nil
}
