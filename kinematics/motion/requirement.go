package motion

// Requirement is something a hip is asked to do: all of its paths must be
// free. It is an activity, one criterion of a set, or a recording, made ready
// for one patient.
type Requirement struct {
	Kind       RequirementKind
	Key        string // of the activity, of the set's movement, of the recording
	Set        string // key of the criterion's set
	Name       string // the user's own, "" for one built in
	Risk       Risk
	Open       bool // only asked how far it goes; no target
	Basis      Basis
	Converted  bool // its zero is known (Zero.Converted)
	Source     string
	Paths      []Path
	Continuous bool // its legs are samples of one movement, not movements of their own
}

// RequirementKind is what a requirement was made from.
type RequirementKind int

const (
	OfActivity RequirementKind = iota
	OfCriterion
	OfRecording
)

// Requirement returns the activity made ready for a patient.
func (a Activity) Requirement(s Setting) Requirement {
	return Requirement{
		Kind: OfActivity, Key: a.Key, Name: a.Name, Risk: a.Risk, Open: a.Open, Basis: a.Basis(),
		Converted: a.Zero.Converted(), Source: a.Source, Paths: a.Paths(s),
	}
}

// Requirements returns the set's criteria one by one.
func (s CriteriaSet) Requirements() []Requirement {
	list := make([]Requirement, len(s.Criteria))
	for i, c := range s.Criteria {
		list[i] = Requirement{
			Kind: OfCriterion, Key: c.Movement.Key(), Set: s.Key, Name: s.Name, Risk: c.Movement.Risk(),
			Basis: c.Least.Basis, Converted: s.Zero.Converted(), Source: s.Source,
			Paths: []Path{c.Path(s.Zero.plane(s.Zero.Plane))},
		}
	}
	return list
}
