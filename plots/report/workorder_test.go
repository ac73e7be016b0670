package report

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/quote"
	"returnbench/sizing/units"
)

// TestWorkOrderPages_Identity: one page to build from and one with drawings, on
// both papers; the sign-off is on the first.
func TestWorkOrderPages_Identity(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		job = sevenLines(job, s.Proposed().Name)
		for _, p := range Papers() {
			pages := readPages(t, written(t, job, s, testOptions(WorkOrder, p, systemOf(name))))
			require.Len(t, pages, 2, "%s on %s", name, p)
			first, second := pageText(pages[0]), pageText(pages[1])
			holds(t, name, first, "Bartholomew Featherstonehaugh-Montgomery", "First: make it safe", "Parts", "What to read when done", "Tools", "Draft and combustion tested by")
			holds(t, name, second, "Where to drill the test ports")
			if job.Notes != "" {
				assert.NotContains(t, first+second, job.Notes[:20], "notes stay in the job")
			}
		}
	}
}

// Hand-worked for a 20 x 25 in cabinet between a 20 x 20 in plenum and a 14 x 22 in
// unit: (25 - 20) / 2 x 4 = 10 in; (20 - 14) / 2 x 4 = 12 in, more than (25 - 22) / 2
// x 4 = 6 in. One flex has two ends: 2 bands and 2 x 3 screws, and 16 for the
// cabinet are 22.
func TestWorkOrderParts_Identity(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	job.Work = quote.Work{UnitWidth: 14 * units.Inch, UnitHeight: 22 * units.Inch, PlenumWidth: 20 * units.Inch, PlenumHeight: 20 * units.Inch,
		JobNumber: "J-77", Crew: "Two", CrewHours: 9 * units.Hour, Plate: quote.Plate{Maker: "Invented", Model: "XX", Serial: "7"}}
	opts := testOptions(WorkOrder, Letter, units.IP)
	text := allText(readPages(t, written(t, job, s, opts)))
	holds(t, "parts", text,
		"1 transition, return plenum to cabinet 20 x 20 in to 20 x 25 in, 10 in long before the cabinet",
		"1 transition, cabinet to unit 20 x 25 in to 14 x 22 in, 12 in long after the cabinet",
		"1 return grille, bar, with its screws 14 x 24 in living room",
		"1 box behind the grille (boot), collar at the back 14 in living room",
		"1 collar into the return plenum (take-off) 14 in living room",
		"2 draw band for flex", "22 sheet-metal screw", "4 plug for a test port",
		"J-77", "Two, 9 h", "maker Invented, model XX, serial 7", "Goes between studs 14 1/2 in apart")
	job.Work = quote.Work{}
	text = allText(readPages(t, written(t, job, s, opts)))
	holds(t, "open", text, "measure both ends first", "Measure the unit's return opening and the plenum")
}

// TestWattsThatAreNotKnown_Identity: a blower's table without watts gives none to read
// and none to compare.
func TestWattsThatAreNotKnown_Identity(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	const row = "the blower's watts, where they are measured"
	assert.Contains(t, allText(readPages(t, written(t, job, s, testOptions(WorkOrder, Letter, units.IP)))), row)
	taps := slices.Clone(job.Equipment.Blower.Taps)
	for i := range taps {
		taps[i].Points = slices.Clone(taps[i].Points)
		for k := range taps[i].Points {
			taps[i].Points[k].Power = 0
		}
	}
	job.Equipment.Blower.Taps = taps
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	for _, a := range []Audience{WorkOrder, Customer} {
		text := allText(readPages(t, written(t, job, s, testOptions(a, Letter, units.IP))))
		assert.NotContains(t, text, row)
		assert.NotRegexp(t, `(^|[^0-9.])0 W`, text, a)
	}
}

// TestCalculationsPages_Identity: the contents name each section, each option has
// one, and the first example takes ten pages at most.
func TestCalculationsPages_Identity(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	for _, p := range Papers() {
		pages := readPages(t, written(t, job, s, testOptions(Working, p, units.IP)))
		assert.LessOrEqual(t, len(pages), 10)
		first := pageText(pages[0])
		for _, o := range s.Options {
			holds(t, o.Name, first, "Option: "+o.Name)
			assert.NotContains(t, first, "Option: "+o.Name+" 0", "a page that is known")
		}
		text := allText(pages)
		assert.NotContains(t, text, sizing.NoFilterName+", at the change limit")
	}
}
