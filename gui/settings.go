package gui

import (
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/pages"
	"returnbench/plots/report"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Settings are the person's own, kept from one run to the next.
type Settings struct {
	Language string  `json:"language,omitempty"` // a key of languages; empty: the system's
	Units    string  `json:"units"`              // "ip" or "si"
	Theme    string  `json:"theme"`              // "light" or "dark"
	TextSize float32 `json:"text_size"`          // 1 is the usual
	NoRanges bool    `json:"no_ranges,omitempty"`
	Paper    string  `json:"paper,omitempty"`          // of pages; empty: that of the units
	Pages    string  `json:"pages_language,omitempty"` // a key of pages.Languages; empty: the window's
	Library  string  `json:"library,omitempty"`        // folder; empty: there is none
	Touch    bool    `json:"touch,omitempty"`          // targets for a finger
	Tried    bool    `json:"tried,omitempty"`          // the three things of the first start are not offered any more
}

// TextSizes are the text sizes on offer.
var textSizes = []float32{1, 1.25, 1.5}

func usualSettings() Settings { return Settings{Units: "ip", Theme: look.Light, TextSize: 1} }

// corrected replaces unusable values, as after an edit by hand.
func (s Settings) corrected() Settings {
	usual := usualSettings()
	if s.Units != "ip" && s.Units != "si" {
		s.Units = usual.Units
	}
	if s.Theme != look.Light && s.Theme != look.Dark {
		s.Theme = usual.Theme
	}
	if !slices.Contains(textSizes, s.TextSize) {
		s.TextSize = usual.TextSize
	}
	if !slices.ContainsFunc(languages, func(c languageChoice) bool { return c.key == s.Language }) {
		s.Language = usual.Language
	}
	if !slices.Contains(pages.Languages(), s.Pages) {
		s.Pages = usual.Pages
	}
	if !slices.Contains(report.Papers(), report.Paper(s.Paper)) {
		s.Paper = usual.Paper
	}
	return s
}

func (s Settings) system() units.Locale {
	if s.Units == "si" {
		return lang.Locale().With(units.Metric)
	}
	return lang.Locale()
}

// userFolder is the folder of the person's own files; with no folder nothing is kept.
type userFolder struct{ dir string }

// ownFolder is the usual place for them.
func ownFolder() (userFolder, error) {
	base, err := os.UserConfigDir()
	if err != nil {
		return userFolder{}, message.Errorf("no folder for settings: {fault}", "fault", err)
	}
	return userFolder{dir: filepath.Join(base, "returnbench")}, nil
}

const (
	settingsFile = "settings.json"
	recentFile   = "recent.json"
	longestList  = 8
)

// read fills v from a file of the folder; a file that is not there leaves v as
// it is.
func (o userFolder) read(name string, v any) error {
	if o.dir == "" {
		return nil
	}
	data, err := os.ReadFile(filepath.Join(o.dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	if err := json.Unmarshal(data, v); err != nil {
		return fmt.Errorf("%s: %w", filepath.Join(o.dir, name), err)
	}
	return nil
}

// write replaces a file of the folder whole or not at all.
func (o userFolder) write(name string, v any) error {
	if o.dir == "" {
		return nil
	}
	data, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	if err := os.MkdirAll(o.dir, 0o755); err != nil {
		return err
	}
	return atomicfile.Write(filepath.Join(o.dir, name), append(data, '\n'), 0o644)
}

func (o userFolder) settings() (Settings, error) {
	s := usualSettings()
	err := o.read(settingsFile, &s)
	return s.corrected(), err
}

// recent are the files last opened or saved, newest first.
func (o userFolder) recent() []string {
	var paths []string
	if err := o.read(recentFile, &paths); err != nil {
		return nil // a broken list of recent files is not worth an error
	}
	return paths[:min(len(paths), longestList)]
}
