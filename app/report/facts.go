package report

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"sync"

	"rimclear/app/present"
	"rimclear/assets"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// Question is what a report is asked about. A case holds no patient's name, and
// none is asked for.
type Question struct {
	Case     kinematics.Case
	Required []motion.Requirement // made ready for the case's patient
	Lost     []string             // keys of motions of which nothing is known
	Active   int                  // the design looked at
	// Fingerprint is that of the case (see Fingerprint), Program the version of
	// the program; Date, "" for none, is printed as it is. No clock is asked.
	Fingerprint string
	Program     string
	Date        string
	Words       *present.Words // nil means English
	// Weighing gives the local rule and the answer to a question that geometry
	// does not decide; nil, and "", mean not answered.
	Weighing func(key string) (rule, answer string)
}

// Fingerprint returns the SHA-256 of a case as its file is written: equal
// inputs have equal fingerprints.
func Fingerprint(file []byte) string {
	sum := sha256.Sum256(file)
	return hex.EncodeToString(sum[:])
}

// Program returns the version of this program as it was built, the same that
// the window and rimcalc tell of themselves.
func Program() string { return "Rimclear " + assets.Version() }

// Facts are all answers that a report tells.
type Facts struct {
	Question
	Designs []DesignFacts
}

// DesignFacts are the answers on one design.
type DesignFacts struct {
	Index   int
	Design  kinematics.Design
	Joint   kinematics.Joint
	Answers []kinematics.Answer
	Verdict kinematics.Verdict
	Target  kinematics.Target
	AtBest  kinematics.Verdict // with the cup where Target has it
	Map     *kinematics.Map
	Share   kinematics.Share
	Totals  []kinematics.Total

	held []present.Line // how the cup holds the head, as it is printed
}

// Placements are simulated with one seed, so that a report is the same each
// time. Bearings that are not round take some fifty times as long and are tried
// with fewer; the report says how many.
const (
	seed              = 1
	fewPoints         = 64
	fewRandomisations = 8
)

// Work answers the question. The error is the context's, or a scatter that
// cannot be.
func Work(ctx context.Context, q Question) (*Facts, error) {
	if q.Words == nil {
		q.Words = present.English()
	}
	q.Active = min(max(q.Active, 0), max(q.Case.Count-1, 0))
	f := &Facts{Question: q, Designs: make([]DesignFacts, len(q.Case.Active()))}
	// One after the other, a processor would stand idle while the best cup of
	// each is searched for.
	errs := make([]error, len(f.Designs))
	var all sync.WaitGroup
	for i := range f.Designs {
		all.Go(func() { f.Designs[i], errs[i] = q.work(ctx, i) })
	}
	all.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return f, nil
}

func (q Question) work(ctx context.Context, i int) (DesignFacts, error) {
	c, d := &q.Case, q.Case.Designs[i]
	f := DesignFacts{Index: i, Design: d, Joint: kinematics.Assemble(c.Hip, d, aperture.Build(d.Rim, d.Neck)), Map: new(kinematics.Map)}
	s := kinematics.Search{
		Hip: c.Hip, Design: d, Aperture: f.Joint.Aperture, Required: q.Required, Bounds: c.Goal.Bounds(c.Hip, d),
	}
	// The search for the best cup takes one processor, and about as long as all
	// the rest.
	aimed := make(chan error, 1)
	go func() { aimed <- f.aim(ctx, s, c.Goal) }()
	err := f.measure(ctx, q, s)
	return f, errors.Join(err, <-aimed)
}

// measure finds all that holds where the cup is placed, and the map about it.
func (f *DesignFacts) measure(ctx context.Context, q Question, s kinematics.Search) error {
	c := &q.Case
	f.Answers = f.Joint.Answers(c.Hip)
	f.Verdict = f.Joint.Judge(q.Required, c.Goal.Closeness)
	f.Totals = f.Joint.Totals()
	f.held = q.holdLines(f)
	grid := kinematics.PlacementGrid(f.Design.Cup.Definition, c.Hip.CupPlane)
	if err := kinematics.Survey(ctx, *c, f.Index, q.Required, grid, 0, f.Map); err != nil || len(q.Required) == 0 {
		return err
	}
	var err error
	f.Share, err = kinematics.Placement(ctx, simulation(s, c.Goal))
	return err
}

// aim finds the best cup, and how the design would do there.
func (f *DesignFacts) aim(ctx context.Context, s kinematics.Search, g kinematics.Goal) (err error) {
	if len(s.Required) == 0 {
		return nil
	}
	if f.Target, err = kinematics.FindTarget(ctx, s); err != nil {
		return err
	}
	if t := f.Target; t.Asked && t.Fits && t.Reachable {
		best := s.Design
		best.Cup = s.Hip.Restated(t.Constrained.Cup, best.Cup.Definition, s.Hip.CupPlane)
		f.AtBest = kinematics.Assemble(s.Hip, best, s.Aperture).Judge(s.Required, g.Closeness)
	}
	return nil
}

func simulation(s kinematics.Search, g kinematics.Goal) kinematics.Simulation {
	sim := kinematics.Simulation{Search: s, Scatter: g.Scatter(), Seed: seed}
	if _, round := s.Aperture.Theta(); !round {
		sim.Points, sim.Randomisations = fewPoints, fewRandomisations
	}
	return sim
}

// placed returns a design in a posture.
func (f *Facts) placed(i int, p hip.Posture) Placed {
	return placedOf(&f.Case, i, f.Designs[i].Joint, p)
}

// asked reports whether something is required at all.
func (f *Facts) asked() bool {
	return len(f.Designs) > 0 && f.Designs[0].Verdict.First >= 0
}

// serve is what the sentences on a design's target are made of.
func (f *Facts) serve(d *DesignFacts) present.Serve {
	return present.Serve{
		Required: f.Required, Lost: len(f.Lost), Verdict: d.Verdict,
		Cup: d.Design.Cup, Known: true, Target: d.Target, AtBest: d.AtBest, SD: f.Case.Goal.SD,
	}
}

// name returns a design's letter and name.
func (f *Facts) name(i int) string {
	letter := present.Letter(i)
	if f.Case.Designs[i].Name == "" {
		return letter
	}
	return f.Words.Phrase("chart_legend", "letter", letter, "name", f.Case.Designs[i].Name)
}

// motions returns the names of the requirements.
func (f *Facts) motions() []string {
	list := make([]string, len(f.Required))
	for i, r := range f.Required {
		list[i] = f.Words.Requirement(r)
	}
	return list
}

// planeName returns the words for a plane in which cups are measured.
func (f *Facts) planeName(p hip.Plane) string {
	row := kinematics.ParameterByKey("cup_plane")
	return f.Words.Choice(row.Key, row.Choices[p])
}
