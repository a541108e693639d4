package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/urfave/cli/v3"

	"rimclear/app/casefile"
	"rimclear/app/present"
	"rimclear/app/session"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// subject is what a command is asked about: a case, the designs chosen of it,
// and what its hip is required to do.
type subject struct {
	file     casefile.File // the case as read, with its recordings
	c        kinematics.Case
	designs  []int
	motions  *session.Motions
	required []motion.Requirement
	lost     []string // keys of motions of which nothing is known here
}

// joint returns the i-th design of the case, placed.
func (s *subject) joint(i int) kinematics.Joint {
	return kinematics.NewJoint(s.c.Hip, s.c.Designs[i])
}

// search is what the i-th design's cups are looked for by.
func (s *subject) search(i int, j kinematics.Joint) kinematics.Search {
	d := s.c.Designs[i]
	return kinematics.Search{Hip: s.c.Hip, Design: d, Aperture: j.Aperture, Required: s.required, Bounds: s.c.Goal.Bounds(s.c.Hip, d)}
}

// caseFlags say which case is meant and how the answer is written.
func caseFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "case", Usage: "case `FILE`, or - for the standard input"},
		&cli.StringFlag{Name: "sample", Usage: "a case built in: `NAME` is one of " + strings.Join(sampleNames(), ", ")},
		&cli.StringFlag{Name: "design", Usage: "only this design, by `LETTER` or number"},
		&cli.BoolFlag{Name: "json", Usage: "write JSON"},
		&cli.BoolFlag{Name: "csv", Usage: "write CSV"},
		outFlag(),
	}
}

// outFlag says where an answer is written.
func outFlag() cli.Flag {
	return &cli.StringFlag{Name: "out", Usage: "write to `FILE`, whole or not at all, or - for the standard output", DefaultText: "-"}
}

// goalFlags say what the hip is required to do.
func goalFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringSliceFlag{Name: "motion", Usage: "require this motion instead of the case's, by `KEY` (rimcalc activities lists them), or none; once for each"},
		&cli.StringFlag{Name: "criteria", Usage: "require this set of criteria, by `KEY`, or none"},
		&cli.StringSliceFlag{Name: "library", Usage: "`FILE` of motions and criteria of your own, besides those built in"},
		&cli.StringSliceFlag{Name: "recording", Usage: "require the recorded motion in `FILE`, a table of joint angles over time with headings that name them"},
	}
}

// sampleNames are the names of the cases built in, without their numbers.
func sampleNames() []string {
	var names []string
	for _, s := range assets.Cases() {
		names = append(names, sampleName(s))
	}
	return names
}

func sampleName(s assets.Sample) string { return strings.TrimLeft(s.Name, "0123456789-") }

// chosenCase returns the case that --case or --sample names, or else the
// fallback.
func (t *terminal) chosenCase(cmd *cli.Command, fallback func() (casefile.File, error)) (casefile.File, error) {
	file, name := cmd.String("case"), cmd.String("sample")
	switch {
	case file != "" && name != "":
		return casefile.File{}, misused("--case and --sample exclude each other")
	case file != "":
		return t.readFile(file)
	case name != "":
		return sampleCase(name)
	}
	return fallback()
}

// usualHip is the fallback where one design will do.
func usualHip() (casefile.File, error) { return casefile.File{Case: kinematics.Default()}, nil }

// sampleDesigns is the fallback where there must be several.
func sampleDesigns() (casefile.File, error) { return sampleCase(sampleNames()[0]) }

func sampleCase(name string) (casefile.File, error) {
	for _, s := range assets.Cases() {
		if strings.EqualFold(name, sampleName(s)) {
			return casefile.Decode(s.Data)
		}
	}
	return casefile.File{}, misused("--sample %q: must be one of %s", name, strings.Join(sampleNames(), ", "))
}

// given reads the case that a command is asked about from its flags.
func (t *terminal) given(cmd *cli.Command, fallback func() (casefile.File, error)) (subject, error) {
	var s subject
	if cmd.Args().Present() {
		return s, misused("%q is no option of %s; a case is named by --case", cmd.Args().First(), cmd.Name)
	}
	if cmd.Bool("json") && cmd.Bool("csv") {
		return s, misused("--json and --csv exclude each other")
	}
	var err error
	if s.file, err = t.chosenCase(cmd, fallback); err != nil {
		return s, err
	}
	if s.designs, err = chosen(&s.file.Case, cmd.String("design")); err != nil {
		return s, err
	}
	s.c, err = flagged(cmd, s.file.Case, s.designs)
	s.file.Case = s.c
	return s, err
}

// subject reads the case and what its hip is required to do.
func (t *terminal) subject(cmd *cli.Command, fallback func() (casefile.File, error)) (subject, error) {
	s, err := t.given(cmd, fallback)
	if err != nil {
		return s, err
	}
	if err := t.goal(cmd, &s); err != nil {
		return s, err
	}
	s.file.Case = s.c
	s.required, s.lost = s.motions.Required(&s.c)
	for _, key := range s.lost {
		fmt.Fprintf(t.errs, "rimcalc: %q is no motion or criteria set known here and was left out (rimcalc activities lists them)\n", key)
	}
	return s, nil
}

// goal brings the case's goal up to the flags.
func (t *terminal) goal(cmd *cli.Command, s *subject) error {
	s.motions = session.NewMotions()
	if err := t.libraries(cmd.StringSlice("library"), s.motions); err != nil {
		return err
	}
	var faults []error
	if keys := cmd.StringSlice("motion"); len(keys) > 0 {
		faults = append(faults, s.require(keys)...)
	}
	if key := cmd.String("criteria"); key != "" {
		set, ok := s.motions.Library.Set(key)
		if !ok && key != "none" {
			faults = append(faults, fmt.Errorf("--criteria %q: must be none or one of %s", key, strings.Join(setKeys(s.motions.Library), ", ")))
		}
		s.c.Goal.Criteria = set.Key
	}
	if err := errors.Join(faults...); err != nil {
		return usageError{err}
	}
	err := t.recordings(cmd.StringSlice("recording"), s)
	s.motions.Keep(s.file.Recordings)
	return err
}

// require replaces the motions of the case by those named.
func (s *subject) require(keys []string) (faults []error) {
	s.c.Goal.Motions = ""
	for _, key := range keys {
		if key == "none" {
			continue
		}
		if _, ok := s.motions.Library.Activity(key); !ok && s.file.Recording(key) < 0 {
			faults = append(faults, fmt.Errorf("--motion %q: must be none or the key of a motion; rimcalc activities lists them%s", key, didYouMean(key, activityKeys(s.motions.Library))))
			continue
		}
		s.c.Goal.Motions = s.c.Goal.Motions.With(key)
	}
	return faults
}

func setKeys(l motion.Library) []string {
	var keys []string
	for _, set := range l.Criteria {
		keys = append(keys, set.Key)
	}
	return keys
}

func activityKeys(l motion.Library) []string {
	var keys []string
	for _, a := range l.Activities {
		keys = append(keys, a.Key)
	}
	return keys
}

// libraries adds the libraries of files.
func (t *terminal) libraries(names []string, to *session.Motions) error {
	for _, name := range names {
		in, done, err := t.open(name)
		if err != nil {
			return err
		}
		l, err := motion.Read(in)
		done()
		if err == nil {
			l, err = to.Library.With(l)
		}
		if err != nil {
			return usageError{inFile(name, err)}
		}
		to.Library = l
	}
	return nil
}

// recordings reads recorded motions and requires them.
func (t *terminal) recordings(names []string, s *subject) error {
	for _, name := range names {
		in, done, err := t.open(name)
		if err != nil {
			return err
		}
		r, err := readRecording(in, recordingName(name), s.c.Hip.Side)
		done()
		if err != nil {
			return usageError{inFile(name, err)}
		}
		known := func(key string) bool {
			_, ok := s.motions.Library.Activity(key)
			return ok || s.c.Goal.Motions.Has(key)
		}
		f, kept, err := s.file.Recorded(r, known)
		if err != nil {
			return usageError{inFile(name, err)}
		}
		s.file, s.c.Goal.Motions = f, s.c.Goal.Motions.With(kept.Key)
	}
	return nil
}

// warnings are what a user should know of a valid case.
func (s *subject) warnings(w *present.Words) []string { return w.Warned(&s.c) }
