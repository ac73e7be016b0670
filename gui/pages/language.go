package pages

import (
	"slices"

	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/sizing/units"
)

// Reader is how the pages are read, which may be in another language than the window.
type Reader interface {
	// Language is one of Languages.
	Language() string
	SetLanguage(string)
	// Reads is how somebody reads pages in that language, of a window that is read
	// as given.
	Reads(window units.Locale) units.Locale
}

// Languages are those of pages on offer: the window's first.
func Languages() []string { return []string{"", "en", "es"} }

// languageNames call each language by its own name.
var languageNames = map[string]string{"en": "English", "es": "Español"}

func newLanguageSelect(r Reader, changed func()) *widget.Select {
	names := make([]string, len(Languages()))
	for i, key := range Languages() {
		names[i] = languageNames[key]
	}
	names[0] = lang.T("as the window")
	s := widget.NewSelect(names, nil)
	s.Selected = names[max(0, slices.Index(Languages(), r.Language()))]
	s.OnChanged = func(string) {
		r.SetLanguage(Languages()[max(0, s.SelectedIndex())])
		changed()
	}
	return s
}
