package aperture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/kinematics/unit"
)

// block is a run of samples bounded by a cap on the sphere, so that far parts
// of the rim are passed over by one look.
type block struct {
	from, to int // samples from ≤ i < to
	centre   r3.Vec
	reach    unit.Angle // radius of the cap that holds all points, and the stretches between them, plus the neck's widest half-width there
}

// blockSize is how many samples a block holds.
const blockSize = 16

// gather groups the samples into blocks.
func (o *outline) gather() {
	for from := 0; from < len(o.sample); from += blockSize {
		b := block{from: from, to: min(from+blockSize, len(o.sample))}
		b.centre = o.sample[(b.from+b.to)/2].first
		for i := b.from; i < b.to; i++ {
			f := o.rim.FaceAt(o.sample[i].polar)
			for _, l := range o.levels {
				d := direction(l.vertex(f), o.sample[i].phi)
				b.reach = max(b.reach, between(d, b.centre)+o.widest(l))
			}
		}
		b.reach += spacing
		o.block = append(o.block, b)
	}
}

// widest bounds the neck's half-width at a level.
func (o *outline) widest(l level) unit.Angle {
	if o.radial {
		return o.width.widest
	}
	return l.widest
}

// below returns a lower bound of the gap to any point of the block.
func (b *block) below(axis r3.Vec) unit.Angle {
	return unit.Angle(math.Acos(clamp(r3.Dot(b.centre, axis)))) - b.reach
}

func clamp(x float64) float64 { return math.Max(-1, math.Min(1, x)) }
