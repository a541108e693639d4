package evidence

import (
	"bytes"

	"rimclear/app/session"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/motion"
)

// Doubt is something in the program's data that is from memory or assumed.
// Basis is that of its values; Zero, where known to be doubtful, that of what
// its angles are counted from.
type Doubt struct {
	Kind      Kind
	Key       string // within its kind
	Basis     motion.Basis
	Zero      motion.Basis // motion.Own where it is not in doubt
	Source    string       // as written in the data, or
	SourceKey string       // the key of its words
}

// Kind is where in the program's data a doubt stands.
type Kind int

const (
	OfActivity Kind = iota
	OfCriteria
	OfBearing
	OfZone
	OfScatter
	OfLoad
	OfTotal
	OfMobility
	KindCount
)

// kindKeys name the kinds in files and find their words.
var kindKeys = [KindCount]string{"activity", "criteria", "bearing", "zone", "scatter", "load", "total", "mobility"}

// Key returns the word for the kind in files.
func (k Kind) Key() string { return kindKeys[k] }

// doubts lists all that is from memory or assumed in what comes with the
// program.
func doubts() []Doubt {
	var all []Doubt
	add := func(d Doubt) {
		if !d.Zero.Doubtful() {
			d.Zero = motion.Own
		}
		if d.Basis.Doubtful() || d.Zero.Doubtful() {
			all = append(all, d)
		}
	}
	library := session.BuiltIn()
	for _, a := range library.Activities {
		add(Doubt{Kind: OfActivity, Key: a.Key, Basis: a.Basis(), Zero: a.Zero.Basis, Source: a.Source})
	}
	for _, s := range library.Criteria {
		add(Doubt{Kind: OfCriteria, Key: s.Key, Basis: s.Basis(), Zero: s.Zero.Basis, Source: s.Source})
	}
	for _, b := range catalogue() {
		add(Doubt{Kind: OfBearing, Key: b.Key, Basis: b.Basis(), Source: b.Source})
	}
	for _, z := range kinematics.Zones {
		add(Doubt{Kind: OfZone, Key: z.Key, Basis: z.Basis, Zero: z.Stated, SourceKey: z.Source})
	}
	for _, s := range kinematics.ScatterPresets {
		add(Doubt{Kind: OfScatter, Key: s.Key, Basis: s.Basis, SourceKey: s.Source})
	}
	for _, l := range kinematics.Loads {
		add(Doubt{Kind: OfLoad, Key: l.Key, Basis: l.Basis, SourceKey: l.Source})
	}
	for _, t := range kinematics.NewJoint(kinematics.Hip{}, usual()).Totals() {
		add(Doubt{Kind: OfTotal, Key: t.Key, Basis: t.Basis, SourceKey: t.Source})
	}
	for m := range motion.MobilityCount {
		add(Doubt{Kind: OfMobility, Key: m.Key(), Basis: m.Change().Basis})
	}
	return all
}

// catalogue is all bearings that come with the program.
func catalogue() []kinematics.Bearing {
	var all []kinematics.Bearing
	for _, data := range assets.Bearings() {
		list, err := kinematics.ReadCatalogue(bytes.NewReader(data))
		if err != nil {
			panic(err) // it is built in
		}
		all = append(all, list...)
	}
	return all
}
