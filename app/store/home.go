package store

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// HomeVariable names the environment variable that puts the program's own
// files elsewhere, for tests and for a stick that is carried along.
const HomeVariable = "RIMCLEAR_HOME"

// Home is the folder of the program's own files: settings, recent cases and
// autosaves. No case is kept in it unless the user saves one there.
type Home string

// UserHome returns the folder RIMCLEAR_HOME names, else "rimclear" in the
// user's configuration folder, and makes it if need be, readable by this user
// alone.
func UserHome() (Home, error) {
	folder := os.Getenv(HomeVariable)
	if folder == "" {
		config, err := os.UserConfigDir()
		if err != nil {
			return "", fmt.Errorf("cannot find the folder for settings: %w", err)
		}
		folder = filepath.Join(config, "rimclear")
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return "", fmt.Errorf("cannot make the folder for settings: %w", err)
	}
	return Home(folder), nil
}

// Path returns where a file of this name lies in the folder.
func (h Home) Path(name string) string { return filepath.Join(string(h), name) }

// ownLimit bounds the program's own small files, in bytes.
const ownLimit = 1 << 20

// load reads a small JSON file into v. A file that is not there leaves v as it
// is.
func (h Home) load(name string, v any) error {
	data, err := Read(h.Path(name), ownLimit)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return &Fault{Path: h.Path(name), Step: StepParse, Err: err}
	}
	return nil
}

// save writes v as a small JSON file.
func (h Home) save(name string, v any) error {
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return &Fault{Path: h.Path(name), Step: StepFill, Err: err}
	}
	return Write(h.Path(name), append(data, '\n'))
}
