package main

import (
	"io"
	"path/filepath"
	"strings"

	"rimclear/app/casefile"
	"rimclear/kinematics/form"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// readRecording reads a table of joint angles over time by its headings. What
// the headings do not say is asked for.
func readRecording(in io.Reader, name string, side hip.Side) (casefile.Recording, error) {
	table, err := motion.ReadTable(in)
	if err != nil {
		return casefile.Recording{}, err
	}
	g := table.Guess(side)
	if !g.Complete {
		return casefile.Recording{}, form.Problems{{Line: table.Heading, Place: "headings",
			Value: strings.Join(table.Columns, ", "),
			Must:  "must name a column of time and of flexion, adduction and rotation of the hip; the window lets you choose them by hand"}}
	}
	r, err := table.Recording(g.Mapping)
	return casefile.Recording{Name: name, Recording: r, Mapping: g.Mapping}, err
}

// recordingName is a file's name without its folder and ending.
func recordingName(path string) string {
	name := filepath.Base(path)
	return strings.TrimSuffix(name, filepath.Ext(name))
}
