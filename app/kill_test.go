package app

import (
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"rimclear/app/store"
	"rimclear/app/store/killed"
)

// keeperVariable tells this test program to be the one that keeps its work.
const keeperVariable = "RIMCLEAR_TEST_KEEPER"

func TestMain(m *testing.M) {
	if home := os.Getenv(keeperVariable); home != "" {
		if err := keepForEver(store.Home(home)); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
	}
	os.Exit(m.Run())
}

// keepForEver keeps work that is numbered in the case's label and in the note,
// and prints each number once it is kept.
func keepForEver(home store.Home) error {
	d, err := home.Desk(false)
	if err != nil {
		return err
	}
	k, err := readWork(d.Path())
	if err != nil {
		if k.file, err = sample(0); err != nil {
			return err
		}
		k.file.Case.Label = "0"
	}
	n, err := strconv.Atoi(k.file.Case.Label)
	if err != nil {
		return err
	}
	var soon func()
	later := func(_ time.Duration, f func()) func() {
		soon = f
		return func() {}
	}
	a := newAutosave(d, func() work { return k }, later, func(func()) {}, func(error) {})
	for {
		n++
		k.file.Case.Label = strconv.Itoa(n)
		k.Path = "/" + k.file.Case.Label
		a.ask()
		soon()
		for a.writer.Busy() {
			time.Sleep(50 * time.Microsecond)
		}
		fmt.Println(n)
	}
}

// TestWorkSurvivesBeingKilledWhileItIsKept kills a program that keeps its work
// without end, at a random moment, again and again. Each time its place must be
// free, and the work there whole, the last that was kept or the one after, with
// its own note. RIMCLEAR_LONG=1 kills 1,000 times.
func TestWorkSurvivesBeingKilledWhileItIsKept(t *testing.T) {
	kills := 8
	if os.Getenv("RIMCLEAR_LONG") == "1" {
		kills = 1000
	}
	home := t.TempDir()
	r := rand.New(rand.NewPCG(uint64(time.Now().UnixNano()), 0))
	var lost, torn, within, kept int
	for range kills {
		last, err := killed.Run(keeperVariable, home, time.Duration(r.IntN(30_000))*time.Microsecond)
		if err != nil {
			t.Fatal(err)
		}
		d, err := store.Home(home).Desk(false)
		if err != nil || !d.First() {
			t.Fatalf("its place is not free: %v", err)
		}
		k, err := readWork(d.Path())
		switch n, _ := strconv.Atoi(k.file.Case.Label); {
		case err != nil:
			torn++
			t.Errorf("after %d: %v", last, err)
		case n < last || n > last+1 || k.Path != "/"+strconv.Itoa(n):
			lost++
			t.Errorf("after %d there is %d with the note of %q", last, n, k.Path)
		default:
			kept = n
		}
		swept, err := store.Sweep(home, 0)
		if err != nil {
			t.Fatal(err)
		}
		within += min(swept, 1)
		if err := d.Release(); err != nil {
			t.Fatal(err)
		}
	}
	t.Logf("%d kills, %d of them before the new file was in place; kept %d times; %d lost, %d torn", kills, within, kept, lost, torn)
}
