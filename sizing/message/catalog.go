package message

import (
	"embed"
	"encoding/json"
	"fmt"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"
	"sync"

	"github.com/nicksnyder/go-i18n/v2/i18n"
	"github.com/nicksnyder/go-i18n/v2/i18n/template"
	"golang.org/x/text/language"

	"returnbench/sizing/units"
)

//go:embed catalog
var files embed.FS

// Entry is the text of a message in one language. One is for a count of one, empty
// where nothing is counted.
type Entry struct {
	One   string `json:"one,omitempty"`
	Other string `json:"other"`
}

// UnmarshalJSON reads a text, or the texts for a count of one and for others.
func (e *Entry) UnmarshalJSON(data []byte) error {
	if data[0] == '"' {
		return json.Unmarshal(data, &e.Other)
	}
	type plain Entry
	return json.Unmarshal(data, (*plain)(e))
}

// MarshalJSON writes a plain text where nothing is counted.
func (e Entry) MarshalJSON() ([]byte, error) {
	if e.One == "" {
		return json.Marshal(e.Other)
	}
	type plain Entry
	return json.Marshal(plain(e))
}

// Languages are those of the catalog besides English.
func Languages() []string {
	return slices.DeleteFunc(folders(), func(name string) bool { return name == english })
}

func folders() []string {
	list, err := files.ReadDir("catalog")
	if err != nil {
		panic("message: " + err.Error()) // embedded
	}
	var out []string
	for _, f := range list {
		out = append(out, f.Name())
	}
	return out
}

// Entries are those of a language, by file: the catalog is split by the part of the
// program that uses them. A fault of an embedded file is a programmer's slip, hence
// the panics.
func Entries(lang string) map[string]map[ID]Entry {
	out := map[string]map[ID]Entry{}
	list, err := files.ReadDir(path.Join("catalog", lang))
	if err != nil {
		panic("message: " + err.Error())
	}
	for _, f := range list {
		data, err := files.ReadFile(path.Join("catalog", lang, f.Name()))
		if err != nil {
			panic("message: " + err.Error())
		}
		entries := map[ID]Entry{}
		if err := json.Unmarshal(data, &entries); err != nil {
			panic(fmt.Sprintf("message: %s/%s: %v", lang, f.Name(), err))
		}
		out[f.Name()] = entries
	}
	return out
}

// dictionary holds the texts of one language.
type dictionary struct {
	localizer *i18n.Localizer
	has       map[ID]bool
}

// dictionaries are read when their language is first used.
var dictionaries = func() map[string]func() dictionary {
	out := map[string]func() dictionary{}
	for _, lang := range folders() {
		out[lang] = sync.OnceValue(func() dictionary { return read(lang) })
	}
	return out
}()

// read gives the texts of a language, in English only those that differ from the
// names of their entries.
func read(lang string) dictionary {
	tag := language.MustParse(lang)
	bundle := i18n.NewBundle(tag)
	d := dictionary{i18n.NewLocalizer(bundle, lang), map[ID]bool{}}
	var messages []*i18n.Message
	for _, entries := range Entries(lang) {
		for id, e := range entries {
			if e != (Entry{Other: string(id)}) {
				messages = append(messages, &i18n.Message{ID: string(id), One: e.One, Other: e.Other})
				d.has[id] = true
			}
		}
	}
	if err := bundle.AddMessages(tag, messages...); err != nil {
		panic("message: " + err.Error())
	}
	return d
}

// lookUp writes an entry in the language of the locale, else in English.
func lookUp(l units.Locale, id ID, data map[string]string, count any) string {
	if l.Language == Pseudo {
		return marked(l, accented(split(string(id))).fill(data))
	}
	for _, lang := range []string{l.Language, english} {
		open, ok := dictionaries[lang]
		if !ok {
			continue
		}
		d := open()
		if !d.has[id] {
			continue
		}
		text, err := d.localizer.Localize(&i18n.LocalizeConfig{MessageID: string(id), TemplateData: data, PluralCount: count, TemplateParser: parser{}})
		if err == nil {
			return marked(l, text)
		}
	}
	return pieces(split(string(id))).fill(data)
}

const english = "en"

// openMark is the decimal mark of a number in a text of the catalog, where the
// language has readers of either: "0·03".
var openMark = regexp.MustCompile(`(\d)·(\d)`)

func marked(l units.Locale, text string) string {
	if !strings.Contains(text, "·") {
		return text
	}
	return openMark.ReplaceAllString(text, "${1}"+l.Mark(".")+"${2}")
}

// parser reads texts whose arguments stand in braces: "{drop}".
type parser struct{}

func (parser) Cacheable() bool { return true }

func (parser) Parse(text, _, _ string) (template.ParsedTemplate, error) {
	return pieces(split(text)), nil
}

// pieces are the parts of a text: plain words and names of arguments in turn.
type pieces []string

func split(text string) []string {
	var out []string
	for {
		words, rest, ok := strings.Cut(text, "{")
		name, after, closed := strings.Cut(rest, "}")
		if !ok || !closed {
			return append(out, text)
		}
		out = append(out, words, name)
		text = after
	}
}

// fill puts the arguments into the text. A unit that ends in a dot ends the
// sentence too.
func (p pieces) fill(data map[string]string) string {
	text := ""
	for i, piece := range p {
		if i%2 == 0 {
			if strings.HasPrefix(piece, ".") && strings.HasSuffix(text, ".") {
				piece = piece[1:]
			}
			text += piece
		} else if v, ok := data[piece]; ok {
			text += v
		} else {
			text += "{" + piece + "}"
		}
	}
	return text
}

// Execute fills in the arguments.
func (p pieces) Execute(data any) (string, error) { return p.fill(data.(map[string]string)), nil }

// Arguments are the names of the arguments of a text, sorted.
func Arguments(text string) []string {
	names := map[string]bool{}
	for i, piece := range split(text) {
		if i%2 == 1 {
			names[piece] = true
		}
	}
	return slices.Sorted(maps.Keys(names))
}
