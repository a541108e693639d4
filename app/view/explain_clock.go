package view

import (
	"math"
	"time"
)

// The times of one round: the person stands, moves, stays where the movement
// ends, and goes back.
const (
	explainRest = 600 * time.Millisecond
	explainRun  = 2800 * time.Millisecond
	explainHold = 2600 * time.Millisecond
	explainBack = 1400 * time.Millisecond
)

// smooth runs from 0 to 1 with t, slow at both ends.
func smooth(t float64) float64 {
	t = math.Min(math.Max(t, 0), 1)
	return t * t * (3 - 2*t)
}

// unsmooth returns the t at which smooth has a value.
func unsmooth(v float64) float64 {
	lo, hi := 0.0, 1.0
	for range 40 {
		if mid := (lo + hi) / 2; smooth(mid) < v {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// round is the time one round takes if the movement stops at a share.
func explainRound(stop float64) time.Duration {
	return explainRest + reaching(stop) + explainHold + explainBack
}

// reaching is the time from standing to a share.
func reaching(stop float64) time.Duration {
	return time.Duration(unsmooth(stop) * float64(explainRun))
}

// shareAt returns how far a movement that stops at a share has gone at a time of
// its round.
func shareAt(stop float64, at time.Duration) float64 {
	at -= explainRest
	if at <= 0 {
		return 0
	}
	there := reaching(stop)
	if at < there {
		return math.Min(smooth(float64(at)/float64(explainRun)), stop)
	}
	at -= there + explainHold
	if at <= 0 {
		return stop
	}
	return stop * (1 - smooth(float64(at)/float64(explainBack)))
}
