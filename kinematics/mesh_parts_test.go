package kinematics

import (
	"math"
	"slices"

	"rimclear/kinematics/implant"
)

// The mesh_*_test.go files are a third way to the limits of a motion: cup and
// neck as triangles, which any collision library could take, from the
// definitions of implant alone. They are as exact as their triangles are fine.

// rings joins rows of points, each joined to its neighbour in the row and to
// the next row, into triangles.
type rings struct {
	points []vec3
	faces  [][3]int32
}

// lay adds a band between rows of equally many points; closed rows end where
// they begin.
func (m *rings) lay(rows ...[]vec3) {
	first := int32(len(m.points))
	for _, row := range rows {
		m.points = append(m.points, row...)
	}
	n := int32(len(rows[0]))
	for r := range int32(len(rows) - 1) {
		for i := range n {
			k := (i + 1) % n
			a, b, c, d := first+r*n+i, first+r*n+k, first+(r+1)*n+i, first+(r+1)*n+k
			m.faces = append(m.faces, [3]int32{a, b, c}, [3]int32{b, d, c})
		}
	}
}

// How finely the parts are cut.
const (
	meshTurn = 720 // round the rim and round the neck
	meshRamp = 160 // along each ramp of a lip
	// meshBelow is how many rows the bearing has below the face, half a degree apart.
	meshBelow = 60
)

// meshLips are the features of a rim along its azimuth.
func meshLips(r implant.Rim) []implant.Lip { return []implant.Lip{r.Lips[0], r.Lips[1], r.Notch} }

// meshAzimuths are where the rim is cut, in degrees: equally, finely along
// ramps, and on both sides of a step.
func meshAzimuths(r implant.Rim) []float64 {
	var list []float64
	for i := range meshTurn {
		list = append(list, float64(i)*360/meshTurn)
	}
	for _, l := range meshLips(r) {
		if l.Height == 0 {
			continue
		}
		mid, half, ramp := l.Centre.Degrees(), l.Plateau.Degrees()/2, l.Ramp.Degrees()
		for _, side := range []float64{-1, 1} {
			if ramp == 0 {
				list = append(list, mid+side*(half-1e-6), mid+side*(half+1e-6))
			}
			for k := 0; ramp > 0 && k <= meshRamp; k++ {
				list = append(list, mid+side*(half+ramp*float64(k)/meshRamp))
			}
		}
	}
	for i, a := range list {
		list[i] = a - 360*math.Floor(a/360)
	}
	slices.Sort(list)
	return list
}

// meshRise is how far a feature raises the rim at an azimuth, in degrees.
func meshRise(l implant.Lip, azimuth float64) float64 {
	if l.Height == 0 {
		return 0
	}
	x := azimuth - l.Centre.Degrees()
	x = math.Abs(x - 360*math.Round(x/360))
	past := x - l.Plateau.Degrees()/2
	switch ramp := l.Ramp.Degrees(); {
	case past <= 0:
		return l.Height.Degrees()
	case past < ramp:
		return l.Height.Degrees() * (0.5 + 0.5*math.Cos(math.Pi*past/ramp))
	}
	return 0
}

// cupMesh is the face of the cup and the bearing below: where there is room between
// it and the ball finely, else a hair outside its place, so that its chords never
// stand out. Points are towards the rim's
// superior, its anterior, and out of the cup.
func cupMesh(r implant.Rim) *rings {
	m := &rings{}
	radius, centre := r.HeadDiameter/2, r.Inset
	at := func(azimuth, polar, rho float64) vec3 {
		sa, ca := sincosd(azimuth)
		sp, cp := sincosd(polar)
		return vec3{rho * sp * ca, rho * sp * sa, centre + rho*cp}
	}
	face := func(azimuth float64) float64 {
		return 180 - r.Arc.Degrees()/2 - max(meshRise(r.Lips[0], azimuth), meshRise(r.Lips[1], azimuth)) + meshRise(r.Notch, azimuth)
	}
	var inner, outer []vec3
	for _, a := range meshAzimuths(r) {
		inner = append(inner, at(a, face(a), radius))
		outer = append(outer, at(a, face(a), radius+r.Wall))
	}
	m.lay(inner, outer)
	var rows [][]vec3
	if r.Inset != 0 {
		for k := range meshBelow + 1 {
			var row []vec3
			for i, a := range meshAzimuths(r) {
				row = append(row, inner[i])
				if k > 0 { // not into the ball, in which the neck has no surface
					p := at(a, face(a)+0.5*float64(k), radius)
					row[i] = p.plus(max(1, radius/p.length())-1, p)
				}
			}
			rows = append(rows, row)
		}
		m.lay(rows...)
	}
	const around, down = 48, 12
	rows = nil
	for k := range down + 1 {
		row := make([]vec3, around)
		for i := range row {
			a := float64(i) * 360 / around
			f := face(a) + 2
			row[i] = at(a, f+(180-f)*float64(k)/down, radius*1.01)
		}
		rows = append(rows, row)
	}
	m.lay(rows...)
	return m
}

// neckMesh is the neck from the head centre to far along it. Points are along
// the neck, towards its superior and its anterior.
func neckMesh(n implant.Neck, far float64) *rings {
	m := &rings{}
	section := meshSection(n)
	along := []float64{0, n.Taper.Start, n.Taper.End}
	for x := 0.0; x <= far; x += far / 14 {
		along = append(along, x)
	}
	along = append(along, far)
	slices.Sort(along)
	var rows [][]vec3
	for _, x := range slices.Compact(along) {
		if x > far {
			break
		}
		scale := 1.0
		if t := n.Taper; t.StartDiameter > 0 {
			share := max(0, min(1, (x-t.Start)/(t.End-t.Start)))
			scale = (t.StartDiameter + share*(t.EndDiameter-t.StartDiameter)) / t.StartDiameter
		}
		row := make([]vec3, len(section))
		for i, p := range section {
			row[i] = vec3{x, scale * p[0], scale * p[1]}
		}
		rows = append(rows, row)
	}
	m.lay(rows...)
	if k := n.Skirt; k.Diameter > 0 {
		ring := func(x, r float64) []vec3 {
			row := make([]vec3, meshTurn)
			for i := range row {
				s, c := sincosd(float64(i) * 360 / meshTurn)
				row[i] = vec3{x, r * c, r * s}
			}
			return row
		}
		m.lay(ring(0, k.Diameter/2), ring(k.Length/2, k.Diameter/2), ring(k.Length, k.Diameter/2), ring(k.Length, 0))
	}
	return m
}

// meshSection is the neck's outline across its axis, before any taper: towards
// superior and anterior.
func meshSection(n implant.Neck) []vec2 {
	var outline []vec2
	for i := range meshTurn {
		s, c := sincosd(float64(i) * 360 / meshTurn)
		switch r := (n.Diameter + n.Taper.StartDiameter) / 2; {
		case n.Oval.Width > 0:
			p := rolled(vec2{n.Oval.Width / 2 * c, n.Oval.Depth / 2 * s}, n.Oval.Roll.Degrees())
			outline = append(outline, vec2{p[0] + n.Oval.SuperiorShift, p[1] + n.Oval.AnteriorShift})
		case n.Trapezoid.Width > 0:
			outline = append(outline, rolled(meshTrapezoid(n.Trapezoid, vec2{c, s}), n.Trapezoid.Roll.Degrees()))
		default:
			outline = append(outline, vec2{r * c, r * s})
		}
	}
	if n.Trapezoid.Width > 0 { // its straight sides have their normal in one direction alone
		return slices.CompactFunc(outline, func(a, b vec2) bool { return hypot(a[0]-b[0], a[1]-b[1]) < 1e-9 })
	}
	return outline
}

func rolled(p vec2, degrees float64) vec2 {
	s, c := sincosd(degrees)
	return vec2{p[0]*c - p[1]*s, p[0]*s + p[1]*c}
}

// meshTrapezoid is the point of the rounded trapezoid that lies farthest in a
// direction: the farthest corner of the sides moved inwards, and the rounding.
func meshTrapezoid(t implant.Trapezoid, direction vec2) vec2 {
	// The slanting sides run from (-w/2, inferior/2) to (w/2, superior/2).
	w, up, down := t.Width/2, t.Superior/2, t.Inferior/2
	slope := (up - down) / t.Width // of the side towards +y
	in := t.Corner * hypot(1, slope)
	y := func(x float64) float64 { return (up+down)/2 + slope*x - in }
	best, most := vec2{}, math.Inf(-1)
	for _, x := range []float64{w - t.Corner, -w + t.Corner} {
		for _, side := range []float64{-1, 1} {
			p := vec2{x, side * y(x)}
			if d := p[0]*direction[0] + p[1]*direction[1]; d > most {
				best, most = p, d
			}
		}
	}
	return vec2{best[0] + t.Corner*direction[0], best[1] + t.Corner*direction[1]}
}
