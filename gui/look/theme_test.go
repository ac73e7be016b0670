package look

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"

	"returnbench/sizing"
)

func TestThemeScalesText(t *testing.T) {
	one, big := Theme(Light, 1), Theme(Light, 1.5)
	assert.EqualValues(t, 14, one.Size(theme.SizeNameText))
	assert.EqualValues(t, 21, big.Size(theme.SizeNameText))
	assert.Equal(t, one.Size(theme.SizeNamePadding), big.Size(theme.SizeNamePadding))
	assert.EqualValues(t, 14, Theme("", 0).Size(theme.SizeNameText), "no scale given is scale 1")
}

func TestThemeVariants(t *testing.T) {
	l, d := Theme(Light, 1), Theme(Dark, 1)
	for _, v := range []struct{ got, want any }{
		{l.Color(theme.ColorNameBackground, theme.VariantDark), light[theme.ColorNameBackground]},
		{d.Color(theme.ColorNameBackground, theme.VariantLight), dark[theme.ColorNameBackground]},
	} {
		assert.Equal(t, v.want, v.got, "the theme decides, not the desktop")
	}
}

// The menu's shortcuts as the toolkit (2.7.1) colors them, by its own
// arithmetic, can be read on the menu.
func TestMenuShortcutsCanBeRead(t *testing.T) {
	for _, variant := range []string{Light, Dark} {
		th := Theme(variant, 1)
		r, g, b, a := th.Color(theme.ColorNameForeground, theme.VariantLight).RGBA()
		shortcut := color.NRGBA{R: uint8(r), G: uint8(g), B: uint8(b), A: uint8(uint32(float32(a) * 0.95))}
		ground := colourOf(th, theme.ColorNameMenuBackground)
		assert.GreaterOrEqual(t, contrast(over(shortcut, ground), ground), 4.5, variant)
	}
}

func TestSeverityColoursDiffer(t *testing.T) {
	seen := map[any]bool{}
	for _, s := range []sizing.Severity{sizing.Good, sizing.Caution, sizing.Stop} {
		assert.False(t, seen[Ink(s)], s)
		assert.False(t, seen[Wash(s)], s)
		seen[Ink(s)], seen[Wash(s)] = true, true
	}
}

func TestFaceIsAFont(t *testing.T) {
	regular, bold := Face()
	for _, f := range [][]byte{regular, bold} {
		assert.Greater(t, len(f), 10_000)
		assert.Equal(t, []byte{0, 1, 0, 0}, f[:4], "TrueType, OpenType spec: sfntVersion 0x00010000")
	}
}
