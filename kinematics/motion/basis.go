package motion

// Basis says what a value rests on, from firm to weak. It is shown wherever
// the value is.
type Basis int

const (
	Own            Basis = iota // the user's own
	Found                       // read in a copy of the named text
	Quoted                      // read in a text that quotes the named one
	Data                        // computed from open recordings of few subjects
	CommonPractice              // in common use; no source
	Memory                      // from memory: the named text was not seen
	Assumed                     // our own choice
	BasisCount
)

// BasisKeys are the words for a basis in files, in their order.
var BasisKeys = []string{"own", "found", "quoted", "data", "common_practice", "memory", "assumed"}

// Key returns the word for the basis in files.
func (b Basis) Key() string { return BasisKeys[b] }

// Doubtful reports whether a reader must be told so beside the value: it is
// from memory or assumed.
func (b Basis) Doubtful() bool { return b >= Memory }
