package gui

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/duct"
)

type folder interface{ Folded(path string) bool }

// Fields that few need stand closed in the place they belong to, and every way to
// such a field opens its group.
func TestAdvancedFieldsAreClosedUntilAskedFor(t *testing.T) {
	b := newBench(t)
	b.put(jobWithAllLists(duct.Rectangular, duct.ElbowSmooth), "")
	for _, path := range []string{
		"site.discount_rate", "uncertainty.gauge", "uncertainty.blower_table", "uncertainty.rating", "uncertainty.geometry", "uncertainty.assumed",
		"returns[0].runs[0].roughness", "returns[0].fittings[0].coefficient", "slot.gap_bends", "slot.edge_cover", "slot.entry_coefficient",
		"coil.exponent", "supply.exponent", "filters[0].exponent", "options[0].slot.edge_cover", "options[0].speed_ratio",
	} {
		b.goTo(placeOfPath(path))
		form := b.screens[b.at].(folder)
		require.True(t, form.Folded(path), path)
		b.showPath(path)
		require.False(t, form.Folded(path), path)
		require.NotNil(t, b.window.Canvas().Focused(), path)
		b.dropScreens()
	}
}

// A closed group tells of what was typed in it, and one with a fault opens.
func TestAClosedGroupHidesNothingThatCounts(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.session.Apply("Discount rate", func(j *sizing.Job) { j.Site.DiscountRate = 0.04 })
	b.enter("house")
	require.True(t, b.screens["house"].(folder).Folded("site.discount_rate"))
	test.Tap(formButton(t, b, "Advanced (1 entered) ..."))
	require.False(t, b.screens["house"].(folder).Folded("site.discount_rate"))
	test.Tap(formButton(t, b, "Hide advanced"))
	require.True(t, b.screens["house"].(folder).Folded("site.discount_rate"))
	b.session.Apply("spoil", func(j *sizing.Job) { j.Site.DiscountRate = 7 })
	b.session.ShowAllFaults()
	require.False(t, b.screens["house"].(folder).Folded("site.discount_rate"))
}
