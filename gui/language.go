package gui

import (
	"encoding/json"
	"strings"
	"sync"

	"fyne.io/fyne/v2"
	toolkit "fyne.io/fyne/v2/lang"
	"golang.org/x/text/language"
	text "golang.org/x/text/message"
	"golang.org/x/text/number"

	"returnbench/gui/lang"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// languageChoice is a language of the window on offer. A language has its own
// name, so that a person who reads no other finds it.
type languageChoice struct {
	key, name string // as kept and as shown; empty: the system's
	locale    units.Locale
}

var languages = []languageChoice{
	{},
	{"en", "English", units.Locale{}},
	{"es-comma", "Español (1,5)", units.Locale{Language: "es", Comma: true}},
	{"es-point", "Español (1.5)", units.Locale{Language: "es"}},
}

func (c languageChoice) words() string {
	if c.key == "" {
		return lang.T("automatic, from the system")
	}
	return c.name
}

// localeOf is the locale of a choice; system is the language of the machine.
func localeOf(key, system string) units.Locale {
	for _, c := range languages {
		if c.key == key && key != "" {
			return c.locale
		}
	}
	return systemLocale(system)
}

// systemLocale is the language of the machine where the catalog has it, else
// English. The region decides the decimal mark: Mexico and Central America write
// a point, Spain and most of South America a comma.
func systemLocale(system string) units.Locale {
	tag, err := language.Parse(system)
	if err != nil {
		return units.Locale{}
	}
	base, _ := tag.Base()
	for _, known := range message.Languages() {
		if known == base.String() {
			half := text.NewPrinter(tag).Sprint(number.Decimal(0.5))
			return units.Locale{Language: known, Comma: strings.Contains(half, ",")}
		}
	}
	return units.Locale{}
}

// machineLanguage is that of the machine, such as "es-MX".
var machineLanguage = sync.OnceValue(func() string { return toolkit.SystemLocale().LanguageString() })

// startLocale is the locale of the person's own settings. Errors in them are
// shown once the window is open.
func startLocale() units.Locale {
	o, err := ownFolder()
	if err != nil {
		return systemLocale(machineLanguage())
	}
	s, _ := o.settings()
	return localeOf(s.Language, machineLanguage())
}

// toolkitLanguage is the language of the toolkit's own texts, once it was changed.
var toolkitLanguage struct {
	sync.Mutex
	language string
}

// setLanguage chooses the language of every window built from now on, and of what the
// toolkit writes itself.
func setLanguage(l units.Locale) {
	lang.Set(l)
	toolkitLanguage.Lock()
	defer toolkitLanguage.Unlock()
	want := l.Language
	if want == "" {
		want = "en"
	}
	now := toolkitLanguage.language
	switch {
	case now != "":
	case toolkit.L("Save") == "Save":
		now = "en"
	default:
		now, _, _ = strings.Cut(machineLanguage(), "-")
	}
	if now == want {
		return
	}
	words := map[string]string{}
	for _, id := range toolkitTexts {
		words[string(id)] = message.Text(l, id)
	}
	for key, id := range toolkitWords {
		words[key] = message.Text(l, id)
	}
	data, err := json.Marshal(words)
	if err == nil {
		// The toolkit takes the language of the machine: its words are changed there.
		err = toolkit.AddTranslationsForLocale(data, fyne.Locale(machineLanguage()))
	}
	if err != nil {
		fyne.LogError("the toolkit keeps its language", err)
		return
	}
	toolkitLanguage.language = want
}

// toolkitWords are the texts of the toolkit's own dialogs and menus, where its key is
// another than the text.
var toolkitWords = map[string]message.ID{"file.name": "Name", "file.parent": "Parent"}

// toolkitTexts are the others.
var toolkitTexts = []message.ID{
	"Advanced", "Cancel", "Confirm", "Copy", "Create Folder", "Cut", "Enter filename", "Error", "File", "Folder",
	"New Folder", "No", "OK", "Open", "Paste", "Quit", "Redo", "Save", "Select all", "Show Hidden Files", "Undo", "Yes",
}
