package gui

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

const recommendedNote = " (recommended)"

// troubleOf is what the strip says of what keeps the figures from being those of
// the job.
func troubleOf(b *Bench) string {
	words, _ := b.decision.trouble()
	return words
}

// Within ten seconds: what is wrong, what is recommended, what it costs. The
// strip says the Study's own sentence, beside the numbers of today and of the
// recommended option, which needs no choice.
func TestTheStripShowsWhatToDo(t *testing.T) {
	b := newBench(t)
	for _, e := range assets.Examples() {
		b.put(example(t, e.Name), "")
		study, c, sys := b.session.Study(), b.decision.strip.Content(), b.session.Units()
		require.Equal(t, study.Recommendation.Next.In(b.session.Units()), c.Sentence, e.Name)
		require.Equal(t, study.Recommendation.Why.Lead(b.session.Units()), c.Why, e.Name)
		require.Equal(t, study.Recommendation.Option+recommendedNote, c.Chosen, e.Name)
		require.Equal(t, c.Chosen, c.Choices[0], e.Name)
		today, then := study.Today(), study.Recommended()
		require.Equal(t, table.Number(today.Clean.Airflow, sys), c.Figures[0].Before, e.Name)
		require.Equal(t, table.Number(then.Clean.Airflow, sys), c.Figures[0].After, e.Name)
		require.Contains(t, c.Figures[0].Title, "of "+study.DesignAirflow.Show(sys), e.Name)
		require.Equal(t, fmt.Sprintf("%.1f", then.FiltersPerYear), c.Figures[3].After, e.Name)
		require.True(t, strings.HasPrefix(c.Figures[4].Before, "$"), e.Name)
	}
}

// Another option of the list takes the recommended one's place in the strip, in
// every place, and says what it does; the recommendation stays in sight.
func TestAnotherOptionCanBeChosen(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	study := b.session.Study()
	other := study.Option("four-inch cabinet")
	require.NotNil(t, other)
	b.decision.strip.Choose("four-inch cabinet")
	for _, place := range []string{"findings", "returns", "charts"} {
		b.enter(place)
		c := b.decision.strip.Content()
		require.Equal(t, "four-inch cabinet", c.Chosen)
		require.Equal(t, fmt.Sprintf("%.0f", other.Clean.Airflow.In(units.CFM)), c.Figures[0].After)
		require.Contains(t, c.Sentence, fmt.Sprintf("four-inch cabinet: %s clean", other.Clean.Airflow.Show(units.IP)))
		require.Contains(t, c.Sentence, fmt.Sprintf("it removes %d, lessens %d and leaves %d", other.Counts.Removed, other.Counts.Lessened, other.Counts.Left))
		require.Contains(t, c.Why, "Recommended: "+study.Recommendation.Option)
	}
	b.decision.strip.Choose(study.Recommendation.Option + recommendedNote)
	require.Equal(t, study.Recommendation.Next.In(units.IP), b.decision.strip.Content().Sentence)
	b.put(example(t, "two-returns"), "")
	require.Equal(t, b.session.Study().Recommendation.Option+recommendedNote, b.decision.strip.Content().Chosen, "a choice ends with its job")
}

// The price of the work stands in the sentence, whichever option is shown, and a name of
// 60 letters pushes it out nowhere.
func TestTheStripShowsWhatTheWorkCosts(t *testing.T) {
	const long = "a cabinet of five inches in the closet behind the furnace, 1"
	require.Len(t, long, 60)
	b := newBench(t)
	job := example(t, "one-inch-slot")
	i := slices.IndexFunc(job.Options, func(o sizing.Option) bool { return o.Name == "cabinet and second return" })
	job.Options[i].Price, job.Options[i].Name = 1480*units.Dollar, long
	b.put(job, "")
	require.Equal(t, long, b.session.Study().Recommendation.Option)
	for _, text := range []float32{1, 1.5} {
		b.settings.TextSize = text
		b.retheme()
		for _, size := range []fyne.Size{{Width: 1024, Height: 600}, {Width: 1366, Height: 768}} {
			b.window.Resize(size)
			c := b.decision.strip.Content()
			require.Contains(t, c.Sentence, "$1,480 now, about $")
			require.NotContains(t, c.Sentence, long)
			require.Contains(t, c.Sentence, "a cabinet of five inches in…")
			require.Contains(t, c.Choices[0], long, "the list has it whole")
			require.False(t, b.decision.strip.SentenceCut(), "%v at %g: %s", size, text, c.Sentence)
			require.Less(t, b.root.MinSize().Width, size.Width+1)
		}
	}
	b.decision.strip.Choose("four-inch cabinet")
	require.Regexp(t, `dirty; \$[\d,]+ now, about \$[\d,]+ (more|less) over ten years`, b.decision.strip.Content().Sentence)
}

// A name is shortened as the name that it is: one that is the beginning of another, or
// that other words hold too, changes nothing of them.
func TestShortNamesAreThoseOfTheOptions(t *testing.T) {
	b := newBench(t)
	job := example(t, "one-inch-slot")
	const begins = "a cabinet of five inches in the closet"
	i := slices.IndexFunc(job.Options, func(o sizing.Option) bool { return o.Name == "cabinet and second return" })
	for k := range job.Options {
		if k != i {
			job.Options[k].Name = begins
			break
		}
	}
	job.Options[i].Name = begins + " of the hall"
	b.put(job, "")
	c := b.decision.strip.Content()
	require.Equal(t, begins+" of the hall", b.session.Study().Recommendation.Option)
	require.Contains(t, c.Sentence, "Choose a cabinet of five inches in…: ")
	require.NotContains(t, c.Sentence, "of the hall")
	b.decision.strip.Choose(begins)
	c = b.decision.strip.Content()
	require.Contains(t, c.Sentence, "a cabinet of five inches in…: ")
	require.Contains(t, c.Why, "Recommended: a cabinet of five inches in….")
}

// A price that nobody typed makes no total: the strip says so instead of a number.
func TestAnUnknownCostIsShownAsUnknown(t *testing.T) {
	b := newBench(t)
	job := example(t, "one-inch-slot")
	for i := range job.Options {
		job.Options[i].Price = 0
	}
	job.Prices = sizing.WorkPrices{}
	b.put(job, "")
	then := b.decision.proposal(b.session.Study())
	require.False(t, then.TenYearKnown)
	require.Equal(t, "not known", b.decision.strip.Content().Figures[4].After)
	require.Contains(t, b.decision.strip.Content().Sentence, "no price entered")
	height := b.decision.strip.Object().Size().Height
	b.put(sizing.Job{Schema: sizing.Schema}, "")
	require.Equal(t, height, b.decision.strip.Object().Size().Height, "the words take no more room than a number")
}

// Old numbers dim while a solve is under way, and change when it is done: none
// is gone in between.
func TestOldNumbersDimAndThenChange(t *testing.T) {
	b, h := rangingBench(t, fewSamples)
	before := b.decision.strip.Content()
	require.False(t, before.Dim)
	b.session.Apply("Design airflow", func(j *sizing.Job) { j.DesignAirflow = 1100 * units.CFM })
	during := b.decision.strip.Content()
	require.True(t, during.Dim)
	for i := range before.Figures {
		require.Equal(t, before.Figures[i].Before, during.Figures[i].Before)
	}
	require.Equal(t, before.Sentence, during.Sentence)
	for b.session.Solving() {
		h.next()
	}
	after := b.decision.strip.Content()
	require.False(t, after.Dim)
	require.Contains(t, after.Figures[0].Title, "of 1100 cfm")
}

// A row just added is not blamed: the strip says in passing that the numbers wait
// for it, and tells of it once another place is entered.
func TestARowJustAddedIsNotBlamed(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("blower")
	test.Tap(formButton(t, b, "Add tap"))
	require.NotEmpty(t, b.session.Errors())
	c := b.decision.strip.Content()
	require.True(t, c.Dim)
	require.Empty(t, troubleOf(b))
	require.Contains(t, c.Why, "from before")
	b.enter("house")
	require.Contains(t, b.decision.strip.Content().Sentence, "1 field cannot be used")
	b.decision.strip.Press()
	require.Equal(t, "blower", b.at)
}

// A list that offers nothing leads to where its first thing is made.
func TestAListOfNothingLeadsToWhereThingsAreMade(t *testing.T) {
	b := newBench(t)
	cool(b, 3)
	b.enter("gauge")
	test.Tap(formButton(t, b, "Add test"))
	for _, c := range []struct{ from, button, to string }{
		{"gauge", "Add a tap ...", "blower"}, {"gauge", "Add an option ...", "compare"},
	} {
		b.enter(c.from)
		test.Tap(formButton(t, b, c.button))
		require.Equal(t, c.to, b.at)
		require.NotNil(t, b.window.Canvas().Focused(), "the keyboard goes along")
	}
}

// A filter is added in the place that needs it: with the size of the slot, in the slot,
// as one step, and the place stays in view and says so.
func TestAFilterIsAddedWhereItIsNeeded(t *testing.T) {
	b := newBench(t)
	cool(b, 3)
	b.session.Apply("size", func(j *sizing.Job) {
		j.Slot.Width, j.Slot.Height, j.Slot.Depth = 16*units.Inch, 25*units.Inch, units.Inch
	})
	b.enter("slot")
	add := func() *widgets.Select {
		for _, o := range test.LaidOutObjects(b.left) {
			if s, ok := o.(*widgets.Select); ok && s.PlaceHolder == "Add a filter ..." {
				return s
			}
		}
		t.Fatal("nothing adds a filter")
		return nil
	}
	require.NotContains(t, strings.Join(add().Options, "\n"), "4 in", "a deep one does not go into the slot")
	add().SetSelected("MERV 8: Generic 1 in pleat")
	require.Equal(t, "slot", b.at)
	job := b.session.Job()
	require.Len(t, job.Filters, 1)
	f := job.Filters[0]
	require.Equal(t, []units.Length{16 * units.Inch, 25 * units.Inch, units.Inch}, []units.Length{f.Width, f.Height, f.Depth})
	require.InDelta(t, 0.022*16/20, float64(f.DustCapacity), 1e-9, "it holds as much dust a face")
	require.Equal(t, f.Name, job.Slot.Filter)
	require.Contains(t, strings.Join(said(b.left), "\n"), f.Name+", 16x25x1, is added and is in this place.")
	add().SetSelected("Another filter")
	job = b.session.Job()
	require.Equal(t, "filter", job.Slot.Filter)
	require.Equal(t, 25*units.Inch, job.Filters[1].Height)
	test.Tap(formButton(t, b, "Describe it under Filters"))
	require.Equal(t, "filters", b.at)
	b.Undo()
	require.Len(t, b.session.Job().Filters, 1)
	require.Equal(t, f.Name, b.session.Job().Slot.Filter)
}

// Only what fits stands under a head that says so.
func TestTheHeadOfTheAnswerIsTrue(t *testing.T) {
	b := newBench(t)
	heads := map[string]bool{}
	for _, name := range []string{"", "one-inch-slot", "metric-altitude"} {
		for _, face := range []units.Speed{0, 100 * units.FPM, 30 * units.FPM} {
			job := sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM}
			if name != "" {
				job = example(t, name)
			}
			job.TargetFaceVelocity = face
			b.put(job, "")
			a := b.session.Study().SuggestedSizes
			fit, all := 0, 0
			for _, z := range []*sizing.Size{a.Grille, a.Slot, a.Cabinet} {
				if z != nil {
					all++
				}
				if z != nil && z.MeetsAll {
					fit++
				}
			}
			want := "Suggested sizes: the smallest that fit"
			switch {
			case fit == 0:
				want = "No size fits: the nearest ones"
			case fit < all:
				want = "Smallest sizes that fit, or the nearest"
			}
			heads[want] = true
			require.Contains(t, said(b.window.Content()), want, "%s at %v", name, face)
		}
	}
	require.Len(t, heads, 3)
}

// Whatever the strip says, it keeps its height, and the place under it stays
// where it is.
func TestTheStripLeavesThePlaceWhereItIs(t *testing.T) {
	for _, size := range []fyne.Size{fyne.NewSize(1366, 700), fyne.NewSize(1920, 1010), fyne.NewSize(1024, 600)} {
		b := newBench(t)
		b.window.Resize(size)
		for _, p := range places() {
			b.session.Load(sizing.Job{Schema: sizing.Schema}, "")
			b.goTo(p.key)
			top, height := b.body.Position(), b.decision.strip.Object().Size().Height
			require.Positive(t, height)
			require.Less(t, height, size.Height/3)
			b.session.Load(example(t, "one-inch-slot"), "")
			require.Equal(t, top, b.body.Position(), p.key)
			b.session.Apply("spoil", func(j *sizing.Job) { j.Equipment.RatedExternalStatic = 90 * units.InchWater })
			b.session.ShowAllFaults()
			require.NotEmpty(t, troubleOf(b))
			require.Equal(t, top, b.body.Position(), p.key)
			require.Equal(t, height, b.decision.strip.Object().Size().Height, p.key)
		}
	}
}

// The strip fits the smallest window at the largest letters, with all five
// figures and the whole sentence; ranges and reason give way.
func TestTheStripFitsASmallWindow(t *testing.T) {
	b := newBench(t)
	b.settings.TextSize = 1.5
	b.retheme()
	b.window.Resize(fyne.NewSize(1024, 600))
	for _, e := range assets.Examples() {
		b.put(example(t, e.Name), "")
		require.LessOrEqual(t, b.decision.strip.Object().Size().Height, float32(200))
		require.Less(t, b.root.MinSize().Width, float32(1024)+1, e.Name)
		require.False(t, b.decision.strip.SentenceCut(), "%s: %s", e.Name, b.decision.strip.Content().Sentence)
	}
}

// Sentence and reason are whole at the sizes that windows have.
func TestTheStripShowsAllOfItsText(t *testing.T) {
	b := newBench(t)
	for _, text := range textSizes {
		b.settings.TextSize = text
		b.retheme()
		for _, size := range []fyne.Size{{Width: 1024, Height: 600}, {Width: 1280, Height: 720}, {Width: 1366, Height: 768}, {Width: 1920, Height: 1080}, {Width: 2560, Height: 1440}} {
			b.window.Resize(size)
			for _, e := range assets.Examples() {
				b.put(example(t, e.Name), "")
				for _, o := range b.decision.strip.Content().Choices {
					b.decision.strip.Choose(o)
					c := b.decision.strip.Content()
					require.False(t, b.decision.strip.SentenceCut(), "%v at %g: %s", size, text, c.Sentence)
					require.False(t, b.decision.strip.WhyCut(), "%v at %g: %s", size, text, c.Why)
				}
			}
		}
	}
}

// Six groups; the one in view shows its places and the others do not.
func TestSixGroupsOfPlaces(t *testing.T) {
	b := newBench(t)
	groups := map[message.ID]bool{}
	for _, p := range places() {
		if p.group != "" {
			groups[p.group] = true
		}
	}
	require.Len(t, groups, 6)
	for _, p := range places() {
		b.goTo(p.key)
		for _, it := range b.nav.items {
			require.Equal(t, it.level == groupItem || it.place.group == p.group, it.Visible(), "%s in %s", it.name, p.key)
		}
		require.LessOrEqual(t, visibleItems(b), 14)
	}
}

func visibleItems(b *Bench) (n int) {
	for _, it := range b.nav.items {
		if it.Visible() {
			n++
		}
	}
	return n
}

// A template is an example without what belongs to its house alone.
func TestATemplateHasNoReadings(t *testing.T) {
	b := newBench(t)
	for _, e := range assets.Examples() {
		b.session.Load(sizing.Job{Schema: sizing.Schema}, "")
		b.NewFromTemplate(e.Name)
		job := b.session.Job()
		require.Empty(t, job.Readings, e.Name)
		require.Empty(t, job.Name, e.Name)
		require.NotEmpty(t, job.Returns, e.Name)
		require.NotNil(t, b.session.Study(), e.Name)
		require.Empty(t, b.session.Study().Readings, e.Name)
	}
}

// An empty bench offers what can be opened beside the three numbers, and the
// answer takes its room from the first number on.
func TestAnEmptyBenchOffersJobsUntilTheFirstNumber(t *testing.T) {
	b := newBench(t)
	s := b.screens[firstPlace].(sideContent)
	require.NotNil(t, s.Beside())
	require.Equal(t, s.Beside(), b.right.Objects[0])
	typeText(t, b, "3")
	require.Nil(t, s.Beside())
	require.Equal(t, b.pane.Object(), b.right.Objects[0])
	b.Undo()
	require.NotNil(t, b.session.Study(), "the figures from before stay")
}

// Text and ground of the strip keep their contrast in both themes.
func TestTodayAndProposalHaveColorsOfTheirOwn(t *testing.T) {
	for _, variant := range []string{look.Light, look.Dark} {
		th := look.Theme(variant, 1)
		require.NotEqual(t, look.Of(th, look.Today), look.Of(th, look.Proposal))
	}
}

// worse are houses with more problems than an example has: what the strip says of them
// is long.
func worse(t testing.TB) map[string]sizing.Job {
	t.Helper()
	houses := map[string]sizing.Job{}
	for _, e := range assets.Examples() {
		bad := example(t, e.Name)
		houses[e.Name] = bad
		bad.DesignAirflow *= 1.25
		bad.Equipment.RatedExternalStatic = 0.3 * units.InchWater
		bad.Equipment.HeatingOutput *= 1.5
		houses[e.Name+", worse"] = bad
		alone := bad
		alone.Options = nil
		houses[e.Name+", worse, without options"] = alone
		lossy := bad
		lossy.Readings = []sizing.Reading{{
			ReturnPlenum: -0.45 * units.InchWater, BlowerInlet: -0.62 * units.InchWater, BlowerOutlet: 0.3 * units.InchWater, SupplyPlenum: 0.12 * units.InchWater,
		}}
		houses[e.Name+", loss"] = lossy
	}
	return houses
}

// However many problems a house has, what to do about them is never cut: the words for
// the problem get shorter.
func TestTheStripNeverCutsWhatToDo(t *testing.T) {
	houses, shortened, before := worse(t), 0, lang.Locale()
	t.Cleanup(func() { lang.Set(before) })
	for _, l := range []units.Locale{{}, {Language: "es", Comma: true}} {
		lang.Set(l)
		b := newBench(t)
		for _, text := range []float32{1, 1.5} {
			b.settings.TextSize = text
			b.retheme()
			for _, size := range []fyne.Size{{Width: 1024, Height: 600}, {Width: 1366, Height: 768}} {
				b.window.Resize(size)
				for name, job := range houses {
					b.put(job, "")
					require.NotNil(t, b.session.Study(), name)
					c, strip := b.decision.strip.Content(), b.decision.strip
					require.False(t, strip.SentenceCut(), "%s, %v at %g: %s", name, size, text, strip.SentenceShown())
					if strip.SentenceShown() != c.Sentence {
						shortened++
					}
				}
			}
		}
	}
	require.Positive(t, shortened, "no house of these is told of at length")
}
