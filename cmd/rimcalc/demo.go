package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/urfave/cli/v3"

	"rimclear/app/casefile"
	"rimclear/app/present"
	"rimclear/app/store"
	"rimclear/assets"
)

func (t *terminal) demo() *cli.Command {
	return &cli.Command{
		Name:      "demo",
		Usage:     "write the sample case, its limits and pictures into a folder",
		UsageText: "rimcalc demo [--out FOLDER]",
		Description: described(
			"The sample has typical sizes of common practice, without a source.",
		),
		Flags: []cli.Flag{&cli.StringFlag{Name: "out", Value: "demo", Usage: "`FOLDER` to write into; it is made if need be"}},
		Action: func(_ context.Context, cmd *cli.Command) error {
			if cmd.Args().Present() {
				return misused("%q is no option of demo; the folder is named by --out", cmd.Args().First())
			}
			return t.writeDemo(cmd.String("out"))
		},
	}
}

// product is a file of the demo.
type product struct {
	name  string
	write func(io.Writer) error
}

func (t *terminal) writeDemo(folder string) error {
	sample := assets.Demo()
	f, err := casefile.Decode(sample.Data)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return err
	}
	all, err := chosen(&f.Case, "")
	if err != nil {
		return err
	}
	a := answer(f.Case, all)
	products := []product{
		{"case" + casefile.Extension, func(w io.Writer) error { _, err := io.Copy(w, bytes.NewReader(sample.Data)); return err }},
		{"limits.txt", a.writeText},
		{"limits.csv", a.writeCSV},
		{"limits.json", a.writeJSON},
	}
	products = append(products, reportOf(f))
	for _, p := range append(products, a.pictures()...) {
		path := filepath.Join(folder, p.name)
		if err := store.WriteFrom(path, p.write); err != nil {
			return err
		}
		fmt.Fprintln(t.out, path)
	}
	fmt.Fprintln(t.out, present.English().Caution())
	return nil
}
