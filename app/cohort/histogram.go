package cohort

import (
	"math"
)

// histogram counts angles in classes of a hundredth of a degree, so that the
// quantiles of any number of cases are known to half of that in constant
// memory. The least and the greatest are exact.
type histogram struct {
	class       []uint32
	count       int
	least, most float64
}

const (
	classes    = 36000 // from -180° to 180°, ends included
	perDegree  = classes / 360
	firstClass = -180
)

func (h *histogram) add(x float64) {
	if h.class == nil {
		h.class = make([]uint32, classes+1)
		h.least, h.most = math.Inf(1), math.Inf(-1)
	}
	h.class[max(0, min(classes, int(math.Round((x-firstClass)*perDegree))))]++
	h.count++
	h.least, h.most = min(h.least, x), max(h.most, x)
}

// at returns the value that has so many others below it.
func (h *histogram) at(below int) float64 {
	for i, n := range h.class {
		if below -= int(n); below < 0 {
			return max(h.least, min(h.most, float64(i)/perDegree+firstClass))
		}
	}
	return h.most
}
