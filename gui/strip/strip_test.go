package strip

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// house has one option: a filter that resists less.
func house(t testing.TB) *sizing.Study {
	t.Helper()
	study, err := sizing.Solve(sizing.Job{
		Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM,
		Filters: []filter.Filter{{Name: "fine", MERV: 13}, {Name: "coarse", MERV: 6}},
		Slot:    sizing.Slot{Width: 20 * units.Inch, Height: 20 * units.Inch, Depth: units.Inch, Filter: "fine"},
		Options: []sizing.Option{{Name: "coarse one", Filter: "coarse", Price: 40}},
	})
	require.NoError(t, err)
	return study
}

// A reader of a decimal comma never sees a comma between thousands.
func TestFiguresOfADecimalComma(t *testing.T) {
	study := house(t)
	o := study.Today()
	o.FiltersPerYear, o.TenYearKnown, o.TenYearCost = 2.25, true, 15688*units.Dollar
	for _, l := range []units.Locale{units.IP, {Comma: true}} {
		got := Figures(study, nil, nil, l)
		require.Equal(t, l.Mark("2.2"), got[3].Before)
		require.Equal(t, map[bool]string{false: "$15,688", true: "$15.688"}[l.Comma], got[4].Before)
		require.Equal(t, "External static, of "+study.RatedExternalStatic.Show(l), got[1].Title)
		require.Equal(t, "Static, of "+study.RatedExternalStatic.Show(l), got[1].Short)
	}
}

func TestFiguresAreThoseOfTheStudy(t *testing.T) {
	study := house(t)
	o := study.Option("coarse one")
	got := Figures(study, o, nil, units.IP)
	require.Len(t, got, len(usual(units.IP)))
	require.Equal(t, "Airflow, of 1200 cfm", got[0].Title)
	require.Equal(t, o.Clean.Airflow.Kind().Number(o.Clean.Airflow.SI(), units.IP), got[0].After)
	require.Equal(t, study.Today().Clean.ExternalStatic.Kind().Number(study.Today().Clean.ExternalStatic.SI(), units.IP), got[1].Before)
	require.Empty(t, got[0].Range, "no ranges, no ±")

	ranges := []sizing.OptionRange{
		{Name: study.Today().Name, Kind: sizing.KindToday, Airflow: sizing.Range[units.Flow]{Low: study.Today().Clean.Airflow - 50*units.CFM, High: study.Today().Clean.Airflow + 40*units.CFM}},
		{Name: o.Name, Kind: sizing.KindOption, Airflow: sizing.Range[units.Flow]{Low: o.Clean.Airflow - 30*units.CFM, High: o.Clean.Airflow + 20*units.CFM}},
	}
	require.Equal(t, "±50 → ±30", Figures(study, o, ranges, units.IP)[0].Range, "the farther end of each range")

	alone := Figures(study, nil, nil, units.SI)
	require.Empty(t, alone[0].After)
	require.Equal(t, "566", strings.Fields(alone[0].Title)[2], "1200 cfm in L/s")
	for _, f := range Figures(nil, nil, nil, units.IP) {
		require.Equal(t, "–", f.Before)
	}
}

// Watts that the blower's table does not tell are no zero.
func TestWattsThatAreNotKnown(t *testing.T) {
	study := house(t)
	require.NotEqual(t, "–", Figures(study, nil, nil, units.IP)[2].Before)
	today := study.Today()
	today.Clean.BlowerPower = 0
	ranges := []sizing.OptionRange{{Name: today.Name, Kind: sizing.KindToday}}
	got := Figures(study, nil, ranges, units.IP)
	require.Equal(t, "–", got[2].Before)
	require.Empty(t, got[2].Range)
}

// The height follows from the width alone, whatever is said.
func TestTheHeightFollowsFromTheWidthAlone(t *testing.T) {
	study := house(t)
	s := New()
	s.Set(Content{Figures: Figures(nil, nil, nil, units.IP)})
	w := test.NewTempWindow(t, s.Object())
	w.SetPadded(false)
	for _, width := range []float32{1024, 1366, 1920} {
		w.Resize(fyne.NewSize(width, 400))
		empty := s.Object().MinSize().Height
		s.Set(Content{Figures: []Figure{usual(units.IP)[0], usual(units.IP)[1], usual(units.IP)[2], usual(units.IP)[3], {Title: costTitle, Short: costTitle, Before: notKnown, After: notKnown}}})
		require.Equal(t, empty, s.Object().MinSize().Height, "costs that are not known take no other row")
		rapid.Check(t, func(t *rapid.T) {
			c := Content{
				Figures:  Figures(study, study.Option("coarse one"), nil, units.Locale{System: units.System(rapid.IntRange(0, 1).Draw(t, "units"))}),
				Dim:      rapid.Bool().Draw(t, "dim"),
				Severity: rapid.SampledFrom([]sizing.Severity{"", sizing.Good, sizing.Caution, sizing.Stop}).Draw(t, "severity"),
				Sentence: strings.Repeat("more air ", rapid.IntRange(0, 90).Draw(t, "words")),
				Why:      strings.Repeat("it costs less ", rapid.IntRange(0, 30).Draw(t, "why")),
				Action:   rapid.SampledFrom([]string{"", "Show", "Problems"}).Draw(t, "action"),
			}
			if rapid.Bool().Draw(t, "choices") {
				c.Choices, c.Chosen = []string{"coarse one"}, "coarse one"
			}
			s.Set(c)
			require.Equal(t, empty, s.Object().MinSize().Height)
		})
	}
}

func TestNoTextOfTheStripIsCutOff(t *testing.T) {
	study := house(t)
	guitest.NoTextIsCutOff(t, map[string]func() fyne.CanvasObject{
		"figure": func() fyne.CanvasObject {
			c := newCell(usual(units.IP)[0])
			c.ranged = true
			c.set(Figures(study, study.Option("coarse one"), nil, units.IP)[0], false)
			return c
		},
	})
}

func TestOldNumbersAreDim(t *testing.T) {
	c := newCell(usual(units.IP)[0])
	c.set(Figure{Title: "Airflow", Before: "914", After: "1056"}, false)
	bright := test.WidgetRenderer(c).(*cellRenderer).texts[partAfter].Color
	require.Equal(t, look.Of(c.Theme(), look.Proposal), bright)
	c.set(c.figure, true)
	require.NotEqual(t, bright, test.WidgetRenderer(c).(*cellRenderer).texts[partAfter].Color)
	require.Equal(t, "1056", test.WidgetRenderer(c).(*cellRenderer).texts[partAfter].Text)
}

// To ask for the height changes nothing: a sentence of one line more than it usually has
// stays as it was laid out, whole and not under the reason.
func TestHeightChangesNothing(t *testing.T) {
	s := New()
	c := Content{Severity: sizing.Caution, Figures: Figures(house(t), nil, nil, units.IP), Why: "It is the only option.", Short: "The short form of it."}
	usually := s.sentence.HeightOf(wideLines, theme.SizeNameText)
	for words := 20; s.sentence.Used() <= usually; words++ {
		require.Less(t, words, 400)
		c.Sentence = strings.Repeat("word ", words)
		s.Set(c)
		s.Object().Resize(fyne.NewSize(1366, float32(200+words))) // another size, to be laid out
	}
	shown, used := s.SentenceShown(), s.sentence.Used()
	require.Equal(t, c.Sentence, shown)
	s.Object().MinSize()
	require.Equal(t, shown, s.SentenceShown())
	require.Equal(t, used, s.sentence.Used())
	require.True(t, !s.why.Visible() || s.why.Position().Y >= s.sentence.Position().Y+used)
}
