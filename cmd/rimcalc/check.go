package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/present"
)

func (t *terminal) check() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "say all that is wrong with files: cases, libraries, bearings, recordings",
		UsageText: "rimcalc check [--strict] [--json | --csv] FILE… | -",
		Description: strings.Join([]string{
			"Tells by its contents what a file is: a case, a library of motions and criteria, a catalogue of",
			"bearings (all JSON), or a recording (a table with headings). Says of everything that is wrong the",
			"line, the field, the value, and what is allowed. Notes are of what is read but may not be meant,",
			"such as a field that this version does not know.",
			"",
			"rimcalc check hip.rimclear.json",
			"rimcalc check --strict --csv *.rimclear.json > problems.csv",
			"",
			"Exit codes: 0 nothing is wrong; 1 something is; 2 the command line is wrong, and nothing was checked.",
			"",
			present.English().Caution(),
		}, "\n"),
		Flags: []cli.Flag{
			&cli.BoolFlag{Name: "strict", Usage: "count notes as wrong"},
			&cli.BoolFlag{Name: "json", Usage: "write JSON"},
			&cli.BoolFlag{Name: "csv", Usage: "write CSV"},
			outFlag(),
		},
		Action: t.runCheck,
	}
}

// errWrong says that something is wrong that was already written.
var errWrong = errors.New("something is wrong")

// mostChecked is the greatest file that is checked, in bytes.
const mostChecked = 64 << 20

func (t *terminal) runCheck(ctx context.Context, cmd *cli.Command) error {
	if cmd.Bool("json") && cmd.Bool("csv") {
		return misused("--json and --csv exclude each other")
	}
	names := cmd.Args().Slice()
	if len(names) == 0 {
		return misused("name the files to check, or - for the standard input")
	}
	a := checks{strict: cmd.Bool("strict")}
	for _, name := range names {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		a.files = append(a.files, t.checked(name))
	}
	if err := t.write(cmd, &a); err != nil {
		return err
	}
	if a.wrong() > 0 {
		return errWrong
	}
	return nil
}

// checks are the answers of the check command.
type checks struct {
	strict bool
	files  []checkedFile
}

// checkedFile is what was found in one file.
type checkedFile struct {
	name     string
	kind     fileKind
	problems []finding
	notes    []finding
}

// finding is something about a file: the line and field where it is, the value
// there, and what is allowed or why it may not be meant.
type finding struct {
	Line  int    `json:"line"` // 0 where it is on no line
	Field string `json:"field"`
	Value string `json:"value"`
	Must  string `json:"must"`
}

func (f finding) String() string {
	var parts []string
	if f.Line > 0 {
		parts = append(parts, fmt.Sprintf("line %d", f.Line))
	}
	for _, s := range []string{f.Field, f.Value} {
		if s != "" {
			parts = append(parts, s)
		}
	}
	return strings.Join(append(parts, f.Must), ": ")
}

// checked reads and checks a file.
func (t *terminal) checked(name string) checkedFile {
	f := checkedFile{name: title(name)}
	in, done, err := t.open(name)
	if err == nil {
		defer done()
		var data []byte
		if data, err = io.ReadAll(io.LimitReader(in, mostChecked+1)); err == nil {
			if len(data) > mostChecked {
				err = fmt.Errorf("must have at most %d bytes", mostChecked)
			} else {
				f.examine(data)
				return f
			}
		}
	}
	f.problems = []finding{{Must: "cannot be read: " + err.Error()}}
	return f
}

// wrong counts what is wrong.
func (a *checks) wrong() int {
	n := 0
	for _, f := range a.files {
		n += len(f.problems)
		if a.strict {
			n += len(f.notes)
		}
	}
	return n
}
