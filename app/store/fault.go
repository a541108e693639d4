package store

import "fmt"

// Step names a stage of a save or a read, for messages.
type Step string

// The steps of Write in their order, and those of Read.
const (
	StepResolve    Step = "finding the file"
	StepPermission Step = "asking whether the file may be written"
	StepCreate     Step = "making a temporary file in the folder"
	StepFill       Step = "writing the temporary file"
	StepMode       Step = "giving the temporary file the old file's permissions"
	StepSync       Step = "bringing the temporary file to the disk"
	StepClose      Step = "closing the temporary file"
	StepRename     Step = "putting the new file in place"
	StepFolder     Step = "bringing the folder to the disk"
	StepOpen       Step = "opening the file"
	StepRead       Step = "reading the file"
	StepParse      Step = "understanding the file"
)

// Fault says which file could not be kept or read, at which step, and why.
// It unwraps to the operating system's own error.
type Fault struct {
	Path string
	Step Step
	Err  error
}

// Replaced reports whether the new contents are in place in spite of the
// fault. Only the last step of Write, the folder's own sync, fails that late:
// the file is right now, but a power cut could still bring the old one back.
func (f *Fault) Replaced() bool { return f.Step == StepFolder }

// Error implements error.
func (f *Fault) Error() string {
	switch f.Step {
	case StepOpen, StepRead, StepParse:
		return fmt.Sprintf("cannot read %s: %s: %v", f.Path, f.Step, f.Err)
	case StepFolder:
		return fmt.Sprintf("saved %s, but a power cut could undo it: %s: %v", f.Path, f.Step, f.Err)
	}
	return fmt.Sprintf("cannot save %s: %s: %v (a file already there is unchanged)", f.Path, f.Step, f.Err)
}

// Unwrap returns the cause.
func (f *Fault) Unwrap() error { return f.Err }
