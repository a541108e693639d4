package present

// Sections of the words of the guide and of the samples.
const (
	guideTitleSection = "guide_title" // by the key of a page
	guideTextSection  = "guide_text"  // by the key of a page
	sampleSection     = "sample"      // by the name of a sample
	sampleNoteSection = "sample_note" // by the name of a sample
)

// GuidePages are the pages of the guide, in their order.
var GuidePages = []string{
	"start", "joint_angles", "radiographic", "operative", "anatomic", "stem_version", "neck_shaft", "pelvic_tilt",
	"oscillation", "margin", "rim_clock", "lip", "levering", "jump_distance",
}

// GuideTitle returns the title of a page of the guide.
func (w *Words) GuideTitle(page string) string { return w.word(guideTitleSection, page) }

// GuideText returns what a page of the guide says, a paragraph to the line.
func (w *Words) GuideText(page string) string { return w.word(guideTextSection, page) }

// Sample returns what a sample is called, by its file's name.
func (w *Words) Sample(name string) string { return w.word(sampleSection, name) }

// SampleNote says in a sentence what a sample shows.
func (w *Words) SampleNote(name string) string { return w.word(sampleNoteSection, name) }
