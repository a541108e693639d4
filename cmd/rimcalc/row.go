package main

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// question is a row of a sweep, understood.
type question struct {
	hip      kinematics.Hip
	design   kinematics.Design
	movement kinematics.Movement
	start    hip.Posture
	end      unit.Angle
}

// rowReader reads the cells of one row and collects what is wrong.
type rowReader struct {
	columns
	row        []string
	complaints []complaint
}

func (r *rowReader) wrong(name, format string, args ...any) {
	r.complaints = append(r.complaints, complaint{name, r.text(name), fmt.Sprintf(format, args...)})
}

func (r *rowReader) text(name string) string { return r.cell(r.row, name) }

// scale is a range of a number with its unit.
type scale struct {
	min, max float64
	above    bool // min itself is not allowed
	unit     string
}

// Ranges are those in which the formulas have a meaning, far wider than any
// implant's.
var (
	diameters = scale{0, 200, true, " mm"}
	lengths   = scale{0, 300, false, " mm"}
	shifts    = scale{-100, 100, false, " mm"}
	turns     = scale{-360, 360, false, " degrees"}
	tilts     = scale{-90, 90, false, " degrees"}
	shafts    = scale{0, 180, false, " degrees"}
	arcs      = scale{0, 360, true, " degrees"}
	lips      = scale{-90, 90, false, " degrees"}
	widths    = scale{0, 360, false, " degrees"}
)

func (s scale) holds(v float64) bool { return v >= s.min && v <= s.max && !(s.above && v == s.min) }

func (s scale) String() string {
	low := "from " + present.Shortest(s.min, 5)
	if s.above {
		low = "above " + present.Shortest(s.min, 5) + ", up"
	}
	return low + " to " + present.Shortest(s.max, 5) + s.unit
}

// number reads a cell that may be empty, which is 0.
func (r *rowReader) number(name string, s scale) float64 {
	if r.text(name) == "" {
		return 0
	}
	return r.needed(name, s)
}

// needed reads a cell that must have a value.
func (r *rowReader) needed(name string, s scale) float64 {
	text := r.text(name)
	v, err := strconv.ParseFloat(text, 64)
	if strings.Trim(text, "+-.0123456789eE") != "" || err != nil || math.IsNaN(v) || math.IsInf(v, 0) || !s.holds(v) {
		r.wrong(name, "must be a number %s%s", s, commaHint(text))
		return 0
	}
	return v + 0
}

func commaHint(text string) string {
	if strings.Count(text, ",") == 1 && strings.Trim(text, "+-,0123456789") == "" {
		return ", with a decimal point"
	}
	return ""
}

func (r *rowReader) angle(name string, s scale) unit.Angle {
	return unit.Angle(r.number(name, s)) * unit.Degree
}

func (r *rowReader) neededAngle(name string, s scale) unit.Angle {
	return unit.Angle(r.needed(name, s)) * unit.Degree
}

// word reads one of a few words, passing over case.
func (r *rowReader) word(name string, words ...string) int {
	i := slices.IndexFunc(words, func(w string) bool { return strings.EqualFold(w, r.text(name)) })
	if i < 0 {
		r.wrong(name, "must be one of %s", strings.Join(words, ", "))
		return 0
	}
	return i
}

// given reports whether any of the columns has a value other than zero.
func (r *rowReader) given(names ...string) bool {
	return slices.ContainsFunc(names, func(name string) bool {
		v, err := strconv.ParseFloat(r.text(name), 64)
		return r.text(name) != "" && (err != nil || v != 0)
	})
}

// question reads the whole row.
func (r *rowReader) question() question {
	q := question{
		hip: kinematics.Hip{Side: hip.Right, CupPlane: hip.APP, PosturePlane: hip.APP},
		design: kinematics.Design{
			Rim:  r.rim(),
			Neck: r.neck(),
			Cup:  kinematics.Cup{Inclination: r.neededAngle("ri", turns), Anteversion: r.neededAngle("ra", tilts)},
			Stem: hip.Stem{Anteversion: r.neededAngle("fa", turns), NeckShaft: r.neededAngle("ccd", shafts)},
		},
		start: hip.Posture{
			Flexion: r.angle("flex", turns), Adduction: r.angle("add", turns), InternalRotation: r.angle("ir", turns),
		},
	}
	if r.text("side") != "" && r.word("side", "R", "L", "right", "left")%2 == 1 {
		q.hip.Side = hip.Left
	}
	q.movement = kinematics.Movement(r.word("motion", movementWords()...))
	q.end = r.neededAngle("end", turns)
	if len(r.complaints) == 0 {
		r.relations(q)
	}
	return q
}

func movementWords() []string {
	words := make([]string, kinematics.MovementCount)
	for m := range kinematics.MovementCount {
		words[m] = present.MovementKey(m)
	}
	return words
}

func (r *rowReader) rim() implant.Rim {
	rim := implant.Rim{
		HeadDiameter: r.needed("head_d", diameters),
		Arc:          r.neededAngle("arc", arcs),
		Wall:         r.number("wall", lengths),
		Inset:        r.number("inset", shifts),
	}
	if r.given("lip_h", "lip_c", "lip_w", "lip_r") {
		lip := implant.Lip{Height: r.neededAngle("lip_h", lips), Centre: r.neededAngle("lip_c", turns),
			Plateau: r.angle("lip_w", widths), Ramp: r.angle("lip_r", widths)}
		if lip.Height < 0 {
			lip.Height = -lip.Height
			rim.Notch = lip
		} else {
			rim.Lips[0] = lip
		}
	}
	return rim
}

func (r *rowReader) neck() implant.Neck {
	var n implant.Neck
	round, taper := r.given("neck_d"), r.given("tap_d0", "tap_s0", "tap_d1", "tap_s1")
	oval := r.given("oval_a", "oval_b", "oval_roll")
	switch {
	case oval && taper:
		r.wrong(r.firstGiven("tap_d0", "tap_s0", "tap_d1", "tap_s1"), "must be empty: an oval neck (oval_a, oval_b) has no taper")
	case oval && round:
		r.wrong("neck_d", "must be empty where oval_a and oval_b give the neck")
	case taper && round:
		r.wrong("neck_d", "must be empty where tap_d0, tap_s0, tap_d1 and tap_s1 give the neck")
	case oval:
		n.Oval = implant.Oval{Width: r.needed("oval_a", diameters), Depth: r.needed("oval_b", diameters), Roll: r.angle("oval_roll", turns)}
	case taper:
		n.Taper = implant.Taper{StartDiameter: r.needed("tap_d0", diameters), Start: r.needed("tap_s0", lengths),
			EndDiameter: r.needed("tap_d1", diameters), End: r.needed("tap_s1", lengths)}
	default:
		n.Diameter = r.needed("neck_d", diameters)
	}
	if r.given("skirt_d", "skirt_l") {
		n.Skirt = implant.Skirt{Diameter: r.needed("skirt_d", diameters), Length: r.needed("skirt_l", lengths)}
	}
	return n
}

func (r *rowReader) firstGiven(names ...string) string {
	for _, name := range names {
		if r.given(name) {
			return name
		}
	}
	return names[0]
}

// relations checks values, each of which is in its own range, against others.
func (r *rowReader) relations(q question) {
	r.widths(q.design)
	r.openings(q.design)
	angle, sign := q.movement.Joint()
	if start := sign * q.start.Angle(angle); q.end < start {
		r.wrong("end", "must be at least the start, %s degrees counted as %s",
			present.Shortest(start.Degrees(), 5), r.text("motion"))
	}
}

func (r *rowReader) widths(d kinematics.Design) {
	head := d.Rim.HeadDiameter
	below := func(column string, v float64) {
		if v >= head {
			r.wrong(column, "must be below head_d, %s mm", present.Shortest(head, 5))
		}
	}
	below("neck_d", d.Neck.Diameter)
	below("tap_d0", d.Neck.Taper.StartDiameter)
	below("oval_a", d.Neck.Oval.Width)
	below("oval_b", d.Neck.Oval.Depth)
	below("skirt_d", d.Neck.Skirt.Diameter)
	if t := d.Neck.Taper; t.Present() && !(t.End > t.Start) {
		r.wrong("tap_s1", "must be above tap_s0, %s mm", present.Shortest(t.Start, 5))
	}
	if room := head/2 - widest(d.Neck, head/2); d.Rim.Inset != 0 && len(r.complaints) == 0 && math.Abs(d.Rim.Inset) >= room {
		r.wrong("inset", "must be within %s mm, half of head_d less that of the neck: further out the neck would meet the bearing below its rim",
			present.Shortest(room, 5))
	}
}

// widest returns the greatest half-width of a neck inside a ball about the head
// centre.
func widest(n implant.Neck, ball float64) float64 {
	w := math.Max(n.Widest(), n.Skirt.Diameter) / 2
	if n.Taper.Present() {
		w = math.Max(w, n.Radius(0, ball))
	}
	return w
}

// openings checks the rim's polar angles and that the azimuths which shapes
// refer to are defined.
func (r *rowReader) openings(d kinematics.Design) {
	base := 180*unit.Degree - d.Rim.Arc/2
	if h := d.Rim.Lips[0].Height; h >= base {
		r.wrong("lip_h", "must be below 180 - arc/2, %s degrees", present.Shortest(base.Degrees(), 5))
	}
	if h := d.Rim.Notch.Height; base+h >= 180*unit.Degree {
		r.wrong("lip_h", "must be above -arc/2, %s degrees", present.Shortest((base-180*unit.Degree).Degrees(), 5))
	}
	if !d.Rim.Round() && upright(hip.AxisBy(d.Cup.Definition, d.Cup.Inclination, d.Cup.Anteversion).Y) {
		r.wrong("ri", "must not point the cup straight up or down, where the place of a lip is undefined")
	}
	if !d.Neck.Round() && upright(d.Stem.Axis().Y) {
		r.wrong("ccd", "must not point the neck along the shaft, where the roll of an oval is undefined")
	}
}

// upright reports whether a unit vector with that Y is parallel to Y.
func upright(y float64) bool { return math.Abs(y) > 1-1e-12 }

func countText(got, want int) string {
	return fmt.Sprintf("%d cells where the header has %d", got, want)
}
