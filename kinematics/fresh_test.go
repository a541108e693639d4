package kinematics

import (
	"flag"
	"math"
	"math/rand/v2"
	"runtime"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// How many fresh designs are held against the solids, and by which seed: see
// `go run ./cmd/dev check`.
var (
	freshDesigns = flag.Int("designs", 0, "hold so many fresh random designs against the solids")
	freshSeed    = flag.Uint64("seed", 0, "seed of the fresh designs; 0 draws one")
	freshFirst   = flag.Int("first", 0, "number of the first of them")
)

// tell takes what another comparison found.
func (s *solidTally) tell(o solidTally) {
	s.cases, s.stopped, s.started, s.free = s.cases+o.cases, s.stopped+o.stopped, s.started+o.started, s.free+o.free
	s.intervals, s.grazes = s.intervals+o.intervals, s.grazes+o.grazes
	s.worst, s.worstGraze = math.Max(s.worst, o.worst), math.Max(s.worstGraze, o.worstGraze)
}

// Each design has a seed of its own, made of the run's and its number, so that
// the run is the same for any number of workers and may stop at any number.
func TestFreshDesignsStopWhereTheSolidsTouch(t *testing.T) {
	if *freshDesigns <= 0 {
		t.Skip("asked for by go run ./cmd/dev check")
	}
	seed := *freshSeed
	if seed == 0 {
		seed = rand.Uint64()>>1 + 1
	}
	t.Logf("%d designs from number %d, seed %d", *freshDesigns, *freshFirst, seed)
	var next, failed atomic.Int64
	next.Store(int64(*freshFirst))
	last := *freshFirst + *freshDesigns
	var sum solidTally
	var m sync.Mutex
	var wg sync.WaitGroup
	began := time.Now()
	part := max(1, *freshDesigns/50)
	for range runtime.GOMAXPROCS(0) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < last && failed.Load() < 20; i = int(next.Add(1)) - 1 {
				r := rand.New(rand.NewPCG(seed, uint64(i)))
				var one solidTally
				h, d := shaped(r, freshSet(i))
				if !agreeWithSolids(t, h, d, roaming(r), &one) {
					t.Logf("design %d of seed %d", i, seed)
					failed.Add(1)
				}
				m.Lock()
				sum.tell(one)
				if sum.cases%part == 0 {
					t.Logf("%d of %d after %.0f s, worst difference so far %.2g°", sum.cases, *freshDesigns, time.Since(began).Seconds(), sum.worst)
				}
				m.Unlock()
			}
		})
	}
	wg.Wait()
	t.Logf("%d designs, seed %d: %d stop, %d start in contact, %d free, %d contacts; worst difference %.2g°, grazing %d (longest %.2g°)",
		sum.cases, seed, sum.stopped, sum.started, sum.free, sum.intervals, sum.worst, sum.grazes, sum.worstGraze)
}
