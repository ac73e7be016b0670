package report

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// TestCustomerSpans_Identity: with samples, electricity and the filter's share
// span them from either state of the filter, the least first, on the one page.
func TestCustomerSpans_Identity(t *testing.T) {
	job, s := studied(t, "one-inch-slot")
	opts := testOptions(Customer, Letter, units.IP)
	ranges, err := sizing.Sampling{Samples: 40, Seed: 2}.Ranges(context.Background(), job)
	require.NoError(t, err)
	opts.Ranges = ranges
	pages := readPages(t, written(t, job, s, opts))
	require.Len(t, pages, 1)
	text := allText(pages)
	watts := numbersAfter(t, text, powerLine)
	parts := numbersAfter(t, text, shareLine)
	require.Len(t, watts, 4)
	require.Len(t, parts, 4)
	p, err := planFor(job, s, "")
	require.NoError(t, err)
	for i, o := range []*sizing.OptionResult{p.today, p.option} {
		for _, c := range []*sizing.Condition{&o.Clean, &o.Loaded} {
			drop, ok := filterShare(c)
			require.True(t, ok)
			assert.LessOrEqual(t, watts[2*i], c.BlowerPower.In(units.Watt)+2.5, o.Name)
			assert.GreaterOrEqual(t, watts[2*i+1], c.BlowerPower.In(units.Watt)-2.5, o.Name)
			assert.LessOrEqual(t, parts[2*i], 100*drop+0.5, o.Name)
			assert.GreaterOrEqual(t, parts[2*i+1], 100*drop-0.5, o.Name)
		}
		clean, known := ranges[1].Of("blower_power")
		require.True(t, known)
		loaded, known := ranges[1].Of("blower_power_loaded")
		require.True(t, known)
		if o == s.Today() {
			near(t, units.Power(min(clean.Low, loaded.Low)), watts[0], units.IP, o.Name)
			near(t, units.Power(max(clean.High, loaded.High)), watts[1], units.IP, o.Name)
		}
	}
}
