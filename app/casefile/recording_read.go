package casefile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// recordingsField is a list of recordings.
const recordingsField = "recordings"

func recordingField(i int) string { return fmt.Sprintf("%s[%d]", recordingsField, i) }

// Words of the fields that are one of a few, in the order of their types.
var (
	timeUnits  = []string{"seconds", "milliseconds", "samples"}
	angleUnits = []string{"degrees", "radians"}
)

func (r *reader) recordings(top map[string]Member) {
	m, ok := top[recordingsField]
	if !ok {
		return
	}
	starts, isList := r.doc.elements(m.at, MaxRecordings)
	if !isList || len(starts) > MaxRecordings {
		r.wrong(m.at, recordingsField, quoted(m.Value), fmt.Sprintf("must be a list of at most %d recordings", MaxRecordings))
		return
	}
	for i, at := range starts {
		o, ok := r.object(recordingField(i), at, r.doc.value(at))
		if !ok {
			continue
		}
		before := len(r.problems)
		rec := o.recording()
		if r.file.Recording(rec.Key) >= 0 {
			r.wrong(at, o.name("key"), quoted([]byte(rec.Key)), "must not be the key of another recording")
		}
		if len(r.problems) == before {
			r.file.Recordings = append(r.file.Recordings, rec)
		}
	}
}

// object is a JSON object of the file while it is read. Fields that were asked
// for are known; the others are left over.
type object struct {
	*reader
	prefix string
	at     int
	list   []Member
	fields map[string]Member
	known  []string
}

// object opens the object at a byte; a message is left if there is none.
func (r *reader) object(prefix string, at int, raw json.RawMessage) (*object, bool) {
	list, ok := r.doc.members(at)
	if !ok {
		r.wrong(at, prefix, quoted(raw), `must be an object, from "{" to "}"`)
		return nil, false
	}
	return &object{r, prefix, at, list, r.fields(prefix+".", list), nil}, true
}

func (o *object) name(key string) string { return o.prefix + "." + key }

// field returns a field by its key; a message is left if it must be there and
// is not.
func (o *object) field(key string, must bool) (Member, bool) {
	o.known = append(o.known, key)
	m, ok := o.fields[key]
	if !ok && must {
		o.wrong(o.at, o.name(key), "", "must be there")
	}
	return m, ok
}

func (o *object) line(key string, most int, must bool) (s string) {
	if _, ok := o.field(key, must); ok {
		o.text(o.fields, o.prefix+".", key, most, &s)
	}
	return s
}

// word returns the place of a field's word among some, 0 without the field.
func (o *object) word(key string, words []string) int {
	m, ok := o.field(key, false)
	if !ok {
		return 0
	}
	s, _ := textOf(m.Value)
	i := slices.Index(words, s)
	if i < 0 {
		o.wrong(m.at, o.name(key), quoted(m.Value), "must be one of "+strings.Join(words, ", "))
	}
	return max(i, 0)
}

func (o *object) flag(key string) bool {
	m, ok := o.field(key, false)
	s := string(m.Value)
	if ok && s != "true" && s != "false" {
		o.wrong(m.at, o.name(key), quoted(m.Value), "must be true or false")
	}
	return s == "true"
}

func (o *object) number(key string, least, most float64) float64 {
	m, ok := o.field(key, false)
	if !ok {
		return 0
	}
	v, isNumber := numberOf(m.Value)
	if !isNumber || !(v >= least && v <= most) {
		o.wrong(m.at, o.name(key), quoted(m.Value), fmt.Sprintf("must be a number from %g to %g", least, most))
		return 0
	}
	return v
}

func (o *object) numbers(key string) []float64 {
	m, ok := o.field(key, true)
	if !ok {
		return nil
	}
	var list []*float64
	if bytes.Count(m.Value, []byte(",")) >= MaxSamples || json.Unmarshal(m.Value, &list) != nil || slices.Contains(list, nil) {
		o.wrong(m.at, o.name(key), quoted(m.Value), fmt.Sprintf("must be a list of at most %d numbers", MaxSamples))
		return nil
	}
	values := make([]float64, len(list))
	for i, v := range list {
		values[i] = *v
	}
	return values
}

// rest returns the fields that were not asked for.
func (o *object) rest() (others []Member) {
	for _, m := range o.list {
		if !slices.Contains(o.known, m.Key) {
			m.Value = compact(m.Value)
			others = append(others, m)
		}
	}
	return others
}

func (o *object) recording() Recording {
	rec := Recording{Key: o.line("key", mostKey, true), Name: o.line("name", MaxName, true)}
	if m := o.fields["key"]; rec.Key != "" && !isKey(rec.Key) {
		o.wrong(m.at, o.name("key"), quoted(m.Value), mustBeKey)
	}
	rec.Risk = motion.Risk(o.word("risk", motion.RiskKeys))
	rec.Zero = motion.Zero{
		Reference: motion.Reference(o.word("zero", motion.ReferenceKeys)),
		Plane:     hip.Plane(o.word("zero_plane", motion.PlaneKeys)),
		Basis:     motion.Basis(o.word("zero_basis", motion.BasisKeys)),
	}
	rec.Mechanical = o.flag("mechanical_axis")
	if m, ok := o.field("mapping", false); ok {
		if p, ok := o.object(o.name("mapping"), m.at, m.Value); ok {
			rec.Mapping = p.mapping()
		}
	}
	rec.Mapping.Zero, rec.Mapping.Mechanical = rec.Zero, rec.Mechanical
	o.samples(&rec)
	rec.Others = o.rest()
	return rec
}

// samples reads the lists and checks them against each other.
func (o *object) samples(rec *Recording) {
	before := len(o.problems)
	rec.Times = o.numbers("time_s")
	rec.Postures = make([]hip.Posture, len(rec.Times))
	for i, t := range rec.Times {
		rec.Times[i] = rounded(t)
	}
	for a, name := range angleFields {
		list := o.numbers(name + "_deg")
		if len(o.problems) == before && len(list) != len(rec.Times) {
			o.wrong(o.fields[name+"_deg"].at, o.name(name+"_deg"), fmt.Sprintf("%d samples", len(list)),
				fmt.Sprintf("must be as many as in time_s, %d", len(rec.Times)))
		}
		for i := range min(len(list), len(rec.Times)) {
			rec.Postures[i] = rec.Postures[i].With(hip.JointAngle(a), unit.Angle(rounded(list[i]))*unit.Degree)
		}
	}
	if len(o.problems) > before {
		return
	}
	if field, must := rec.fault(); must != "" {
		list, _, _ := strings.Cut(field, "[")
		o.wrong(o.fields[list].at, o.name(field), "", must)
	}
}

func (o *object) mapping() (m motion.Mapping) {
	m.Time.Column = o.line("time_column", MaxLabel, false)
	m.Time.Unit = motion.TimeUnit(o.word("time_unit", timeUnits))
	m.Time.Rate = o.number("samples_hz", 0, mostRate)
	m.Unit = motion.AngleUnit(o.word("angle_unit", angleUnits))
	for a, name := range angleFields {
		c := &m.Channels[a]
		c.Column = o.line(name+"_column", MaxLabel, false)
		c.Negative = o.flag(name + "_negated")
		most := math.Round(motion.Range(hip.JointAngle(a)).Degrees())
		c.Offset = unit.Angle(rounded(o.number(name+"_offset_deg", -most, most))) * unit.Degree
	}
	for _, left := range o.rest() {
		o.wrong(left.at, o.name(quoted([]byte(left.Key))), "", "is not a field of a mapping")
	}
	return m
}

// mostRate bounds the samples per second.
const mostRate = 1e6
