package present

import "rimclear/assets"

// demandedOfGuide adds the words that the guide and the samples ask for.
func demandedOfGuide(add func(section, key string)) {
	for _, page := range GuidePages {
		add(guideTitleSection, page)
		add(guideTextSection, page)
	}
	for _, s := range assets.Cases() {
		add(sampleSection, s.Name)
		add(sampleNoteSection, s.Name)
	}
}
