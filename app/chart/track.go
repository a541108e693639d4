package chart

import (
	"math"

	"rimclear/app/figure"
	"rimclear/app/present"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// Motion is a motion to be drawn on the rim, with the name by which the reader
// knows it.
type Motion struct {
	Name string
	Path motion.Path
}

// rimQuestions are the limits drawn on the rim where no motions are given.
var rimQuestions = []string{"flexion", "extension", "abduction", "adduction", "internal_at_90", "external_at_0"}

// listed returns how many lines the list of the tracks has.
func (r *rimChart) listed() int {
	if len(r.Motions) > 0 {
		return len(r.Motions)
	}
	return len(rimQuestions)
}

// track is the way of the neck axis over the clock until the end of a motion
// or its first contact.
type track struct {
	name, reading string
	grey          bool // contact beyond the native passive range
	stops         bool
	azimuth       unit.Angle // of the contact on the rim
	pieces        []trackPiece
}

// trackPiece is a stretch of a track that is close to contact, or is not.
type trackPiece struct {
	close bool
	line  []figure.Point // on the surface
}

// follow returns the tracks of the active design.
func (r *rimChart) follow() []track {
	j, ok := r.active()
	if !ok {
		return nil
	}
	var list []track
	for _, m := range r.Motions {
		list = append(list, r.trackOf(j, m))
	}
	if len(list) > 0 {
		return list
	}
	c := kinematics.Case{Hip: r.Hip}
	for _, key := range rimQuestions {
		for _, q := range kinematics.Questions {
			if q.Key != key {
				continue
			}
			a := j.Answer(r.Hip, q)
			row := r.look.Words.Row(&c, a)
			t := track{name: r.look.question(q), reading: row.Reading, grey: row.Grey}
			t.stops = present.StatusKey(a) == "limit"
			t.azimuth = a.Limit.Contact.Azimuth
			t.pieces, _ = r.pieces(j, a.Path, a.Limit.At)
			list = append(list, t)
		}
	}
	return list
}

// question returns a short name of a limit: "internal rotation at 90°".
func (l Look) question(q kinematics.Question) string {
	name := l.Words.Movement(q.Movement)
	if a, _ := q.Movement.Joint(); a != hip.InternalRotation {
		return name
	}
	return l.Phrase("chart_rotation_at", "movement", name, "angle", unsignedLabel(q.Flexion.Degrees()))
}

// trackOf follows a motion that the caller asked for.
func (r *rimChart) trackOf(j kinematics.Joint, m Motion) track {
	l := j.Limit(m.Path)
	t := track{name: m.Name, stops: l.Status != kinematics.Free, azimuth: l.Contact.Azimuth}
	var least unit.Angle
	t.pieces, least = r.pieces(j, m.Path, l.At)
	t.reading = r.look.Phrase("chart_margin", "angle", r.look.Words.Degrees(least))
	if t.stops {
		t.reading = r.look.Words.Clock(t.azimuth)
	}
	return t
}

// pieces cuts a path, up to a place, into stretches that are close to contact
// and stretches that are not, and returns the least margin met. It looks every
// degree.
func (r *rimChart) pieces(j kinematics.Joint, m motion.Path, until motion.Place) (list []trackPiece, least unit.Angle) {
	least = unit.Angle(math.Inf(1))
	var last figure.Point
	for _, at := range stations(m, until) {
		pose := inCup(j, m.At(at), m.Zero)
		margin := j.Aperture.Margin(pose)
		least = min(least, margin)
		p := r.place(pose.Axis)
		if n := len(list); n == 0 || list[n-1].close != (margin < near) {
			piece := trackPiece{close: margin < near}
			if n > 0 {
				piece.line = append(piece.line, last)
			}
			list = append(list, piece)
		}
		n := len(list) - 1
		list[n].line = append(list[n].line, p)
		last = p
	}
	return list, least
}

// stations returns places of a path, a degree apart or less, up to one of them.
func stations(m motion.Path, until motion.Place) []motion.Place {
	if m.Legs() == 0 {
		return []motion.Place{{}}
	}
	list := []motion.Place{{}}
	for leg := 0; leg <= until.Leg; leg++ {
		end := 1.0
		if leg == until.Leg {
			end = until.Fraction
		}
		n := int(math.Ceil(end * turn(m.Waypoints[leg], m.Waypoints[leg+1]).Degrees()))
		for i := 1; i <= n; i++ {
			list = append(list, motion.Place{Leg: leg, Fraction: end * float64(i) / float64(n)})
		}
	}
	return list
}

// turn bounds the rotation from one posture to another.
func turn(a, b hip.Posture) unit.Angle {
	sum := unit.Angle(0)
	for _, k := range jointAngles {
		sum += (b.Angle(k) - a.Angle(k)).Abs()
	}
	return sum
}
