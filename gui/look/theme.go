package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// The four sizes of type at scale 1, in points of the toolkit.
const (
	TitleText   = 22
	GroupText   = 16
	BodyText    = 14
	CaptionText = 12
)

// Room, in units of an eight-unit grid: at the edge of a place, and between the
// groups in it.
const (
	Margin   = 16
	GroupGap = 24
)

// Names of the variants.
const (
	Light = "light"
	Dark  = "dark"
)

// Theme is the bench's own theme; any variant but "dark" is the light one, and
// a text scale of zero or less is 1.
func Theme(variant string, textScale float32) fyne.Theme {
	usePlainFonts()
	if textScale <= 0 {
		textScale = 1
	}
	b := &bench{name: Light, colours: light, scale: textScale, base: theme.DefaultTheme(), variant: theme.VariantLight}
	if variant == Dark {
		b.name, b.colours, b.variant = Dark, dark, theme.VariantDark
	}
	return b
}

// Target is the size that what is tapped has at least; zero for a mouse.
const Target fyne.ThemeSizeName = "target"

// TouchTarget is that of a finger, in points of the toolkit.
const TouchTarget = 44

// TouchTheme is Theme with targets for a finger.
func TouchTheme(variant string, textScale float32) fyne.Theme {
	b := Theme(variant, textScale).(*bench)
	b.target = TouchTarget
	return b
}

type bench struct {
	name    string
	colours palette
	scale   float32
	base    fyne.Theme
	variant fyne.ThemeVariant
	target  float32
}

// Color ignores the variant of the desktop: the theme is one or the other.
func (b *bench) Color(name fyne.ThemeColorName, _ fyne.ThemeVariant) color.Color {
	if c, ok := b.colours[name]; ok {
		if name == theme.ColorNameForeground {
			return foreground(c)
		}
		return c
	}
	return b.base.Color(name, b.variant)
}

// foreground is the color of text. The toolkit's menu means to draw a shortcut
// with 95 hundredths of its opacity, but keeps only the low byte of that: of a
// whole 0xFFFF a fifth is left. With this opacity, which is whole to eight bits,
// the low byte is whole too, and shortcuts can be read.
type foreground color.NRGBA

func (f foreground) RGBA() (r, g, b, a uint32) {
	r, g, b, _ = color.NRGBA(f).RGBA()
	return r, g, b, 0xFFCA
}

func (b *bench) Font(style fyne.TextStyle) fyne.Resource { return b.base.Font(style) }

func (b *bench) Icon(name fyne.ThemeIconName) fyne.Resource { return b.base.Icon(name) }

func (b *bench) Size(name fyne.ThemeSizeName) float32 {
	switch name {
	case theme.SizeNameText:
		return BodyText * b.scale
	case theme.SizeNameCaptionText:
		return CaptionText * b.scale
	case theme.SizeNameSubHeadingText:
		return GroupText * b.scale
	case theme.SizeNameHeadingText:
		return TitleText * b.scale
	case theme.SizeNameInlineIcon:
		return 16 * b.scale
	case theme.SizeNamePadding:
		return 4
	case theme.SizeNameInnerPadding:
		// A line of text is 1.36 of its size high.
		return max(4, (b.target-1.36*BodyText*b.scale)/2)
	case Target:
		return b.target
	case theme.SizeNameLineSpacing:
		return 2
	case theme.SizeNameInputBorder:
		return 1.5
	case theme.SizeNameInputRadius, theme.SizeNameSelectionRadius:
		return 3
	case theme.SizeNameScrollBar:
		return max(12, b.target)
	case theme.SizeNameScrollBarSmall:
		return max(6, b.target/2) // a bar at rest is tapped beside it as well, over twice its width
	}
	return b.base.Size(name)
}
