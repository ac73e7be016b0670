package look

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"

	"returnbench/sizing/units"
)

// Lines and words of a chart keep 4.5 to 1 on the ground the window gives them
// (WCAG 2.1, 1.4.3 AA; for lines 1.4.11 asks only 3).
func TestChartContrast(t *testing.T) {
	for _, variant := range []string{Light, Dark} {
		l := ForPlots(Theme(variant, 1), variant, units.IP, 1)
		ground := color.NRGBAModel.Convert(l.Background).(color.NRGBA)
		for i, c := range append([]color.Color{l.Ink, l.Faint, l.Limit}, l.Series...) {
			got := contrast(color.NRGBAModel.Convert(c).(color.NRGBA), ground)
			assert.GreaterOrEqual(t, got, 4.5, "%s: colour %d is %.2f", variant, i, got)
		}
	}
}

// Today and the proposal have one color each, in numbers as in charts.
func TestChartsWearTheReservedColors(t *testing.T) {
	for variant, own := range map[string]map[fyne.ThemeColorName]color.NRGBA{Light: light, Dark: dark} {
		l := ForPlots(Theme(variant, 1), variant, units.IP, 1)
		assert.Equal(t, []color.Color{own[Today], own[Proposal]}, l.Series[:2], variant)
		assert.NotContains(t, l.Series[2:], l.Series[0])
	}
}
