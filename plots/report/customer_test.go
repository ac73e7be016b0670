package report

import (
	"context"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// TestCustomerSpans: with samples, each line spans what is uncertain of
// one state of the filter, on the one page.
func TestCustomerSpans(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	opts := testOptions(Customer, Letter, units.IP)
	ranges, err := sizing.Sampling{Samples: 40, Seed: 2}.Ranges(context.Background(), job)
	require.NoError(t, err)
	opts.Ranges = ranges
	pages := readPages(t, written(t, job, s, opts))
	require.LessOrEqual(t, len(pages), 2)
	text := allText(pages)
	p, err := planFor(job, s, "", units.IP)
	require.NoError(t, err)
	d := &document{Options: opts}
	for _, x := range []struct {
		line, key string
		of        func(float64) units.Quantity
	}{
		{string(powerLine), "blower_power", func(v float64) units.Quantity { return units.Power(v) }},
		{string(powerDue), "blower_power_loaded", func(v float64) units.Quantity { return units.Power(v) }},
		{string(airLine), "airflow", func(v float64) units.Quantity { return units.Flow(v) }},
		{string(airDueLine), "airflow_loaded", func(v float64) units.Quantity { return units.Flow(v) }},
	} {
		got := numbersAfter(t, text, x.line)
		for _, o := range []*sizing.OptionResult{p.today, p.option} {
			known, ok := d.known(o)
			require.True(t, ok)
			r, ok := known.Of(x.key)
			require.True(t, ok, x.key)
			require.NotEmpty(t, got, x.line)
			near(t, x.of(r.Low), got[0], units.IP, o.Name+": "+x.line)
			if between(x.of(r.Low), x.of(r.High), units.IP) == about(x.of(r.Low), units.IP) {
				got = got[1:]
				continue
			}
			near(t, x.of(r.High), got[1], units.IP, o.Name+": "+x.line)
			got = got[2:]
		}
		require.Empty(t, got, x.line)
	}
	assert.Len(t, numbersAfter(t, text, string(shareLine)), 4)
	assert.Len(t, numbersAfter(t, text, string(shareDue)), 4)
}

// TestCustomerWords: each trouble of today is said to be removed or not,
// and no line tells of a rest that it does not name.
func TestCustomerWords(t *testing.T) {
	for _, name := range jobNames() {
		job, s := studied(t, name)
		p, err := planFor(job, s, "", units.IP)
		require.NoError(t, err)
		then := map[sizing.Problem]bool{}
		for _, f := range problems(p.option) {
			then[f.Problem] = true
		}
		groups, more := p.found(units.IP, mostFound)
		assert.Equal(t, len(problems(p.today)) > mostFound, more)
		for _, f := range problems(p.today)[:min(mostFound, len(problems(p.today)))] {
			effect := headOf(groups, plainFinding(f, p.today, units.IP))
			switch {
			case p.isToday():
				assert.Empty(t, effect, name)
			case f.Code == "title24_ducts" || f.Code == "title24_table_drop":
				assert.Contains(t, effect, "We cannot say", "it has no row for three ducts")
			case then[f.Problem]:
				assert.NotEqual(t, "The work removes this:", effect, name)
				assert.NotEmpty(t, effect, name)
			default:
				assert.Regexp(t, "(The work removes this|the deeper filter is made for it)", effect, name)
			}
		}
		text := allText(readPages(t, written(t, job, s, testOptions(Customer, Letter, systemOf(name)))))
		for _, never := range []string{"highest friction", "nameplate:", "and 1 more", "And "} {
			assert.NotContains(t, text, never, name)
		}
		if !p.isToday() {
			holds(t, name, text, "It does not count ")
		}
	}
}

// headOf is what is said over a trouble.
func headOf(groups []problemGroup, trouble string) string {
	for _, g := range groups {
		if slices.Contains(g.problems, trouble) {
			return g.effect
		}
	}
	return "not told"
}

// TestPagesProposeTheRecommended: an option with less static and the
// same verdict is not proposed where it cleans less than today: MERV 5 instead of
// the 10 that today's filter works as.
func TestPagesProposeTheRecommended(t *testing.T) {
	job, _ := studied(t, "one-inch-slot")
	last := job.Clone().Options[len(job.Options)-1]
	coarse := filter.Filter{Name: "coarse, four inch", Depth: 4 * units.Inch, MERV: 5, Price: 10,
		Rating: []filter.RatingPoint{{FaceVelocity: 300 * units.FPM, Drop: 0.07 * units.InchWater}}}
	job.Filters = append(job.Filters, coarse)
	last.Name, last.Filter, last.Slot.Filter = "coarse cabinet and second return", coarse.Name, coarse.Name
	job.Options = append(job.Options, last)
	s, err := sizing.Solve(job)
	require.NoError(t, err)
	best, other := s.Recommended(), s.Option(last.Name)
	require.Equal(t, "cabinet and second return", best.Name)
	require.Less(t, other.Clean.ExternalStatic, best.Clean.ExternalStatic)
	require.Equal(t, best.Verdict, other.Verdict)
	p, err := planFor(job, s, "", units.IP)
	require.NoError(t, err)
	assert.Equal(t, best.Name, p.option.Name)
	text := allText(readPages(t, written(t, job, s, testOptions(Customer, Letter, units.IP))))
	holds(t, best.Name, text, best.Name, string(reasonWords[s.Recommendation.Reason]))
	for _, name := range jobNames() {
		job, s := studied(t, name)
		p, err := planFor(job, s, "", units.IP)
		require.NoError(t, err)
		assert.Equal(t, s.Proposed().Name, p.option.Name)
	}
}

// TestPayWords: the words follow the sums.
func TestPayWords(t *testing.T) {
	_, s := studied(t, "one-inch-slot")
	today := *s.Today()
	for _, x := range []struct {
		saved units.Money
		pays  bool
		years float64
		want  string
	}{
		{100, true, 5.2, "in about 5 years"},
		{900, true, 0.3, "within the first year"},
		{500, true, 1.1, "in about a year"},
		{1, false, 0, "about as much as today"},
		{-60, false, 0, "about $60 more a year than today"},
		{20, false, 0, "saves about $20 a year, too little"},
	} {
		o := today
		o.Kind, o.Upgrade, o.AnnualCost = sizing.KindOption, 500, today.AnnualCost-x.saved
		o.Payback.Known, o.Payback.Pays, o.Payback.Years = true, x.pays, units.Duration(x.years)*units.Year
		d := &document{study: s, plan: &plan{today: &today, option: &o}}
		assert.Contains(t, d.moneyWords(), x.want)
		assert.Contains(t, d.moneyWords(), "$500")
	}
	assert.Equal(t, "$185 to $200", between(185*units.Dollar, 200*units.Dollar, units.IP))
	assert.Equal(t, "Generic 1 in pleat, MERV 8", (&plan{}).called(filterPlace{filter: filter.Filter{Name: "Generic 1 in pleat, MERV 8", MERV: 8}}))
	assert.Contains(t, (&plan{}).called(filterPlace{filter: filter.Filter{Name: "MERV 13 look-alike", MERV: 8}}), "8)")
}
