package store

import (
	"encoding/json"
	"maps"
)

const settingsFile = "settings.json"

// Settings is what the window remembers of its user's habits. The zero value
// is the default; an empty word means "as the system has it".
type Settings struct {
	Theme         string  `json:"theme,omitempty"`          // "light", "dark" or "" for the system's
	Language      string  `json:"language,omitempty"`       // BCP 47 tag, "" for the system's
	TextScale     float64 `json:"text_scale,omitempty"`     // 1 is normal; 0 means 1
	ReducedMotion bool    `json:"reduced_motion,omitempty"` // no animation but what is asked for
	View          string  `json:"view,omitempty"`           // the view last open
	WindowWidth   float64 `json:"window_width,omitempty"`   // in device-independent pixels
	WindowHeight  float64 `json:"window_height,omitempty"`  // in device-independent pixels
	Folder        string  `json:"folder,omitempty"`         // where the last dialog ended

	Layout map[string]string `json:"layout,omitempty"` // how Explore is laid out, in its own words

	// Others holds fields this version does not know; they are written back.
	Others map[string]json.RawMessage `json:"-"`
}

// LoadSettings reads the settings. Without a file they are the defaults; with
// a damaged one they are the defaults and a *Fault.
func (h Home) LoadSettings() (Settings, error) {
	var s Settings
	if err := h.load(settingsFile, &s); err != nil {
		return Settings{}, err
	}
	return s, nil
}

// SaveSettings writes the settings whole.
func (h Home) SaveSettings(s Settings) error { return h.save(settingsFile, s) }

// plain is Settings without its own JSON methods.
type plain Settings

// UnmarshalJSON keeps the fields it does not know in Others.
func (s *Settings) UnmarshalJSON(data []byte) error {
	var p plain
	if err := json.Unmarshal(data, &p); err != nil {
		return err
	}
	all := map[string]json.RawMessage{}
	if err := json.Unmarshal(data, &all); err != nil {
		return err
	}
	known, err := fields(plain{
		Theme: "x", Language: "x", TextScale: 1, ReducedMotion: true, View: "x",
		WindowWidth: 1, WindowHeight: 1, Folder: "x", Layout: map[string]string{"x": "x"},
	})
	if err != nil {
		return err
	}
	maps.DeleteFunc(all, func(key string, _ json.RawMessage) bool { _, ok := known[key]; return ok })
	if len(all) > 0 {
		p.Others = all
	}
	*s = Settings(p)
	return nil
}

// MarshalJSON writes the known fields and Others.
func (s Settings) MarshalJSON() ([]byte, error) {
	known, err := fields(plain(s))
	if err != nil {
		return nil, err
	}
	all := map[string]json.RawMessage{}
	maps.Copy(all, s.Others)
	maps.Copy(all, known)
	return json.Marshal(all)
}

// fields returns the JSON members p is written as.
func fields(p plain) (map[string]json.RawMessage, error) {
	data, err := json.Marshal(p)
	if err != nil {
		return nil, err
	}
	members := map[string]json.RawMessage{}
	return members, json.Unmarshal(data, &members)
}
