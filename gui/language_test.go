package gui

import (
	"testing"

	toolkit "fyne.io/fyne/v2/lang"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/pages"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// speaking is a language for one test.
func speaking(t *testing.T, l units.Locale) {
	t.Helper()
	before := lang.Locale()
	setLanguage(l)
	t.Cleanup(func() { setLanguage(before) })
}

var spanish = units.Locale{Language: "es", Comma: true}

// The region of the machine decides the decimal mark; a language that the catalog
// lacks is read in English.
func TestTheSystemDecidesLanguageAndMark(t *testing.T) {
	point, comma := units.Locale{Language: "es"}, units.Locale{Language: "es", Comma: true}
	for system, want := range map[string]units.Locale{
		"es": comma, "es-ES": comma, "es-AR": comma, "es-CL": comma, "es-CO": comma,
		"es-US": point, "es-MX": point, "es-GT": point, "es-HN": point, "es-SV": point, "es-NI": point, "es-PA": point, "es-PR": point, "es-DO": point,
		"en": {}, "en-US": {}, "de-DE": {}, "": {}, "C": {}, "not a language": {},
	} {
		require.Equal(t, want, systemLocale(system), system)
		require.Equal(t, want, localeOf("", system), system)
		require.Equal(t, units.Locale{}, localeOf("en", system), system)
		require.Equal(t, comma, localeOf("es-comma", system), system)
		require.Equal(t, point, localeOf("es-point", system), system)
	}
}

// A choice is kept, and what an edit by hand made of it is not taken.
func TestTheLanguageIsKept(t *testing.T) {
	b := newBench(t)
	v := settingsOf(t, b)
	require.Equal(t, "automatic, from the system", v.language.Selected)
	require.Contains(t, onTop(b), "The language changes the next time the program starts.")
	v.language.SetSelected("Español (1,5)")
	require.Equal(t, units.Locale{}, lang.Locale(), "not before the next start")
	kept, err := b.userFolder.settings()
	require.NoError(t, err)
	require.Equal(t, "es-comma", kept.Language)
	require.Equal(t, spanish, localeOf(kept.Language, "en-US"))
	b.answerLast()
	require.Equal(t, "Español (1,5)", settingsOf(t, b).language.Selected)
	b.answerLast()
	broken := Settings{Language: "klingon", Pages: "fr"}.corrected()
	require.Empty(t, broken.Language)
	require.Empty(t, broken.Pages)
}

// Every language on offer is one of the catalog, and each of the catalog is on offer.
func TestEveryLanguageIsOnOffer(t *testing.T) {
	offered := map[string]bool{}
	for _, c := range languages {
		if c.locale.Language != "" {
			offered[c.locale.Language] = true
		}
	}
	for _, l := range message.Languages() {
		require.True(t, offered[l], l)
		require.Contains(t, pages.Languages(), l)
	}
	require.Len(t, offered, len(message.Languages()))
}

// A window carries language and mark with its units, whichever it changes to.
func TestTheWindowCarriesTheLanguage(t *testing.T) {
	speaking(t, spanish)
	b := newBench(t)
	require.Equal(t, spanish, b.session.Units())
	b.SetUnits(units.SI)
	require.Equal(t, spanish.With(units.Metric), b.session.Units())
	b.SetUnits(units.IP)
	require.Equal(t, spanish, b.session.Units())
	b.put(example(t, "metric-altitude"), "")
	require.Equal(t, "es", b.session.Units().Language)
	require.Equal(t, "1,50", b.say("{v}", "v", message.Fixed(1.5, 2)))
	require.Equal(t, units.Locale{}, desk{b}.Reads(units.IP), "pages read like the window")
	require.Equal(t, spanish, desk{b}.Reads(spanish))
	b.settings.Pages = "en"
	require.Equal(t, units.SI, desk{b}.Reads(spanish.With(units.Metric)))
	b.settings.Pages = "es"
	require.Equal(t, spanish, desk{b}.Reads(spanish))
	require.Equal(t, "es", desk{b}.Reads(units.IP).Language)
}

// The toolkit's own dialogs and menus follow, there and back.
func TestTheToolkitFollows(t *testing.T) {
	const probe = "returnbench.probe"
	toolkitWords[probe] = "{items} and {last}"
	defer delete(toolkitWords, probe)
	before := lang.Locale()
	toolkitLanguage.language = "none yet"
	for _, l := range []units.Locale{spanish, before} {
		setLanguage(l)
		for key, id := range toolkitWords {
			require.Equal(t, message.Text(l, id), toolkit.X(key, "?"), key)
		}
		for _, id := range toolkitTexts {
			require.Equal(t, message.Text(l, id), toolkit.X(string(id), "?"))
		}
	}
	setLanguage(spanish)
	require.Equal(t, "{items} y {last}", toolkit.X(probe, "?"))
	setLanguage(before)
	require.Equal(t, "Cancel", toolkit.L("Cancel"))
}

// A field is called in the language of the reader, and the window keeps its own.
func TestAFieldIsCalledForItsReader(t *testing.T) {
	b := newBench(t)
	const path = "equipment.cooling_capacity"
	require.Equal(t, "Start: Cooling capacity", b.Call(path))
	require.Equal(t, "Start: Cooling capacity", b.CallIn(units.IP, path))
	require.Equal(t, message.Text(spanish, "Start")+": "+message.Text(spanish, "Cooling capacity"), b.CallIn(spanish, path))
	require.Equal(t, units.Locale{}, lang.Locale())
	require.Equal(t, "Start: Cooling capacity", b.Call(path))
}

// Where a language has a help of its own it tells of every place, else the English
// one does.
func TestHelpInEveryLanguage(t *testing.T) {
	for _, l := range message.Languages() {
		speaking(t, units.Locale{Language: l})
		for _, p := range places() {
			require.Greater(t, len(placeHelp(p)), 60, "%s: %s", l, p.name)
		}
		require.Len(t, assets.ReadHelp(l).Terms, len(assets.ReadHelp("").Terms), l)
		require.Len(t, assets.ReadHelp(l).Places, len(places()), l)
	}
	require.Equal(t, assets.ReadHelp(""), assets.ReadHelp("tlh"), "none of its own")
}

// A picture is drawn in the locale asked for; the program's own stays.
func TestAPictureHasItsLocale(t *testing.T) {
	f := Frame{Theme: look.Light, Width: 1000, Height: 700}
	english, err := Picture(example(t, "one-inch-slot"), f)
	require.NoError(t, err)
	f.Locale = spanish
	other, err := Picture(example(t, "one-inch-slot"), f)
	require.NoError(t, err)
	require.Equal(t, units.Locale{}, lang.Locale())
	require.NotEqual(t, english, other)
	f.Locale = units.Locale{}
	again, err := Picture(example(t, "one-inch-slot"), f)
	require.NoError(t, err)
	require.Equal(t, english, again)
}
