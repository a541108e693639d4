package cohort

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"strings"

	"rimclear/app/casefile"
	"rimclear/app/store"
)

// State is what is kept beside a run's output, so that the run can be taken up
// again and its shards joined: what it was asked for, and of what input.
type State struct {
	Format   string   `json:"format"`
	Version  int      `json:"version"`
	Program  string   `json:"program"` // version of the program whose answers these are
	Input    string   `json:"input_sha256"`
	Bytes    int64    `json:"input_bytes"`
	Written  string   `json:"written_as"`
	Base     string   `json:"base_case"`
	Carry    []string `json:"carry"`
	Motions  []string `json:"motions"`
	Criteria string   `json:"criteria"`
	Target   bool     `json:"target"`
	Shard    int      `json:"shard"`
	Shards   int      `json:"shards"`
	Done     bool     `json:"done"`
	Rows     int      `json:"rows"`
	Faults   int      `json:"faults"`
}

const (
	stateFormat  = "rimclear-cohort-run"
	stateVersion = 1
	mostState    = 1 << 20
)

// StatePath returns where the state of an output is kept.
func StatePath(out string) string { return out + ".run.json" }

// stateOf returns the state of a run that has not begun.
func stateOf(s *Settings, program string, in io.Reader) (State, error) {
	hash := sha256.New()
	n, err := io.Copy(hash, in)
	if err != nil {
		return State{}, err
	}
	base, err := casefile.Encode(casefile.File{Case: s.Base})
	if err != nil {
		return State{}, err
	}
	var line bytes.Buffer
	if err := json.Compact(&line, base); err != nil {
		return State{}, err
	}
	return State{
		Format: stateFormat, Version: stateVersion, Program: program,
		Input: hex.EncodeToString(hash.Sum(nil)), Bytes: n, Written: FormatKeys[s.Format], Base: line.String(),
		Carry: append([]string{}, s.Carry...), Motions: append([]string{}, s.Motions...), Criteria: s.Criteria,
		Target: s.Target, Shard: max(s.Shard, 1), Shards: max(s.Shards, 1),
	}, nil
}

// differs names what of two runs is not the same, "" if nothing is. Which
// shard it is, and how far it came, is no difference.
func (a State) differs(b State) string {
	var list []string
	add := func(name string, same bool) {
		if !same {
			list = append(list, name)
		}
	}
	add("the input", a.Input == b.Input && a.Bytes == b.Bytes)
	add("the program's version", a.Program == b.Program)
	add("--format", a.Written == b.Written)
	add("the base case", a.Base == b.Base)
	add("--carry", strings.Join(a.Carry, ",") == strings.Join(b.Carry, ","))
	add("--motions", strings.Join(a.Motions, ",") == strings.Join(b.Motions, ","))
	add("--criteria", a.Criteria == b.Criteria)
	add("--target", a.Target == b.Target)
	add("the number of shards", a.Shards == b.Shards)
	return strings.Join(list, ", ")
}

// readState reads the state of an output; the error is fs.ErrNotExist where
// there is none.
func readState(out string) (State, error) {
	var s State
	data, err := store.Read(StatePath(out), mostState)
	if err != nil {
		return s, err
	}
	if err := json.Unmarshal(data, &s); err != nil || s.Format != stateFormat {
		return s, fmt.Errorf("%s is not the state of a cohort's run", StatePath(out))
	}
	if s.Version != stateVersion {
		return s, fmt.Errorf("%s: version %d of a run's state is not known to this program", StatePath(out), s.Version)
	}
	return s, nil
}

func (s State) write(out string) error {
	data, err := json.MarshalIndent(s, "", "  ")
	if err != nil {
		return err
	}
	return store.Write(StatePath(out), append(data, '\n'))
}

// exists reports whether there is something at a path.
func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}
