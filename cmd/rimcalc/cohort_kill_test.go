//go:build unix

package main

import (
	"bytes"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// The long form is a million lines, about a minute on two cores:
// RIMCLEAR_LONG=1 go test -run KilledFiveTimes -v -timeout 30m ./cmd/rimcalc
func TestACohortKilledFiveTimesIsTheSameToTheLastByte(t *testing.T) {
	count, most := 30_000, int64(200<<20)
	if os.Getenv("RIMCLEAR_LONG") != "" {
		count = 1_000_000
	} else if testing.Short() {
		count = 10_000
	}
	folder := t.TempDir()
	cohort, whole, torn := filepath.Join(folder, "cohort.csv"), filepath.Join(folder, "whole.csv"), filepath.Join(folder, "torn.csv")
	wideCohort(t, cohort, count)
	begun := time.Now()
	unbroken := process(t, "cohort", "--in", cohort, "--out", whole)
	succeeds(t, unbroken)
	took := time.Since(begun)
	resident := residentOf(unbroken.ProcessState.SysUsage())
	info, err := os.Stat(whole)
	if err != nil {
		t.Fatal(err)
	}
	kills, tries := 0, 0
	r := rand.New(rand.NewPCG(uint64(begun.UnixNano()), 0))
	for kills < 5 && tries < 60 {
		tries++
		if kill(t, cohort, torn, r.Int64N(info.Size()*int64(kills+1)/6+1)) {
			kills++
		}
	}
	last := process(t, "cohort", "--in", cohort, "--out", torn)
	var errs bytes.Buffer
	last.Stderr = &errs
	if last.Run(); last.ProcessState.ExitCode() != failed || !strings.Contains(errs.String(), "results stood there already") {
		t.Errorf("taken up at last: %v\n%s", last.ProcessState, errs.String())
	}
	resident = max(resident, residentOf(last.ProcessState.SysUsage()))
	if kills < 5 {
		t.Errorf("killed only %d times in %d tries", kills, tries)
	}
	if !sameFiles(t, whole, torn) {
		t.Error("the results differ from those of an unbroken run")
	}
	if resident > most {
		t.Errorf("%d MB resident, want less than %d", resident>>20, most>>20)
	}
	t.Logf("%d lines, %d at fault, %d MB of results in %v (%.0f lines/s, %.0f per second of processor); killed %d times; %d MB resident at most",
		count, count/100, info.Size()>>20, took.Round(time.Millisecond), float64(count)/took.Seconds(),
		float64(count)/(unbroken.ProcessState.UserTime()+unbroken.ProcessState.SystemTime()).Seconds(), kills, resident>>20)
}

// kill begins or takes up a run, kills it once its output has grown to a size,
// and reports whether it was killed before it ended.
func kill(t *testing.T, cohort, out string, size int64) bool {
	t.Helper()
	cmd := process(t, "cohort", "--in", cohort, "--out", out)
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	ended := make(chan struct{})
	go func() {
		cmd.Wait()
		close(ended)
	}()
	for {
		select {
		case <-ended:
			if code := cmd.ProcessState.ExitCode(); code != failed {
				t.Fatalf("a run ended by itself with code %d", code)
			}
			return false
		case <-time.After(time.Millisecond):
		}
		if info, err := os.Stat(out); err == nil && info.Size() >= size {
			cmd.Process.Signal(syscall.SIGKILL)
			<-ended
			return !cmd.ProcessState.Exited()
		}
	}
}

// residentOf returns the most memory a process has held, in bytes; Linux
// counts it in kB.
func residentOf(usage any) int64 {
	if u, ok := usage.(*syscall.Rusage); ok {
		return int64(u.Maxrss) << 10
	}
	return 0
}

func sameFiles(t *testing.T, a, b string) bool {
	t.Helper()
	x, err := os.ReadFile(a)
	if err != nil {
		t.Fatal(err)
	}
	y, err := os.ReadFile(b)
	if err != nil {
		t.Fatal(err)
	}
	return bytes.Equal(x, y)
}
