package store

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// children are what this test program does when a test has started it for that.
var children []func()

func TestMain(m *testing.M) {
	for _, child := range children {
		child()
	}
	if path := os.Getenv("RIMCLEAR_TEST_CLAIM"); path != "" {
		c, err := Take(path)
		fmt.Println(c != nil, err)
		select {} // until killed
	}
	os.Exit(m.Run())
}

func TestAClaimEndsWithTheProcessThatIsKilled(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.lock")
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), "RIMCLEAR_TEST_CLAIM="+path)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil || line != "true <nil>\n" {
		t.Fatalf("the other process says %q, %v", line, err)
	}
	if mine, err := Take(path); mine != nil || err != nil {
		t.Errorf("while the other lives: %v, %v", mine, err)
	}
	if err := c.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	c.Wait()
	mine, err := Take(path)
	if mine == nil || err != nil {
		t.Fatalf("after it was killed: %v, %v", mine, err)
	}
	if err := mine.Release(); err != nil {
		t.Error(err)
	}
}

func sit(t *testing.T, h Home, bare bool) *Desk {
	t.Helper()
	d, err := h.Desk(bare)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Release() })
	return d
}

func TestEachWindowHasADeskOfItsOwnAndFindsWhatOthersLeft(t *testing.T) {
	h := Home(t.TempDir())
	a, b := sit(t, h, false), sit(t, h, false)
	if a.Path() == b.Path() || filepath.Base(a.Path()) != "last.rimclear.json" {
		t.Errorf("desks at %s and %s", a.Path(), b.Path())
	}
	if err := Write(b.Path(), []byte("work")); err != nil {
		t.Fatal(err)
	}
	if left := a.Left(); len(left) > 0 {
		t.Errorf("%d desks are left while both windows are open", len(left))
	}
	if err := b.Release(); err != nil {
		t.Fatal(err)
	}
	if c := sit(t, h, true); c.Path() == b.Path() {
		t.Error("a bare desk has work on it")
	}
	left := a.Left()
	if len(left) != 1 || left[0].Path() != b.Path() {
		t.Fatalf("%d desks are left, want the second", len(left))
	}
	if again := a.Left(); len(again) > 0 {
		t.Error("what one window looks at another takes as well")
	}
	if err := left[0].Clear(); err != nil {
		t.Fatal(err)
	}
	if err := left[0].Release(); err != nil {
		t.Fatal(err)
	}
	if left := a.Left(); len(left) > 0 {
		t.Error("a cleared desk still has work")
	}
}

func TestMoreWindowsThanDesksAreToldSo(t *testing.T) {
	h := Home(t.TempDir())
	for range desks {
		sit(t, h, false)
	}
	if _, err := h.Desk(false); err != ErrNoDesk {
		t.Errorf("one more: %v", err)
	}
}

func TestAFileIsOpenInOneWindow(t *testing.T) {
	h, path := Home(t.TempDir()), filepath.Join(t.TempDir(), "case.json")
	a, err := h.Open(path)
	if a == nil || err != nil {
		t.Fatal(a, err)
	}
	if b, err := h.Open(path); b != nil || err != nil {
		t.Errorf("twice: %v, %v", b, err)
	}
	if err := a.Release(); err != nil {
		t.Fatal(err)
	}
	c, err := h.Open(path)
	if c == nil || err != nil {
		t.Errorf("after it was released: %v, %v", c, err)
	}
	c.Release()
}

func TestAFileThatSomebodyElseChangedIsNoticed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "case.json")
	m := MarkOf([]byte("one"))
	if changed, err := m.Changed(path, 10); changed || err != nil {
		t.Errorf("no file: %v, %v", changed, err)
	}
	for text, want := range map[string]bool{"one": false, "two": true, "much too long a text": true} {
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if changed, err := m.Changed(path, 10); changed != want || err != nil {
			t.Errorf("%q: %v, %v", text, changed, err)
		}
	}
}

func TestWhatOpenLeavesIsSweptButNotUnderAWindow(t *testing.T) {
	h := Home(t.TempDir())
	if err := h.SweepOpen(0); err != nil {
		t.Errorf("with nothing there: %v", err)
	}
	held, err := h.Open("/held")
	if err != nil {
		t.Fatal(err)
	}
	gone, err := h.Open("/gone")
	if err != nil {
		t.Fatal(err)
	}
	if err := gone.Release(); err != nil {
		t.Fatal(err)
	}
	sweptTo(t, h, time.Hour, 2)
	sweptTo(t, h, 0, 1)
	if again, err := h.Open("/held"); again != nil || err != nil {
		t.Errorf("the held one was swept: %v, %v", again, err)
	}
	held.Release()
}

func sweptTo(t *testing.T, h Home, age time.Duration, want int) {
	t.Helper()
	if err := h.SweepOpen(age); err != nil {
		t.Error(err)
	}
	left, err := os.ReadDir(h.Path(openFolder))
	if err != nil || len(left) != want {
		t.Errorf("after a sweep of what is older than %v %d are left, want %d, %v", age, len(left), want, err)
	}
}
