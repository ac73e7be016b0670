package look

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/plots"
	"returnbench/sizing/units"
)

// chartGround is under the lines of a chart; the dark one is deeper than the
// window so that every series keeps its contrast.
var chartGround = map[string]uint32{Light: 0xFFFDF8, Dark: 0x181B1C}

// reserved is a color of the bench's own, whatever the theme: charts and numbers
// share it.
func reserved(t fyne.Theme, name fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	if _, own := t.(*bench); own {
		return t.Color(name, v)
	}
	if v == theme.VariantDark {
		return dark[name]
	}
	return light[name]
}

// ForPlots dresses charts like the window. The bench's own theme knows its
// variant; the one given serves any other theme. Scale 1 is text of 12 points.
func ForPlots(t fyne.Theme, variant string, sys units.Locale, scale float64) plots.Look {
	if b, own := t.(*bench); own {
		variant = b.name
	}
	l, v := plots.Light(sys), theme.VariantLight
	if variant == Dark {
		l, v = plots.Dark(sys), theme.VariantDark
	} else {
		variant = Light
	}
	l.Background = rgb(chartGround[variant])
	l.Ink = t.Color(theme.ColorNameForeground, v)
	l.Faint = t.Color(theme.ColorNamePlaceHolder, v)
	l.Grid = t.Color(theme.ColorNameSeparator, v)
	l.Limit = t.Color(theme.ColorNameForeground, v)
	l.Series = slices.Clone(l.Series)
	l.Series[0], l.Series[1] = reserved(t, Today, v), reserved(t, Proposal, v)
	l.Scale = scale
	return l
}
