package kinematics

import (
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// ZoneKind is what a published zone bounds.
type ZoneKind int

const (
	BoxZone      ZoneKind = iota // inclination and anteversion of the cup
	CombinedZone                 // cup anteversion plus a share of stem anteversion
	LineZone                     // cup anteversion on a line of stem anteversion
)

// Zone is a published target for cups. Key names it; Source is the key of the
// words on where it comes from. Basis is that of its numbers; Stated is that of
// the definition and plane in which they are read, which papers often leave
// open.
type Zone struct {
	Key         string
	Kind        ZoneKind
	Definition  hip.Definition
	Plane       hip.Plane
	Inclination Range // zero: not bounded
	Anteversion Range // of the cup, or combined
	StemShare   float64
	Basis       motion.Basis
	Stated      motion.Basis
	Source      string
	// Doubt is the key of the words on evidence against it, "" for none.
	Doubt string
}

// Zones are the published zones. None is a promise: see Doubt, and Seagrave et
// al., Acta Orthop 2017;88:10-17, who found none justified by the data.
var Zones = []Zone{
	// Lewinnek 1978: 40 ± 10 and 15 ± 10 (quoted in Bosker 2007); usually read
	// as radiographic, of the APP (from memory).
	{Key: "lewinnek", Inclination: spanOf(30, 50), Anteversion: spanOf(5, 25), Plane: hip.APP,
		Basis: motion.Quoted, Stated: motion.Memory, Source: "source_lewinnek", Doubt: "doubt_seagrave"},
	// Callanan et al., Clin Orthop Relat Res 2011;469:319-329 (abstract): 30-45
	// and 5-25; read off radiographs (plane from memory).
	{Key: "callanan", Inclination: spanOf(30, 45), Anteversion: spanOf(5, 25), Plane: hip.Supine,
		Basis: motion.Found, Stated: motion.Memory, Source: "source_callanan", Doubt: "doubt_seagrave"},
	// Danoff et al., J Arthroplasty 2016;31:506: about 30-50 and 10-25.
	{Key: "danoff", Inclination: spanOf(30, 50), Anteversion: spanOf(10, 25), Plane: hip.Supine,
		Basis: motion.Memory, Stated: motion.Memory, Source: "source_danoff_memory", Doubt: "doubt_seagrave"},
	// Widmer & Zurfluh, J Orthop Res 2004;22:815-821: 40-45 and 20-28 (from
	// memory), for a stem of about 15°.
	{Key: "widmer_box", Inclination: spanOf(40, 45), Anteversion: spanOf(20, 28), Plane: hip.APP,
		Basis: motion.Memory, Stated: motion.Memory, Source: "source_widmer_memory"},
	// The same: radiographic anteversion + 0.7 stem anteversion = 37.3 at an
	// inclination of 40-45 (quoted in J Orthop Surg Res 2022 and Arthroplasty
	// 2024).
	{Key: "widmer_line", Kind: LineZone, Inclination: spanOf(40, 45), Anteversion: spanOf(37.3, 37.3), StemShare: 0.7, Plane: hip.APP,
		Basis: motion.Quoted, Stated: motion.Memory, Source: "source_widmer"},
	// Combined anteversion, Dorr: 25-45 (quoted; +5 in women; 25-50 is also
	// used). Which cup anteversion is meant differs between texts.
	{Key: "dorr", Kind: CombinedZone, Anteversion: spanOf(25, 45), StemShare: 1, Plane: hip.APP, Definition: hip.ByAnatomy,
		Basis: motion.Quoted, Stated: motion.Memory, Source: "source_dorr", Doubt: "doubt_mixed_definitions"},
	// Combined anteversion, Nakashima: 40-60, dislocation 6.9 times as often
	// outside (quoted).
	{Key: "nakashima", Kind: CombinedZone, Anteversion: spanOf(40, 60), StemShare: 1, Plane: hip.APP, Definition: hip.ByAnatomy,
		Basis: motion.Quoted, Stated: motion.Memory, Source: "source_nakashima", Doubt: "doubt_mixed_definitions"},
	// Combined anteversion by Ranawat's test at operation: 25-45.
	{Key: "ranawat", Kind: CombinedZone, Anteversion: spanOf(25, 45), StemShare: 1, Plane: hip.APP, Definition: hip.ByAnatomy,
		Basis: motion.Memory, Stated: motion.Memory, Source: "source_ranawat_memory", Doubt: "doubt_mixed_definitions"},
}

func spanOf(least, most float64) Range {
	return Range{unit.Angle(least) * unit.Degree, unit.Angle(most) * unit.Degree}
}

// Spot is a point of a map of cup positions or versions.
type Spot struct{ Across, Up unit.Angle }

// cupAnteversion returns the range of cup anteversion that the zone leaves with
// a stem.
func (z Zone) cupAnteversion(stem unit.Angle) Range {
	shift := unit.Angle(z.StemShare) * stem
	return Range{z.Anteversion.Least - shift, z.Anteversion.Most - shift}
}

// outlineSteps is how many points an edge of an outline has.
const outlineSteps = 24

// Outline returns the zone's edge on a map of cup positions, inclination across
// and anteversion up, as a closed sequence of points in another definition and
// plane, with a stem of the given anteversion. Edges bend when the definition
// changes, so each has many points. A zone that bounds no inclination runs over
// all the given one.
func (z Zone) Outline(t hip.Tilts, stem unit.Angle, d hip.Definition, p hip.Plane, inclination Range) []Spot {
	is, as := z.Inclination.Within(inclination), z.cupAnteversion(stem)
	corners := [5]Spot{{is.Least, as.Least}, {is.Most, as.Least}, {is.Most, as.Most}, {is.Least, as.Most}, {is.Least, as.Least}}
	turn := t.APPFromPlane(p).Inverse().Mul(t.APPFromPlane(z.Plane))
	list := make([]Spot, 0, 4*outlineSteps)
	for k := range 4 {
		a, b := corners[k], corners[k+1]
		for s := range outlineSteps {
			f := unit.Angle(s) / outlineSteps
			n := turn.Apply(hip.AxisBy(z.Definition, a.Across+f*(b.Across-a.Across), a.Up+f*(b.Up-a.Up)))
			i, v := hip.AnglesBy(d, n)
			list = append(list, Spot{i, v})
		}
	}
	return list
}

// VersionOutline returns the zone's edge on a map of cup anteversion across and
// stem anteversion up, at a fixed inclination of the map's definition and
// plane. ok is false for a zone whose inclination does not hold the cup at any
// of them, and for those that bound no combination.
func (z Zone) VersionOutline(t hip.Tilts, d hip.Definition, p hip.Plane, inclination unit.Angle, stem Range) (list []Spot, ok bool) {
	edge := func(stem unit.Angle, most bool) {
		v := z.cupAnteversion(stem)
		want := v.Least
		if most {
			want = v.Most
		}
		a, held := z.anteversionAt(t, d, p, inclination, want)
		ok = ok || held
		list = append(list, Spot{a, stem})
	}
	for s := range outlineSteps + 1 {
		edge(stem.Least+unit.Angle(s)/outlineSteps*(stem.Most-stem.Least), false)
	}
	for s := range outlineSteps + 1 {
		edge(stem.Most-unit.Angle(s)/outlineSteps*(stem.Most-stem.Least), true)
	}
	return list, ok
}

// anteversionAt returns the anteversion, in a map's definition and plane at a
// given inclination, at which the cup has an anteversion of the zone's own
// definition; and whether the zone's inclination holds it.
func (z Zone) anteversionAt(t hip.Tilts, d hip.Definition, p hip.Plane, inclination, want unit.Angle) (unit.Angle, bool) {
	turn := t.APPFromPlane(z.Plane).Inverse().Mul(t.APPFromPlane(p))
	own := func(a unit.Angle) (unit.Angle, unit.Angle) {
		return hip.AnglesBy(z.Definition, turn.Apply(hip.AxisBy(d, inclination, a)))
	}
	// The zone's anteversion rises with the map's.
	lo, hi := -85*unit.Degree, 85*unit.Degree
	for range 60 {
		a := (lo + hi) / 2
		if _, v := own(a); v < want {
			lo = a
		} else {
			hi = a
		}
	}
	i, _ := own(lo)
	return lo, z.Inclination.excess(i) < 1e-9
}

// Holds reports whether a zone holds a cup placed in a hip, with a stem of the
// given anteversion. A line holds what lies on it within a degree.
func (z Zone) Holds(h Hip, c Cup, stem unit.Angle) bool {
	own := h.Restated(c, z.Definition, z.Plane)
	v := z.cupAnteversion(stem)
	if z.Kind == LineZone {
		v.Least, v.Most = v.Least-unit.Degree, v.Most+unit.Degree
	}
	return z.Inclination.excess(own.Inclination) <= 0 && own.Anteversion >= v.Least && own.Anteversion <= v.Most
}
