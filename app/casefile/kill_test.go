package casefile

import (
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"rimclear/app/store"
	"rimclear/app/store/killed"
)

// saverVariable tells this test program to be the one that saves.
const saverVariable = "RIMCLEAR_TEST_SAVER"

func TestMain(m *testing.M) {
	if path := os.Getenv(saverVariable); path != "" {
		saveForEver(path)
	}
	os.Exit(m.Run())
}

// saveForEver saves cases of different sizes over each other, numbered in their
// label, and prints each number once its save has returned.
func saveForEver(path string) {
	n, f := 0, File{}
	if old, err := Open(path); err == nil {
		if n, err = strconv.Atoi(old.Case.Label); err != nil {
			fmt.Println("the label is", old.Case.Label)
			os.Exit(1)
		}
	}
	c, err := Decode([]byte(`{"format":"rimclear-case","version":2,"designs":[{},{}]}`))
	if err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	var sizes []File
	for _, samples := range []int{0, 2, 3000} {
		if f = c; samples > 0 {
			if f, _, err = c.Recorded(walked(samples), none); err != nil {
				fmt.Println(err)
				os.Exit(1)
			}
		}
		sizes = append(sizes, f)
	}
	for {
		n++
		f := sizes[n%len(sizes)]
		f.Case.Label = strconv.Itoa(n)
		if err := Save(path, f); err != nil {
			fmt.Println(err)
			os.Exit(1)
		}
		fmt.Println(n)
	}
}

// TestACaseSurvivesBeingKilledWhileItIsSaved kills a program that saves without
// end, at a random moment, again and again. Each time the file must be whole and
// hold the last case whose save had returned, or the one being saved.
// RIMCLEAR_LONG=1 kills 1,000 times.
func TestACaseSurvivesBeingKilledWhileItIsSaved(t *testing.T) {
	kills := 15
	if os.Getenv("RIMCLEAR_LONG") == "1" {
		kills = 1000
	}
	path := filepath.Join(t.TempDir(), "case"+Extension)
	r := rand.New(rand.NewPCG(uint64(time.Now().UnixNano()), 0))
	var lost, torn, within, saved int
	for range kills {
		last, err := killed.Run(saverVariable, path, time.Duration(r.IntN(40_000))*time.Microsecond)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Open(path)
		switch n, _ := strconv.Atoi(f.Case.Label); {
		case errors.Is(err, fs.ErrNotExist) && last == 0:
		case err != nil:
			torn++
			t.Errorf("after save %d: %v", last, err)
		case n < last || n > last+1:
			lost++
			t.Errorf("after save %d the file holds %d", last, n)
		default:
			saved = n
		}
		swept, err := store.Sweep(filepath.Dir(path), 0)
		if err != nil {
			t.Fatal(err)
		}
		within += min(swept, 1)
	}
	t.Logf("%d kills, %d of them before the new file was in place; %d saves; %d lost, %d torn", kills, within, saved, lost, torn)
}
