package store

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
)

// mounted mounts a small file system of its own, or skips where this user may
// not.
func mounted(t *testing.T, options string) string {
	t.Helper()
	folder := t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, options); err != nil {
		t.Skip("this user may not mount: ", err, "; TestAFileSizeLimitKeepsTheOldFile asks the same of a limit")
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, 0); err != nil {
			t.Error(err)
		}
	})
	return folder
}

// refused checks that a save has failed with its cause, and that the old file is
// whole and alone.
func refused(t *testing.T, path string, err, cause error) {
	t.Helper()
	var fault *Fault
	if !errors.Is(err, cause) || !errors.As(err, &fault) || fault.Replaced() {
		t.Errorf("the error is %v, want %v", err, cause)
	} else if !strings.Contains(err.Error(), path) || !strings.Contains(err.Error(), "a file already there is unchanged") {
		t.Errorf("the message reads %q", err)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "old" {
		t.Errorf("the file holds %d bytes, %v", len(data), err)
	}
	if n := scraps(t, filepath.Dir(path)); n != 0 {
		t.Errorf("%d temporary files stay", n)
	}
}

func TestAFullDiskKeepsTheOldFile(t *testing.T) {
	path := filepath.Join(mounted(t, "size=64k"), "case.json")
	if err := Write(path, []byte("old")); err != nil {
		t.Fatal(err)
	}
	refused(t, path, Write(path, make([]byte, 100_000)), syscall.ENOSPC)
	if err := Write(path, []byte("new")); err != nil {
		t.Errorf("with room again: %v", err)
	}
}

func TestADiskThatIsReadOnlyKeepsTheOldFile(t *testing.T) {
	folder := mounted(t, "size=64k")
	path := filepath.Join(folder, "case.json")
	if err := Write(path, []byte("old")); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("tmpfs", folder, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skip("this user may not mount: ", err)
	}
	refused(t, path, Write(path, []byte("new")), syscall.EROFS)
}

// limitVariable tells this test program to save under a limit.
const limitVariable = "RIMCLEAR_TEST_LIMIT"

// saveUnderALimit saves more than a file may hold.
func saveUnderALimit(path string) {
	signal.Ignore(syscall.SIGXFSZ)
	limit := syscall.Rlimit{Cur: 10_000, Max: 10_000}
	if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	err := Write(path, bytes.Repeat([]byte("new"), 50_000))
	var fault *Fault
	fmt.Println(errors.Is(err, syscall.EFBIG), errors.As(err, &fault), err)
	os.Exit(0)
}

func TestAFileSizeLimitKeepsTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "case.json")
	if err := os.WriteFile(path, []byte("old"), 0o600); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), limitVariable+"="+path)
	out, err := c.CombinedOutput()
	if err != nil || !strings.HasPrefix(string(out), "true true cannot save "+path) {
		t.Errorf("it says %q, %v", out, err)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "old" {
		t.Errorf("the file holds %d bytes, %v", len(data), err)
	}
	if n := scraps(t, filepath.Dir(path)); n != 0 {
		t.Errorf("%d temporary files stay", n)
	}
}

// TestAFolderWithoutRightsKeepsTheOldFile asks as a user without rights, which
// root is not: it becomes one in a program of its own.
func TestAFolderWithoutRightsKeepsTheOldFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "case.json")
	if err := os.WriteFile(path, []byte("old"), 0o666); err != nil {
		t.Fatal(err)
	}
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), limitVariable+"="+path, "RIMCLEAR_TEST_NO_LIMIT=1")
	if os.Geteuid() == 0 {
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
		copied := filepath.Join(t.TempDir(), "test")
		data, err := os.ReadFile(os.Args[0])
		if err == nil {
			err = os.WriteFile(copied, data, 0o755)
		}
		if err != nil {
			t.Fatal(err)
		}
		c.Path = copied
		passable(t, folder)
		passable(t, filepath.Dir(copied))
	}
	if err := os.Chmod(folder, 0o555); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.Chmod(folder, 0o755) })
	out, err := c.CombinedOutput()
	if err != nil || !strings.HasPrefix(string(out), "true true cannot save "+path) {
		t.Errorf("it says %q, %v", out, err)
	}
	if data, err := os.ReadFile(path); err != nil || string(data) != "old" {
		t.Errorf("the file holds %q, %v", data, err)
	}
}

// passable lets everybody into a folder of a test.
func passable(t *testing.T, folder string) {
	t.Helper()
	for ; folder != "/" && folder != filepath.Clean(os.TempDir()); folder = filepath.Dir(folder) {
		if err := os.Chmod(folder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
}

// saveWithoutRights saves where this user may not.
func saveWithoutRights(path string) {
	err := Write(path, []byte("new"))
	var fault *Fault
	fmt.Println(errors.Is(err, fs.ErrPermission), errors.As(err, &fault), err)
	os.Exit(0)
}

func init() {
	children = append(children, func() {
		switch path := os.Getenv(limitVariable); {
		case path == "":
		case os.Getenv("RIMCLEAR_TEST_NO_LIMIT") != "":
			saveWithoutRights(path)
		default:
			saveUnderALimit(path)
		}
	})
}
