package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/cohort"
	"rimclear/app/store"
	"rimclear/assets"
	"rimclear/kinematics"
)

// cohortRun is one run of a cohort as it was asked for.
type cohortRun struct {
	t        *terminal
	settings cohort.Settings
	in, out  string
	text     io.Reader // of the standard input
	told     int       // faults told
}

// mostTold is how many faults are told on the error output; the results tell
// them all.
const mostTold = 20

func (t *terminal) cohortRun(cmd *cli.Command) (*cohortRun, error) {
	r := &cohortRun{t: t, in: cmd.String("in"), out: cmd.String("out")}
	switch args := cmd.Args().Slice(); {
	case len(args) > 1 || len(args) == 1 && r.in != "":
		return nil, misused("%q: only one file is read", args[len(args)-1])
	case len(args) == 1:
		r.in = args[0]
	case r.in == "":
		if isTerminalIn(t.in) {
			return nil, misused("name a file by --in, or - for the standard input")
		}
		r.in = "-"
	}
	var err error
	s := &r.settings
	if s.Base, err = t.cohortBase(cmd); err != nil {
		return nil, err
	}
	if s.Shard, s.Shards, err = shardOf(cmd.String("shard")); err != nil {
		return nil, err
	}
	if s.Workers, err = workers(cmd); err != nil {
		return nil, err
	}
	if s.Format, err = r.format(cmd.String("format")); err != nil {
		return nil, err
	}
	s.Carry, s.Motions = cmd.StringSlice("carry"), cmd.StringSlice("motion")
	s.Criteria, s.Target = cmd.String("criteria"), cmd.Bool("target")
	s.StopAtFault, s.Harmless = cmd.Bool("stop-at-fault"), harmless
	if err := s.Check(); err != nil {
		return nil, usageError{err}
	}
	return r, nil
}

// cohortBase returns the case that gives what lines leave out.
func (t *terminal) cohortBase(cmd *cli.Command) (kinematics.Case, error) {
	c, err := t.readCase(cmd.String("case"))
	if err != nil {
		return c, err
	}
	if cmd.IsSet("designs") {
		n := cmd.Int("designs")
		if n < 1 || n > kinematics.MaxDesigns {
			return c, misused("--designs %d: must be from 1 to %d", n, kinematics.MaxDesigns)
		}
		for i := c.Count; i < n; i++ {
			c.Designs[i] = c.Designs[c.Count-1]
		}
		c.Count = n
	}
	all, _ := chosen(&c, "")
	return flagged(cmd, c, all)
}

// shardOf reads "3/16".
func shardOf(text string) (shard, shards int, err error) {
	if text == "" {
		return 1, 1, nil
	}
	a, b, _ := strings.Cut(text, "/")
	shard, err = strconv.Atoi(a)
	if err == nil {
		shards, err = strconv.Atoi(b)
	}
	if err != nil || shard < 1 || shard > shards {
		return 0, 0, misused("--shard %q: must be I/N, with I from 1 to N", text)
	}
	return shard, shards, nil
}

// format reads a format's word or, without one, tells it by the first
// character of the input that is no space.
func (r *cohortRun) format(word string) (cohort.Format, error) {
	if word != "" {
		if i := slices.Index(cohort.FormatKeys, strings.ToLower(word)); i >= 0 {
			return cohort.Format(i), nil
		}
		return 0, misused("--format %q: must be one of %s", word, strings.Join(cohort.FormatKeys, ", "))
	}
	in, done, err := r.t.open(r.in)
	if err != nil {
		return 0, err
	}
	defer done()
	buffered := bufio.NewReader(in)
	if r.in == "-" {
		r.text = buffered
	}
	front, err := buffered.Peek(64)
	if err != nil && err != io.EOF {
		return 0, err
	}
	front8 := strings.TrimLeft(strings.TrimPrefix(string(front), "\xef\xbb\xbf"), " \t\r\n")
	if strings.HasPrefix(front8, "{") {
		return cohort.NDJSON, nil
	}
	return cohort.CSV, nil
}

// run answers the cohort. From a file into a file it can be taken up again.
func (r *cohortRun) run(ctx context.Context) error {
	bar := r.t.progress(title(r.in), "kB", r.size())
	defer bar.clear()
	report := cohort.Report{
		Fault: func(f cohort.Fault) { bar.clear(); r.tell(f) },
		Read:  func(bytes int64) { bar.of(int(bytes>>10), r.size()) },
	}
	var tally cohort.Tally
	var err error
	switch {
	case r.out == "":
		tally, err = r.stream(ctx, r.t.out, report)
	case r.in == "-":
		err = store.WriteFrom(r.out, func(out io.Writer) (err error) {
			tally, err = r.stream(ctx, out, report)
			return err
		})
	default:
		var resumed int
		tally, resumed, err = cohort.File(ctx, r.settings, assets.Version(), r.in, r.out, report)
		if resumed > 0 && err == nil {
			fmt.Fprintf(r.t.errs, "rimcalc: %s: %d results stood there already\n", r.out, resumed)
		}
	}
	bar.clear()
	return r.close(tally, err)
}

func (r *cohortRun) stream(ctx context.Context, out io.Writer, report cohort.Report) (cohort.Tally, error) {
	in, done, err := r.t.open(r.in)
	if err != nil {
		return cohort.Tally{}, err
	}
	defer done()
	if r.text != nil {
		in = r.text
	}
	return cohort.Run(ctx, r.settings, in, out, report)
}

// size returns how long the input is in kB, -1 where that is not known.
func (r *cohortRun) size() int {
	info, err := os.Stat(r.in)
	if err != nil || !info.Mode().IsRegular() {
		return -1
	}
	return int(info.Size() >> 10)
}

func (r *cohortRun) tell(f cohort.Fault) {
	switch r.told++; {
	case r.told <= mostTold:
		fmt.Fprintf(r.t.errs, "rimcalc: %s: %v\n", title(r.in), &f)
	case r.told == mostTold+1:
		fmt.Fprintln(r.t.errs, "rimcalc: further lines at fault are told in the results")
	}
}

// close says how the run ended.
func (r *cohortRun) close(tally cohort.Tally, err error) error {
	var late *fs.PathError
	switch {
	case errors.Is(err, context.Canceled):
		return errors.New("interrupted; the same command goes on where it stopped if it reads a file and writes to one")
	case err != nil && errors.As(err, &late) && errors.Is(err, fs.ErrNotExist):
		return usageError{err}
	case err != nil && (errors.Is(err, cohort.ErrOther) || errors.Is(err, cohort.ErrInput)):
		return usageError{fmt.Errorf("%s: %w", title(r.in), err)}
	case err != nil:
		return err
	case tally.Stopped:
		fmt.Fprintf(r.t.errs, "rimcalc: stopped at the fault, after %d answered lines\n", tally.Answered-tally.Faults)
		return errRows
	case tally.Faults > 0:
		fmt.Fprintf(r.t.errs, "rimcalc: %d of %d lines could not be answered\n", tally.Faults, tally.Answered)
		return errRows
	}
	return nil
}

// mergeCohort joins shards.
func (t *terminal) mergeCohort(cmd *cli.Command) error {
	shards := cmd.Args().Slice()
	shards = slices.DeleteFunc(shards, func(path string) bool {
		return strings.HasSuffix(path, cohort.StatePath("")) // where a pattern names them too
	})
	if len(shards) == 0 {
		return misused("--merge: there are no shards; name their results")
	}
	join := func(out io.Writer) error {
		_, err := cohort.Merge(shards, out)
		return err
	}
	if path := cmd.String("out"); path != "" {
		return store.WriteFrom(path, join)
	}
	return join(t.out)
}

// columnLines lists the values a line may give.
func columnLines() []string {
	lines := make([]string, len(kinematics.Parameters))
	for i := range kinematics.Parameters {
		p := &kinematics.Parameters[i]
		lines[i] = fmt.Sprintf("%-28s %s", p.Key, mustText(p))
		if !p.Derived {
			lines[i] += "; " + defaultText(p) + " if left out"
		}
	}
	return lines
}

// isTerminalIn reports whether input would come from a keyboard.
func isTerminalIn(in io.Reader) bool {
	f, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err != nil || info.Mode()&os.ModeCharDevice != 0
}
