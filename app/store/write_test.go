package store

import (
	"bytes"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"
	"time"
)

var errBroken = errors.New("broken on purpose")

// faulty is the real disk until the step that breaks. A power cut stops
// everything from that step on, the removal of the temporary file included.
type faulty struct {
	system
	at       Step
	powerCut bool
	down     bool
}

func (f *faulty) broken(step Step) error {
	if f.at == step {
		f.down = f.powerCut
		return errBroken
	}
	if f.down {
		return errBroken
	}
	return nil
}

func (f *faulty) resolve(path string) (string, error) {
	if err := f.broken(StepResolve); err != nil {
		return "", err
	}
	return f.system.resolve(path)
}

func (f *faulty) stat(path string) (fs.FileInfo, error) {
	if err := f.broken(StepPermission); err != nil {
		return nil, err
	}
	return f.system.stat(path)
}

func (f *faulty) create(path string) (file, error) {
	if err := f.broken(StepCreate); err != nil {
		return nil, err
	}
	inner, err := f.system.create(path)
	return &faultyFile{file: inner, on: f}, err
}

func (f *faulty) chmod(path string, mode fs.FileMode) error {
	if err := f.broken(StepMode); err != nil {
		return err
	}
	return f.system.chmod(path, mode)
}

func (f *faulty) rename(from, to string) error {
	if err := f.broken(StepRename); err != nil {
		return err
	}
	return f.system.rename(from, to)
}

func (f *faulty) remove(path string) error {
	if f.down {
		return errBroken
	}
	return f.system.remove(path)
}

func (f *faulty) syncFolder(folder string) error {
	if err := f.broken(StepFolder); err != nil {
		return err
	}
	return f.system.syncFolder(folder)
}

type faultyFile struct {
	file
	on *faulty
}

// Write stops half way, as a full disk does.
func (f *faultyFile) Write(p []byte) (int, error) {
	if err := f.on.broken(StepFill); err != nil {
		n, _ := f.file.Write(p[:len(p)/2])
		return n, err
	}
	return f.file.Write(p)
}

func (f *faultyFile) Sync() error {
	if err := f.on.broken(StepSync); err != nil {
		return err
	}
	return f.file.Sync()
}

func (f *faultyFile) Close() error {
	closing := f.file.Close()
	if err := f.on.broken(StepClose); err != nil {
		return err
	}
	return closing
}

var writeSteps = []Step{
	StepResolve, StepPermission, StepCreate, StepFill, StepMode, StepSync, StepClose, StepRename, StepFolder,
}

func TestSaveThatFailsAtAnyStepLeavesTheOldFileWhole(t *testing.T) {
	for _, powerCut := range []bool{false, true} {
		for _, step := range writeSteps {
			name := string(step)
			if powerCut {
				name += ", power cut"
			}
			t.Run(name, func(t *testing.T) { failAt(t, step, powerCut) })
		}
	}
}

func failAt(t *testing.T, step Step, powerCut bool) {
	before, after := bytes.Repeat([]byte("old "), 5000), bytes.Repeat([]byte("newer "), 7000)
	path := filepath.Join(t.TempDir(), "case.json")
	if err := os.WriteFile(path, before, 0o640); err != nil {
		t.Fatal(err)
	}
	err := writeOn(&faulty{at: step, powerCut: powerCut}, path, func(w io.Writer) error {
		_, err := w.Write(after)
		return err
	})
	var fault *Fault
	if !errors.As(err, &fault) || !errors.Is(err, errBroken) {
		t.Fatalf("writeOn broken at %q = %v, want a *Fault that wraps the cause", step, err)
	}
	if fault.Step != step || fault.Path != path {
		t.Errorf("fault names step %q of %s, want %q of %s", fault.Step, fault.Path, step, path)
	}
	want := before
	if fault.Replaced() {
		want = after
	}
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, want) {
		t.Errorf("the file holds %d bytes, error %v; want all %d bytes of one version", len(got), err, len(want))
	}
	if left := scraps(t, filepath.Dir(path)); left > 0 && !powerCut {
		t.Errorf("%d temporary files stay after a failure that was noticed, want 0", left)
	}
}

func scraps(t *testing.T, folder string) int {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var n int
	for _, e := range entries {
		if isScrap(e) {
			n++
		}
	}
	return n
}

func TestFailedFirstSaveLeavesNoFile(t *testing.T) {
	for _, step := range []Step{StepCreate, StepFill, StepSync, StepClose, StepRename} {
		path := filepath.Join(t.TempDir(), "case.json")
		err := writeOn(&faulty{at: step}, path, func(w io.Writer) error { _, err := w.Write([]byte("x")); return err })
		if err == nil {
			t.Errorf("writeOn broken at %q reports success", step)
		}
		if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
			t.Errorf("after a failure at %q the file exists: %v", step, err)
		}
	}
}

func TestSaveReplacesContentsAndKeepsPermissions(t *testing.T) {
	path := filepath.Join(t.TempDir(), "case.json")
	for _, mode := range []fs.FileMode{0o600, 0o640, 0o664} {
		if err := os.WriteFile(path, []byte("a longer text than the next"), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := os.Chmod(path, mode); err != nil {
			t.Fatal(err)
		}
		if err := Write(path, []byte("short")); err != nil {
			t.Fatal(err)
		}
		info, err := os.Stat(path)
		if err != nil {
			t.Fatal(err)
		}
		if got, _ := os.ReadFile(path); string(got) != "short" {
			t.Errorf("Write left %q, want %q", got, "short")
		}
		if runtime.GOOS != "windows" && info.Mode().Perm() != mode {
			t.Errorf("Write left permissions %v, want %v", info.Mode().Perm(), mode)
		}
	}
	if n := scraps(t, filepath.Dir(path)); n != 0 {
		t.Errorf("%d temporary files stay after success, want 0", n)
	}
}

func TestSaveThroughALinkReplacesTheFileNotTheLink(t *testing.T) {
	folder := t.TempDir()
	file, link := filepath.Join(folder, "real.json"), filepath.Join(folder, "link.json")
	if err := os.WriteFile(file, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(file, link); err != nil {
		t.Skip("this system makes no links:", err)
	}
	if err := Write(link, []byte("new")); err != nil {
		t.Fatal(err)
	}
	if got, _ := os.ReadFile(file); string(got) != "new" {
		t.Errorf("the linked file holds %q, want %q", got, "new")
	}
	if info, err := os.Lstat(link); err != nil || info.Mode()&fs.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v, %v", info, err)
	}
}

func TestSaveRefusesWhatAnOrdinaryWriteCouldNotReplace(t *testing.T) {
	folder := t.TempDir()
	readOnly := filepath.Join(folder, "read-only.json")
	if err := os.WriteFile(readOnly, []byte("kept"), 0o400); err != nil {
		t.Fatal(err)
	}
	if err := Write(readOnly, []byte("new")); !errors.Is(err, fs.ErrPermission) {
		t.Errorf("Write on a read-only file = %v, want a permission fault", err)
	}
	if got, _ := os.ReadFile(readOnly); string(got) != "kept" {
		t.Errorf("the read-only file holds %q, want %q", got, "kept")
	}
	if err := Write(folder, []byte("new")); err == nil {
		t.Error("Write on a folder reports success")
	}
	if err := Write(filepath.Join(folder, "absent", "case.json"), nil); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("Write into an absent folder = %v, want fs.ErrNotExist", err)
	}
}

func TestReadOnlyFolderKeepsTheOldFile(t *testing.T) {
	if os.Geteuid() == 0 || runtime.GOOS == "windows" {
		t.Skip("this user may write anywhere; TestSaveThatFailsAtAnyStepLeavesTheOldFileWhole breaks the same step")
	}
	folder := t.TempDir()
	path := filepath.Join(folder, "case.json")
	if err := os.WriteFile(path, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(folder, 0o500); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(folder, 0o700) })
	var fault *Fault
	if err := Write(path, []byte("new")); !errors.As(err, &fault) || fault.Step != StepCreate {
		t.Errorf("Write in a read-only folder = %v, want a fault at %q", err, StepCreate)
	}
	if got, _ := os.ReadFile(path); string(got) != "kept" {
		t.Errorf("the file holds %q, want %q", got, "kept")
	}
}

func TestFillThatFailsIsTheCause(t *testing.T) {
	path := filepath.Join(t.TempDir(), "report.pdf")
	err := WriteFrom(path, func(w io.Writer) error {
		io.WriteString(w, "half")
		return errBroken
	})
	if !errors.Is(err, errBroken) {
		t.Errorf("WriteFrom = %v, want the cause from fill", err)
	}
	if n := scraps(t, filepath.Dir(path)); n != 0 {
		t.Errorf("%d temporary files stay, want 0", n)
	}
}

func TestSweepTakesOldScrapsOnly(t *testing.T) {
	folder := t.TempDir()
	old, young, other := partOf(filepath.Join(folder, "a.json")), partOf(filepath.Join(folder, "b.json")), filepath.Join(folder, ".notes")
	past := time.Now().Add(-3 * time.Hour)
	for _, path := range []string{old, young, other} {
		if err := os.WriteFile(path, nil, 0o600); err != nil {
			t.Fatal(err)
		}
		if path != young {
			if err := os.Chtimes(path, past, past); err != nil {
				t.Fatal(err)
			}
		}
	}
	if n, err := Sweep(folder, time.Hour); n != 1 || err != nil {
		t.Errorf("Sweep = %d, %v, want 1, nil", n, err)
	}
	for path, want := range map[string]bool{old: false, young: true, other: true} {
		if _, err := os.Stat(path); (err == nil) != want {
			t.Errorf("after Sweep %s exists: %v, want %v", filepath.Base(path), err == nil, want)
		}
	}
}
