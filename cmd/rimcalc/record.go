package main

import (
	"encoding/csv"
	"encoding/json"
	"io"
	"math"
	"strconv"
	"strings"

	"rimclear/app/casefile"
	"rimclear/app/present"
	"rimclear/kinematics"
)

// limitsRecord is the JSON form of the limits. Angles have five decimals.
type limitsRecord struct {
	Format   string          `json:"format"`
	Version  int             `json:"version"`
	Caution  string          `json:"caution"`
	Warnings []string        `json:"warnings,omitempty"`
	Case     json.RawMessage `json:"case"`
	Designs  []designRecord  `json:"designs"`
}

type designRecord struct {
	Design        string        `json:"design"`
	Name          string        `json:"name"`
	HeadNeckRatio float64       `json:"head_neck_ratio"`
	Oscillation   *float64      `json:"oscillation_deg"` // null where it differs with direction
	Headline      string        `json:"headline"`
	Posture       postureRecord `json:"posture"`
	Limits        []limitRecord `json:"limits"`
}

// postureRecord is where neck and rim are at the case's own posture.
type postureRecord struct {
	Margin    float64 `json:"margin_deg"` // negative in contact
	Clearance float64 `json:"clearance_mm"`
	Clock     float64 `json:"nearest_clock_deg"`
	Text      string  `json:"text"`
}

type limitRecord struct {
	Question     string      `json:"question"`
	Status       string      `json:"status"` // limit, none, contact_at_start, not_reached
	Limit        *float64    `json:"limit_deg"`
	Clock        *float64    `json:"contact_clock_deg"`
	Escape       []string    `json:"escape"`
	EscapeVector *[3]float64 `json:"escape_vector"` // anterior, superior, right of the patient
	StoppedBy    string      `json:"stopped_by,omitempty"`
	StoppedAt    *float64    `json:"stopped_at_deg,omitempty"`
	Native       *float64    `json:"native_range_deg"`
	NativeSource string      `json:"native_source,omitempty"`
	Beyond       bool        `json:"beyond_native"`
}

func (a answers) record() (limitsRecord, error) {
	w := present.English()
	data, err := casefile.Encode(casefile.File{Case: a.c})
	if err != nil {
		return limitsRecord{}, err
	}
	r := limitsRecord{Format: "rimclear-limits", Version: 1, Caution: w.Caution(), Case: data, Warnings: w.Warned(&a.c)}
	for _, d := range a.designs {
		one := designRecord{
			Design: present.Letter(d.index), Name: a.design(d).Name,
			HeadNeckRatio: *rounded(a.design(d).HeadNeckRatio()), Headline: w.Headline(&a.c, d.answers),
			Posture: postureRecord{*rounded(d.posture.Margin.Degrees()), *rounded(d.posture.Clearance),
				*rounded(d.posture.Azimuth.Degrees()), w.Posture(d.posture)},
		}
		if theta, round := d.built.Theta(); round {
			one.Oscillation = rounded(2 * theta.Degrees())
		}
		for _, x := range d.answers {
			one.Limits = append(one.Limits, a.limitRecord(w, x))
		}
		r.Designs = append(r.Designs, one)
	}
	return r, nil
}

func (a answers) limitRecord(w *present.Words, x kinematics.Answer) limitRecord {
	r := limitRecord{
		Question: x.Question.Key, Status: present.StatusKey(x), Beyond: x.BeyondNative(),
		NativeSource: w.Source(x.Question.Native.Source),
	}
	if x.Question.Native.Known() {
		r.Native = rounded(x.Question.Native.Range.Degrees())
	}
	if r.Status == "limit" {
		r.Limit = rounded(x.Reading.Degrees())
	}
	if r.Status != "none" {
		touch := x.Limit.Contact
		r.Clock = rounded(touch.Azimuth.Degrees())
		r.Escape = present.DirectionKeys(touch.Escape)
		v := a.c.Hip.Side.Mirror(touch.Escape)
		r.EscapeVector = &[3]float64{*rounded(v.X), *rounded(v.Y), *rounded(v.Z)}
	}
	if r.Status == "not_reached" {
		m, v := present.Signed(x.Limit.Moving, x.Limit.Angle)
		r.StoppedBy, r.StoppedAt = present.MovementKey(m), rounded(v.Degrees())
	}
	return r
}

// rounded returns x to five decimals.
func rounded(x float64) *float64 {
	x = math.Round(x*1e5)/1e5 + 0
	return &x
}

func (a answers) writeJSON(out io.Writer) error {
	r, err := a.record()
	if err != nil {
		return err
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(r)
}

func (a answers) writeCSV(out io.Writer) error {
	r, err := a.record()
	if err != nil {
		return err
	}
	w := csv.NewWriter(out)
	w.Write([]string{"design", "name", "question", "status", "limit_deg", "contact_clock_deg", "escape",
		"stopped_by", "stopped_at_deg", "native_range_deg", "native_source", "beyond_native", "caution"})
	for _, d := range r.Designs {
		for _, l := range d.Limits {
			w.Write([]string{d.Design, harmless(d.Name), l.Question, l.Status, cell(l.Limit), cell(l.Clock),
				strings.Join(l.Escape, " "), l.StoppedBy, cell(l.StoppedAt), cell(l.Native), l.NativeSource,
				strconv.FormatBool(l.Beyond), r.Caution})
		}
	}
	w.Flush()
	return w.Error()
}

func cell(x *float64) string {
	if x == nil {
		return ""
	}
	return present.Digits(*x, 5)
}
