package casefile

import (
	"fmt"
	"strconv"
	"unicode/utf8"

	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
	"rimclear/kinematics/unit"
)

// recordings writes the list; without any, nothing.
func (w *writer) recordings(list []Recording) {
	if len(list) == 0 {
		return
	}
	w.key(recordingsField)
	w.open("[")
	for _, r := range list {
		w.next()
		w.open("{")
		w.recording(r)
		w.close("}")
	}
	w.close("]")
}

func (w *writer) recording(r Recording) {
	w.field("key", text(r.Key))
	w.field("name", text(r.Name))
	w.field("risk", text(r.Risk.Key()))
	w.field("zero", text(r.Zero.Reference.Key()))
	w.field("zero_plane", text(motion.PlaneKeys[r.Zero.Plane]))
	w.field("zero_basis", text(r.Zero.Basis.Key()))
	w.field("mechanical_axis", strconv.FormatBool(r.Mechanical))
	w.key("mapping")
	w.open("{")
	w.mapping(r.Mapping)
	w.close("}")
	w.others(r.Others)
	w.numbers("time_s", len(r.Times), func(i int) float64 { return r.Times[i] })
	for a, name := range angleFields {
		w.numbers(name+"_deg", len(r.Postures), func(i int) float64 { return degrees(r.Postures[i].Angle(hip.JointAngle(a))) })
	}
}

func (w *writer) mapping(m motion.Mapping) {
	w.field("time_column", text(m.Time.Column))
	w.field("time_unit", text(timeUnits[m.Time.Unit]))
	w.field("samples_hz", number(m.Time.Rate))
	w.field("angle_unit", text(angleUnits[m.Unit]))
	for a, name := range angleFields {
		c := m.Channels[a]
		w.field(name+"_column", text(c.Column))
		w.field(name+"_negated", strconv.FormatBool(c.Negative))
		w.field(name+"_offset_deg", number(degrees(c.Offset)))
	}
}

// numbers writes a list on one line, to the grain of the file.
func (w *writer) numbers(key string, n int, at func(i int) float64) {
	w.key(key)
	w.WriteByte('[')
	b := w.AvailableBuffer()
	for i := range n {
		if i > 0 {
			b = append(b, ',', ' ')
		}
		b = strconv.AppendFloat(b, rounded(at(i)), 'f', grainDigits, 64)
		b = trimmed(b)
	}
	w.Write(b)
	w.WriteByte(']')
}

// grainDigits are the digits after the point that grains leave.
const grainDigits = 9

// trimmed takes the zeros at the end of a number with a point, and the point.
func trimmed(b []byte) []byte {
	for b[len(b)-1] == '0' {
		b = b[:len(b)-1]
	}
	if b[len(b)-1] == '.' {
		b = b[:len(b)-1]
	}
	return b
}

// refuseRecordings returns what Decode would not take back of the recordings.
func refuseRecordings(all []Recording) (list Problems) {
	if n := len(all); n > MaxRecordings {
		return Problems{{Field: recordingsField, Value: fmt.Sprint(n), Must: fmt.Sprintf("must be at most %d recordings", MaxRecordings)}}
	}
	keys := map[string]bool{}
	for i, r := range all {
		if keys[r.Key] {
			list = append(list, Problem{Field: recordingField(i) + ".key", Value: quoted([]byte(r.Key)), Must: "must not be the key of another recording"})
		}
		keys[r.Key] = true
		list = append(list, refuseRecording(recordingField(i), r)...)
	}
	return list
}

func refuseRecording(prefix string, r Recording) (list Problems) {
	wrong := func(field, value, must string) {
		list = append(list, Problem{Field: prefix + "." + field, Value: value, Must: must})
	}
	if !isKey(r.Key) {
		wrong("key", quoted([]byte(r.Key)), mustBeKey)
	}
	m := r.Mapping
	line := func(field, s string, most int) {
		if !utf8.ValidString(s) || !printable(s) || utf8.RuneCountInString(s) > most {
			wrong(field, quoted([]byte(s)), "must be one line of at most "+strconv.Itoa(most)+" characters")
		}
	}
	line("name", r.Name, MaxName)
	line("mapping.time_column", m.Time.Column, MaxLabel)
	for a, c := range m.Channels {
		line("mapping."+angleFields[a]+"_column", c.Column, MaxLabel)
	}
	if !(m.Time.Rate >= 0 && m.Time.Rate <= mostRate) {
		wrong("mapping.samples_hz", "", fmt.Sprintf("must be a number from 0 to %g", mostRate))
	}
	for a, c := range m.Channels {
		if !(c.Offset.Abs() <= motion.Range(hip.JointAngle(a))+unit.Angle(slack)) {
			wrong("mapping."+angleFields[a]+"_offset_deg", "", "must be within the range of the angle")
		}
	}
	if field, must := r.fault(); must != "" {
		wrong(field, "", must)
	}
	return list
}
