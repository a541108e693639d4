//go:build unix

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// array is the script of an array of jobs in a folder of its own, with a cohort
// and what one unbroken run answers. No cluster is at hand: each task is run by
// a shell, in the environment in which sbatch runs it.
type array struct {
	*testing.T
	folder, script, sh string
	env                []string
	want               string
}

var arrayOptions = []string{"--criteria", "severe"}

func newArray(t *testing.T, lines int) *array {
	t.Helper()
	sh, err := exec.LookPath("sh")
	if err != nil {
		t.Skip("no shell")
	}
	a := &array{T: t, folder: t.TempDir(), sh: sh}
	for _, v := range program(t) {
		if !strings.HasPrefix(v, "SLURM_") && !strings.HasPrefix(v, "RIMCALC_SHARDS=") {
			a.env = append(a.env, v)
		}
	}
	wideCohort(t, filepath.Join(a.folder, "cohort.csv"), lines)
	a.want = succeeds(t, process(t, append([]string{"cohort", "--in", filepath.Join(a.folder, "cohort.csv")}, arrayOptions...)...))
	// Slurm runs a copy of the script from a folder of its own.
	a.script = filepath.Join(t.TempDir(), "slurm_script")
	if err := os.WriteFile(a.script, []byte(calc(t, "", "cohort", "--slurm").out), 0o755); err != nil {
		t.Fatal(err)
	}
	return a
}

// task returns one task of an array from least to most in steps; more are
// settings that win over what sbatch says.
func (a *array) task(id, least, most, step int, more ...string) *exec.Cmd {
	cmd := exec.Command(a.sh, append([]string{a.script, "cohort.csv", "results"}, arrayOptions...)...)
	cmd.Dir = a.folder
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true}
	cmd.Env = append(append([]string{}, a.env...), "SLURM_JOB_NAME=rimclear-cohort", "SLURM_ARRAY_JOB_ID=4000", fmt.Sprint("SLURM_JOB_ID=", 4000+id),
		fmt.Sprint("SLURM_ARRAY_TASK_ID=", id), fmt.Sprint("SLURM_ARRAY_TASK_MIN=", least), fmt.Sprint("SLURM_ARRAY_TASK_MAX=", most),
		fmt.Sprint("SLURM_ARRAY_TASK_STEP=", step), fmt.Sprint("SLURM_ARRAY_TASK_COUNT=", (most-least)/step+1),
		"SLURM_CPUS_PER_TASK=1", "SLURM_NTASKS=1", "SLURM_SUBMIT_DIR="+a.folder)
	cmd.Env = append(cmd.Env, more...)
	return cmd
}

// ends runs a task, which must end well.
func (a *array) ends(cmd *exec.Cmd) {
	a.Helper()
	if out, err := cmd.CombinedOutput(); err != nil {
		a.Fatalf("%v\n%s", err, out)
	}
}

// refuses runs a task, which must say that it cannot be run.
func (a *array) refuses(cmd *exec.Cmd, want string) {
	a.Helper()
	if out, err := cmd.CombinedOutput(); err == nil || !strings.Contains(string(out), want) {
		a.Errorf("%v\n%s\nwant %q", err, out, want)
	}
}

// merge joins the results by the line the script names.
func (a *array) merge() (errs string, code int) {
	cmd := exec.Command(a.sh, "-c", "rimcalc cohort --merge --out all.csv results/part-*")
	cmd.Dir, cmd.Env = a.folder, a.env
	out, _ := cmd.CombinedOutput()
	return string(out), cmd.ProcessState.ExitCode()
}

// whole makes sure that the results are those of one unbroken run.
func (a *array) whole() {
	a.Helper()
	errs, code := a.merge()
	got, err := os.ReadFile(filepath.Join(a.folder, "all.csv"))
	if code != fine || err != nil || string(got) != a.want {
		a.Errorf("merged: code %d, %v, %d bytes, want %d\n%s", code, err, len(got), len(a.want), errs)
	}
}

// parts makes sure that there is nothing to merge yet.
func (a *array) parts(want string) {
	a.Helper()
	errs, code := a.merge()
	if _, err := os.Stat(filepath.Join(a.folder, "all.csv")); code == fine || err == nil || !strings.Contains(errs, want) {
		a.Errorf("parts were merged: code %d, %v\n%s\nwant %q", code, err, errs, want)
	}
}

func TestAnArrayOfJobsGivesWhatOneRunGives(t *testing.T) {
	for _, tt := range []struct{ least, most, step int }{{1, 4, 1}, {0, 2, 1}, {5, 7, 1}, {0, 9, 3}} {
		t.Run(fmt.Sprintf("%d-%d:%d", tt.least, tt.most, tt.step), func(t *testing.T) {
			a := newArray(t, 500)
			for id := tt.most; id >= tt.least; id -= tt.step { // tasks end in any order
				a.ends(a.task(id, tt.least, tt.most, tt.step))
			}
			a.whole()
		})
	}
}

func TestATaskThatIsMissingIsNamedAndSubmittedAgain(t *testing.T) {
	a := newArray(t, 300)
	a.ends(a.task(1, 1, 3, 1))
	a.ends(a.task(3, 1, 3, 1))
	a.parts("shard 2/3 is missing")
	// As "sbatch --array=2" says it; of how many tasks it is, only we know.
	a.ends(a.task(2, 2, 2, 1, "RIMCALC_SHARDS=3"))
	a.whole()
	a.ends(a.task(2, 2, 2, 1, "RIMCALC_SHARDS=3", "SLURM_RESTART_COUNT=1")) // done, and done again
	a.whole()
}

func TestATaskTakenForAnArrayOfItsOwnSpoilsNothing(t *testing.T) {
	a := newArray(t, 300)
	for id := 1; id <= 3; id++ {
		a.ends(a.task(id, 1, 3, 1))
	}
	a.refuses(a.task(2, 2, 2, 1), "results/part-00001") // it would be shard 1/1, where 1/3 stands
	a.refuses(a.task(7, 1, 7, 1, "SLURM_ARRAY_TASK_COUNT=3"), "RIMCALC_SHARDS")
	a.refuses(a.task(4, 4, 4, 1, "RIMCALC_SHARDS=3"), "4/3")
	a.refuses(a.task(0, 0, 2, 1, "SLURM_ARRAY_TASK_ID="), "--array")
	a.whole()
}

func TestATaskThatWasKilledGoesOnWhereItStopped(t *testing.T) {
	lines := 20_000
	if testing.Short() {
		lines = 5000
	}
	a := newArray(t, lines)
	a.ends(a.task(1, 1, 2, 1))
	part := filepath.Join(a.folder, "results", "part-00002")
	for try := 0; !a.killed(a.task(2, 1, 2, 1), part); try++ {
		if try == 20 {
			t.Fatal("every task ended before it could be killed")
		}
		os.Remove(part)
		os.Remove(part + ".run.json")
	}
	a.parts("part-00002 is not finished")
	again := a.task(2, 1, 2, 1, "SLURM_RESTART_COUNT=1")
	out, err := again.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "results stood there already") {
		t.Errorf("taken up: %v\n%s", err, out)
	}
	a.whole()
}

// killed begins a task, kills it as Slurm does, with all it has begun, once two
// fifths of its results are there, and reports whether it was killed before it ended.
func (a *array) killed(task *exec.Cmd, part string) bool {
	a.Helper()
	if err := task.Start(); err != nil {
		a.Fatal(err)
	}
	ended := make(chan struct{})
	go func() {
		task.Wait()
		close(ended)
	}()
	for {
		select {
		case <-ended:
			return false
		case <-time.After(time.Millisecond):
		}
		if info, err := os.Stat(part); err == nil && info.Size() > int64(len(a.want)/5) {
			syscall.Kill(-task.Process.Pid, syscall.SIGKILL)
			<-ended
			return !task.ProcessState.Exited()
		}
	}
}

func TestTheScriptSaysWhatSlurmIsToRead(t *testing.T) {
	script := calc(t, "", "cohort", "--slurm").out
	if !strings.HasPrefix(script, "#!/bin/sh\n") {
		t.Error("the script does not say what runs it")
	}
	settings := 0
	for i, line := range strings.Split(script, "\n") {
		if strings.HasPrefix(line, "#SBATCH ") {
			settings++
			continue
		}
		if line != "" && !strings.HasPrefix(line, "#") {
			if settings == 0 || strings.Contains(strings.Join(strings.Split(script, "\n")[i:], "\n"), "#SBATCH") {
				t.Errorf("%d settings before line %d, the first that is a command; sbatch reads no others", settings, i+1)
			}
			return
		}
	}
}
