package look

import (
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
)

// luminance is relative luminance of WCAG 2.1 (definition "relative
// luminance"): 0.2126 R + 0.7152 G + 0.0722 B of the linear channels.
func luminance(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.03928 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

// contrast is the ratio (L1 + 0.05) / (L2 + 0.05) of WCAG 2.1.
func contrast(a, b color.NRGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

// over lays a translucent color on an opaque one.
func over(top, ground color.NRGBA) color.NRGBA {
	mix := func(t, g uint8) uint8 {
		a := float64(top.A) / 255
		return uint8(math.Round(float64(t)*a + float64(g)*(1-a)))
	}
	return color.NRGBA{R: mix(top.R, ground.R), G: mix(top.G, ground.G), B: mix(top.B, ground.B), A: 0xff}
}

func colourOf(th fyne.Theme, name fyne.ThemeColorName) color.NRGBA {
	return color.NRGBAModel.Convert(th.Color(name, theme.VariantLight)).(color.NRGBA)
}

// WCAG 2.1 in its definition of contrast ratio: black on white is 21 to 1.
func TestContrast_Identity(t *testing.T) {
	assert.InDelta(t, 21, contrast(rgb(0x000000), rgb(0xFFFFFF)), 1e-9, "WCAG 2.1, definition of contrast ratio")
	assert.InDelta(t, 1, contrast(rgb(0x777777), rgb(0x777777)), 1e-12, "WCAG 2.1, definition of contrast ratio")
}

func TestContrast_Plausible(t *testing.T) {
	// #767676 is the lightest gray that passes on white: common knowledge of
	// the guideline's users, from memory.
	assert.GreaterOrEqual(t, contrast(rgb(0x767676), rgb(0xFFFFFF)), 4.5)
	assert.Less(t, contrast(rgb(0x777777), rgb(0xFFFFFF)), 4.5)
}

// Every text keeps 4.5 to 1 on all it may stand on (WCAG 2.1, 1.4.3 AA).
func TestThemeTextContrast(t *testing.T) {
	grounds := []fyne.ThemeColorName{
		theme.ColorNameBackground, theme.ColorNameInputBackground, theme.ColorNameMenuBackground,
		theme.ColorNameOverlayBackground, theme.ColorNameHeaderBackground, Raised,
	}
	washes := []fyne.ThemeColorName{WashGood, WashCaution, WashStop}
	severities := []fyne.ThemeColorName{theme.ColorNameSuccess, theme.ColorNameWarning, theme.ColorNameError}
	onAll := append([]fyne.ThemeColorName{
		theme.ColorNameForeground, theme.ColorNamePlaceHolder, theme.ColorNameDisabled,
		theme.ColorNamePrimary, theme.ColorNameHyperlink, Today, Proposal,
	}, severities...)
	veils := []fyne.ThemeColorName{theme.ColorNameHover, theme.ColorNamePressed, theme.ColorNameSelection, theme.ColorNameFocus}

	for _, variant := range []string{Light, Dark} {
		th := Theme(variant, 1)
		check := func(text fyne.ThemeColorName, ground color.NRGBA, where string) {
			t.Helper()
			c := contrast(colourOf(th, text), ground)
			assert.GreaterOrEqual(t, c, 4.5, "%s: %s on %s is %.2f", variant, text, where, c)
		}
		for _, g := range grounds {
			for _, text := range onAll {
				check(text, colourOf(th, g), string(g))
			}
			for _, v := range veils {
				check(theme.ColorNameForeground, over(colourOf(th, v), colourOf(th, g)), string(v)+" over "+string(g))
			}
		}
		for i, w := range washes {
			check(theme.ColorNameForeground, colourOf(th, w), string(w))
			check(theme.ColorNamePlaceHolder, colourOf(th, w), string(w))
			check(severities[i], colourOf(th, w), string(w))
		}
		for _, s := range severities {
			for _, v := range veils {
				check(s, over(colourOf(th, v), colourOf(th, theme.ColorNameBackground)), string(v)+" over background")
			}
		}
		buttons := []fyne.ThemeColorName{theme.ColorNameButton, theme.ColorNameDisabledButton}
		for _, g := range buttons {
			check(theme.ColorNameForeground, colourOf(th, g), string(g))
			check(theme.ColorNameDisabled, colourOf(th, g), string(g))
			for _, v := range veils {
				check(theme.ColorNameForeground, over(colourOf(th, v), colourOf(th, g)), string(v)+" over "+string(g))
			}
		}
		check(theme.ColorNameForegroundOnPrimary, colourOf(th, theme.ColorNamePrimary), "primary")
		check(theme.ColorNameForegroundOnSuccess, colourOf(th, theme.ColorNameSuccess), "success")
		check(theme.ColorNameForegroundOnWarning, colourOf(th, theme.ColorNameWarning), "warning")
		check(theme.ColorNameForegroundOnError, colourOf(th, theme.ColorNameError), "error")
		check(theme.ColorNameForeground, colourOf(th, Air), "air")
		check(theme.ColorNamePlaceHolder, colourOf(th, Air), "air")
	}
}

// Edges of fields, the focus ring, the selected part's outline: 3 to 1 against
// what is beside them (WCAG 2.1, 1.4.11 AA).
func TestThemeEdgeContrast(t *testing.T) {
	for _, variant := range []string{Light, Dark} {
		th := Theme(variant, 1)
		for _, edge := range []fyne.ThemeColorName{theme.ColorNameInputBorder, theme.ColorNamePrimary, theme.ColorNameError, AirEdge} {
			for _, ground := range []fyne.ThemeColorName{theme.ColorNameBackground, theme.ColorNameInputBackground, Air} {
				if edge == theme.ColorNameInputBorder && ground == Air {
					continue // fields never lie on the airway
				}
				c := contrast(colourOf(th, edge), colourOf(th, ground))
				assert.GreaterOrEqual(t, c, 3.0, "%s: %s on %s is %.2f", variant, edge, ground, c)
			}
		}
	}
}

// Colours by name are all there in both variants, so that none falls through
// to the toolkit's own palette.
func TestThemeKnowsEveryColour(t *testing.T) {
	for name := range light {
		assert.Contains(t, dark, name)
	}
	assert.Len(t, dark, len(light))
}
