package gui

import (
	"cmp"
	"encoding/json"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/widgets"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// said are all texts of an object, those of what is hidden too: it comes into sight
// with a click. Lines of one widget are one text, for a name may be broken over them.
func said(o fyne.CanvasObject) []string {
	switch v := o.(type) {
	case *widget.Label:
		return []string{v.Text}
	case *widget.RichText:
		return []string{v.String()}
	case *widgets.Select:
		return append(saidBy(v), v.Options...)
	case *widget.Select:
		return append(saidBy(v), v.Options...)
	case *fyne.Container:
		return saidOf(v.Objects)
	case *container.Scroll:
		return said(v.Content)
	case *container.Clip:
		return said(v.Content)
	case fyne.Widget:
		return saidBy(v)
	}
	return saidOf([]fyne.CanvasObject{o})
}

func saidBy(w fyne.Widget) []string { return saidOf(test.WidgetRenderer(w).Objects()) }

func saidOf(objects []fyne.CanvasObject) (out []string) {
	var lines []string
	for _, o := range objects {
		if text, ok := o.(*canvas.Text); ok {
			lines = append(lines, text.Text)
			continue
		}
		if _, ok := o.(fyne.Widget); ok {
			out = append(out, said(o)...)
			continue
		}
		switch o.(type) {
		case *fyne.Container:
			out = append(out, said(o)...)
		}
	}
	return append(out, strings.Join(lines, " "))
}

// placesIn opens a bench in a language, on an example, and walks its places.
func placesIn(t *testing.T, l units.Locale, job string) (b *Bench, texts map[string][]string) {
	t.Helper()
	before := lang.Locale()
	lang.Set(l)
	t.Cleanup(func() { lang.Set(before) })
	b = newBench(t)
	texts = map[string][]string{"start of a new job": said(b.window.Content())}
	b.put(example(t, job), "")
	for _, p := range places() {
		b.enter(p.key)
		texts[p.key] = said(b.window.Content())
	}
	var menu func(items []*fyne.MenuItem)
	menu = func(items []*fyne.MenuItem) {
		for _, it := range items {
			texts["menu"] = append(texts["menu"], it.Label)
			if it.ChildMenu != nil {
				menu(it.ChildMenu.Items)
			}
		}
	}
	for _, m := range b.window.MainMenu().Items {
		texts["menu"] = append(texts["menu"], m.Label)
		menu(m.Items)
	}
	return b, texts
}

// ownFields are the fields of a file that hold what a person wrote; the words of the
// others are the program's.
var ownFields = []string{"name", "notes", "title", "question", "text", "label", "value", "option", "filter", "cooling_tap", "heating_tap", "explanation"}

// writtenIn are the texts of a JSON value that a person wrote.
func writtenIn(key string, v any) (out []string) {
	switch v := v.(type) {
	case string:
		if slices.Contains(ownFields, key) {
			return []string{v}
		}
	case []any:
		for _, one := range v {
			out = append(out, writtenIn(key, one)...)
		}
	case map[string]any:
		for key, one := range v {
			out = append(out, writtenIn(key, one)...)
		}
	}
	return out
}

// given are texts that stand in a window as somebody wrote them, and units, the
// longest first.
func given(t *testing.T, b *Bench) []*regexp.Regexp {
	t.Helper()
	var out []string
	add := func(v any) {
		data, err := json.Marshal(v)
		require.NoError(t, err)
		var read any
		require.NoError(t, json.Unmarshal(data, &read))
		out = append(out, writtenIn("", read)...)
	}
	add(b.session.Job())
	for i := range b.class.Items() { // written by the author of the demonstration
		l := b.class.Items()[i].Lesson
		l.Question = l.Ask(lang.Locale())
		add(l)
	}
	generic, err := assets.Filters() // their names go into a file as they are
	require.NoError(t, err)
	for _, f := range generic.Filters {
		name, _, _ := strings.Cut(f.Name, ", MERV") // which lists put first
		out = append(out, f.Name, name)
	}
	for _, k := range units.Kinds() {
		for i := range k.Units {
			out = append(out, k.Units[i].Name, k.Units[i].Label())
		}
	}
	out = append(out, otherwise...)
	out = slices.DeleteFunc(out, func(s string) bool { return !plainWord.MatchString(s) })
	slices.SortFunc(out, func(a, b string) int { return cmp.Or(len(b)-len(a), cmp.Compare(a, b)) })
	var whole []*regexp.Regexp
	for _, s := range slices.Compact(out) {
		whole = append(whole, regexp.MustCompile(`(^|[^A-Za-z])`+regexp.QuoteMeta(s)+`($|[^A-Za-z])`))
	}
	return whole
}

// otherwise are texts that no language changes.
var otherwise = []string{
	"returnbench",
	"English", "Español", // a language names itself
	"Ctrl", "Shift", "Alt", "Esc", // keys, as they are printed on a keyboard
	"PDF", "PNG", "SVG", "CSV", "JSON", "MERV", "SI", // names of formats and ratings
}

var plainWord = regexp.MustCompile(`[A-Za-z]{2,}`)

// pointed is a number with a decimal point. The numbers of clauses have points in any
// language, and sums of money between their thousands where the mark is a comma.
var (
	pointed = regexp.MustCompile(`(^|[^\d.A-Z-])\d+\.\d+($|[^\d.(-])`)
	clauses = regexp.MustCompile(`\b(150\.0|62\.2|52\.2)\b|\$\d{1,3}(\.\d{3})+\b`)
)

// leaveOut is a text without what was given.
func leaveOut(text string, given []*regexp.Regexp) string {
	for _, g := range given {
		text = g.ReplaceAllString(text, "$1 $2")
	}
	return text
}

// unwritten are the words of a text with plain letters that nobody gave.
func unwritten(text string, given []*regexp.Regexp) []string {
	if !plainWord.MatchString(text) {
		return nil
	}
	return plainWord.FindAllString(leaveOut(text, given), -1)
}

// Every text of the window is written from the catalog, and every number with the
// decimal mark of the language: where all letters have accents and the mark is a comma
// nothing is left without.
func TestEveryTextIsFromTheCatalog(t *testing.T) {
	b, texts := placesIn(t, units.Locale{Language: message.Pseudo, Comma: true}, "two-returns")
	known := given(t, b)
	accents := 0
	told := map[string]bool{}
	for _, place := range slices.Sorted(maps.Keys(texts)) {
		for _, text := range texts[place] {
			if strings.ContainsAny(text, "áéíóŕńţ") {
				accents++
			}
			if words := unwritten(text, known); len(words) > 0 && !told[text] {
				told[text] = true
				t.Errorf("%s: %q is not from the catalog: %q", place, words, text)
			}
			if rest := leaveOut(clauses.ReplaceAllString(text, ""), known); pointed.MatchString(rest) && !told[text+"."] {
				told[text+"."] = true
				t.Errorf("%s: a decimal point in %q", place, text)
			}
		}
	}
	require.Greater(t, accents, 300, "the window speaks the language")
}

// No text of a Spanish window is an English one that has a Spanish entry.
func TestSpanishIsSpoken(t *testing.T) {
	english, spanish := message.Entries("en"), map[message.ID]message.Entry{}
	for _, entries := range message.Entries("es") {
		maps.Copy(spanish, entries)
	}
	translated := map[string]message.ID{}
	for _, entries := range english {
		for id, e := range entries {
			other, ok := spanish[id]
			for _, text := range []string{e.One, e.Other} {
				if ok && !reflect.DeepEqual(e, other) && plainWord.MatchString(text) && len(message.Arguments(text)) == 0 {
					translated[text] = id
				}
			}
		}
	}
	b, texts := placesIn(t, units.Locale{Language: "es", Comma: true}, "two-returns")
	known := given(t, b)
	for place, list := range texts {
		for _, text := range list {
			if _, english := translated[text]; english && len(unwritten(text, known)) > 0 {
				t.Errorf("%s: %q is English", place, text)
			}
		}
	}
}

// renamed are names that a person may give, each of which is an entry of the catalog.
var renamed = strings.NewReplacer(`"Two filter grilles on Birch Court"`, `"April"`, `"pleated 8, grille size"`, `"June"`,
	`"pleated 11, grille size"`, `"July"`, `"hall"`, `"May"`, `"den"`, `"August"`, `"a third grille"`, `"October"`,
	`"MERV 11 in both grilles"`, `"November"`, `"tap 4"`, `"December"`)

// A person's words stay as they are in every place, also where the catalog has an entry
// of the same words.
func TestNamesAreNotTranslated(t *testing.T) {
	data, err := jobfile.Encode(example(t, "two-returns"))
	require.NoError(t, err)
	job, err := jobfile.Decode([]byte(renamed.Replace(string(data))))
	require.NoError(t, err)
	before := lang.Locale()
	lang.Set(units.Locale{Language: "es", Comma: true})
	t.Cleanup(func() { lang.Set(before) })
	b := newBench(t)
	b.recent = []string{"/jobs/Return.job.json", "/jobs/January.job.json"}
	b.New()
	names := map[string]bool{}
	look := func(place string) {
		for _, text := range said(b.window.Content()) {
			require.NotRegexp(t, `(?i)\b(abril|mayo|junio|julio|agosto|octubre|noviembre|diciembre|enero)\b`, text, place)
			for _, name := range regexp.MustCompile(`\b(April|June|July|May|August|October|November|December|January|Return)\b`).FindAllString(text, -1) {
				names[name] = true
			}
		}
	}
	look("start")
	require.Equal(t, map[string]bool{"Return": true, "January": true}, names)
	b.put(job, "")
	for _, p := range places() {
		b.enter(p.key)
		look(p.key)
	}
	require.Len(t, names, 10, "%v", names)
}

// The buttons that lead to an option have its name.
func TestOptionsOfProblemsKeepTheirNames(t *testing.T) {
	before := lang.Locale()
	lang.Set(units.Locale{Language: "es", Comma: true})
	t.Cleanup(func() { lang.Set(before) })
	b := newBench(t)
	job := example(t, "one-inch-slot")
	for i := range job.Options {
		job.Options[i].Name = []string{"Save", "Cancel", "Close", "Return", "filter"}[i]
	}
	b.put(job, "")
	b.enter("findings")
	led := map[string]bool{}
	for _, o := range test.LaidOutObjects(b.body) {
		if w, ok := o.(*widgets.Button); ok {
			led[w.Text] = true
		}
	}
	require.True(t, led["Save"] || led["Cancel"] || led["Close"], "%v", led)
	require.False(t, led["Guardar"] || led["Cancelar"] || led["Cerrar"], "%v", led)
}
