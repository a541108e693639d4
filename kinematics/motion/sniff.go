package motion

import (
	"strings"

	"rimclear/kinematics/hip"
)

// Guess is a mapping proposed from the headings and values of a table, for the
// user to confirm: signs and zero can only be declared.
type Guess struct {
	Mapping
	UnitStated bool // the table says degrees or radians; otherwise its values were looked at
	Complete   bool // time and all three joint angles were found
}

// Sides returns the sides of which the table has hip angles by its headings;
// none where the headings name no side.
func (t *Table) Sides() []hip.Side {
	var list []hip.Side
	for _, side := range []hip.Side{hip.Right, hip.Left} {
		for _, name := range t.Columns {
			if h := heard(name); h.joint >= 0 && h.sided && h.side == side {
				list = append(list, side)
				break
			}
		}
	}
	return list
}

// Guess proposes a mapping for one side.
func (t *Table) Guess(side hip.Side) Guess {
	g := Guess{Mapping: Mapping{
		Time:       TimeColumn{Rate: 100},
		Zero:       Zero{Reference: RecordingReference, Basis: Assumed},
		Mechanical: true,
	}}
	g.time(t)
	found := 0
	for k := range g.Channels {
		if name, negative, ok := t.channel(hip.JointAngle(k), side); ok {
			g.Channels[k] = Channel{Column: name, Negative: negative}
			found++
		}
	}
	g.Complete = found == 3 && g.Time.Column != ""
	g.unit(t)
	return g
}

// channel returns the column that by its heading holds a joint angle of a
// side; one that names the hip before one that does not.
func (t *Table) channel(joint hip.JointAngle, side hip.Side) (name string, negative, found bool) {
	named := false
	for _, c := range t.Columns {
		h := heard(c)
		if h.joint != int(joint) || h.sided && h.side != side || h.elsewhere || found && (named || !h.hip) {
			continue
		}
		name, negative, named, found = c, h.negative, h.hip, true
	}
	return name, negative, found
}

// heading is what a heading says.
type heading struct {
	joint     int // -1 for none
	negative  bool
	hip       bool
	elsewhere bool // another joint
	sided     bool
	side      hip.Side
}

// heard reads a heading such as "hip_flexion_r_deg", "Right Hip Ext Rot (°)" or
// "Hüfte Außenrotation rechts". Letters outside a to z part words.
func heard(name string) heading {
	words := strings.FieldsFunc(strings.ToLower(name), func(c rune) bool {
		return !(c >= 'a' && c <= 'z')
	})
	h := heading{joint: -1}
	has := func(starts ...string) bool {
		for _, w := range words {
			for _, s := range starts {
				if strings.HasPrefix(w, s) {
					return true
				}
			}
		}
		return false
	}
	is := func(word ...string) bool {
		for _, w := range words {
			for _, s := range word {
				if w == s {
					return true
				}
			}
		}
		return false
	}
	h.hip = has("hip", "hueft", "fte")
	h.elsewhere = has("knee", "ankle", "lumbar", "pelvis", "arm", "elbow", "wrist", "shoulder", "neck", "subtalar", "mtp", "trunk", "thorax", "foot",
		"knie", "sprung", "becken", "rumpf", "schulter", "ellbogen", "fuss")
	switch {
	case is("r", "right", "rt", "rechts", "re"):
		h.sided, h.side = true, hip.Right
	case is("l", "left", "lt", "links", "li"):
		h.sided, h.side = true, hip.Left
	}
	outwards := has("aussenrot", "enrot")
	rotation := outwards || has("rot", "innenrot")
	switch {
	case rotation && (outwards || has("ext")):
		h.joint, h.negative = int(hip.InternalRotation), true
	case rotation:
		h.joint = int(hip.InternalRotation)
	case has("flex"):
		h.joint = int(hip.Flexion)
	case has("exten"), is("ext"):
		h.joint, h.negative = int(hip.Flexion), true
	case has("abd"):
		h.joint, h.negative = int(hip.Adduction), true
	case has("add"):
		h.joint = int(hip.Adduction)
	}
	return h
}

// time finds the column of time.
func (g *Guess) time(t *Table) {
	for _, name := range t.Columns {
		low := strings.ToLower(name)
		switch {
		case strings.HasPrefix(low, "time") || strings.HasPrefix(low, "zeit") || low == "t" || strings.HasPrefix(low, "t ") || strings.HasPrefix(low, "t_"):
			g.Time.Column = name
			if strings.Contains(strings.TrimPrefix(low, "time"), "ms") || strings.Contains(low, "milli") {
				g.Time.Unit = InMilliseconds
			}
			return
		case strings.HasPrefix(low, "frame") || strings.HasPrefix(low, "sample"):
			g.Time.Column, g.Time.Unit = name, InSamples
		}
	}
}

// unit finds the unit of the angles: by a heading, by the lines above, or by
// the values, of which none exceeds a third of a turn in radians.
func (g *Guess) unit(t *Table) {
	for _, c := range g.Channels {
		switch low := strings.ToLower(c.Column); {
		case strings.Contains(low, "deg") || strings.Contains(low, "°"):
			g.UnitStated = true
			return
		case strings.Contains(low, "rad"):
			g.Unit, g.UnitStated = InRadians, true
			return
		}
	}
	for _, line := range t.Above {
		low := strings.ToLower(line)
		switch degrees, radians := strings.Contains(low, "degree"), strings.Contains(low, "radian"); {
		case strings.Contains(strings.ReplaceAll(low, " ", ""), "indegrees=no"):
			g.Unit, g.UnitStated = InRadians, true
			return
		case degrees != radians:
			g.UnitStated = true
			if radians {
				g.Unit = InRadians
			}
			return
		}
	}
	if greatest := g.greatest(t); greatest > 0 && greatest <= 2.2 {
		g.Unit = InRadians
	}
}

// greatest returns the greatest value in the columns of the joint angles.
func (g *Guess) greatest(t *Table) float64 {
	most := 0.0
	for _, c := range g.Channels {
		if c.Column == "" {
			continue
		}
		k, problem := t.column(c.Column)
		if problem != nil {
			continue
		}
		for _, row := range t.Rows {
			if x, err := number(row[k], t.Comma); err == nil {
				most = max(most, x, -x)
			}
		}
	}
	return most
}
