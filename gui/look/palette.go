package look

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/sizing"
)

// Colours beyond the toolkit's own names.
const (
	// WashGood, WashCaution and WashStop lie under text that tells a severity.
	WashGood    fyne.ThemeColorName = "washGood"
	WashCaution fyne.ThemeColorName = "washCaution"
	WashStop    fyne.ThemeColorName = "washStop"
	// Raised is a panel that stands off the background.
	Raised fyne.ThemeColorName = "raised"
	// Air is the airway in drawings; AirEdge is its outline.
	Air     fyne.ThemeColorName = "air"
	AirEdge fyne.ThemeColorName = "airEdge"
	// Today is the color of the house as it is, Proposal that of the option
	// proposed, in numbers as in charts.
	Today    fyne.ThemeColorName = "today"
	Proposal fyne.ThemeColorName = "proposal"
)

// Ink is the color name of a severity's mark and word.
func Ink(s sizing.Severity) fyne.ThemeColorName {
	switch s {
	case sizing.Good:
		return theme.ColorNameSuccess
	case sizing.Caution:
		return theme.ColorNameWarning
	case sizing.Stop:
		return theme.ColorNameError
	}
	return theme.ColorNameForeground
}

// Wash is the color name of the ground under a severity's text.
func Wash(s sizing.Severity) fyne.ThemeColorName {
	switch s {
	case sizing.Good:
		return WashGood
	case sizing.Caution:
		return WashCaution
	case sizing.Stop:
		return WashStop
	}
	return Raised
}

// Of gives a color of the theme in use, and the bench's own where the theme
// does not know the name.
func Of(th fyne.Theme, name fyne.ThemeColorName) color.Color {
	v := theme.VariantLight
	if a := fyne.CurrentApp(); a != nil {
		v = a.Settings().ThemeVariant()
	}
	if _, own := th.(*bench); !own {
		switch name {
		case WashGood, WashCaution, WashStop, Raised, Air, AirEdge, Today, Proposal:
			if v == theme.VariantDark {
				return dark[name]
			}
			return light[name]
		}
	}
	return th.Color(name, v)
}

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff}
}

func overlay(hex uint32, alpha uint8) color.NRGBA {
	c := rgb(hex)
	c.A = alpha
	return c
}

type palette map[fyne.ThemeColorName]color.NRGBA

var light = palette{
	theme.ColorNameBackground:          rgb(0xF6F2E9),
	theme.ColorNameForeground:          rgb(0x23282A),
	theme.ColorNameButton:              rgb(0xE7E0D0),
	theme.ColorNameDisabledButton:      rgb(0xEEE9DD),
	theme.ColorNameDisabled:            rgb(0x66625A),
	theme.ColorNamePlaceHolder:         rgb(0x646056),
	theme.ColorNameHeaderBackground:    rgb(0xEAE4D6),
	theme.ColorNameInputBackground:     rgb(0xFFFDF8),
	theme.ColorNameInputBorder:         rgb(0x8B8677),
	theme.ColorNameMenuBackground:      rgb(0xFCF9F2),
	theme.ColorNameOverlayBackground:   rgb(0xFCF9F2),
	theme.ColorNameSeparator:           rgb(0xCFC8B6),
	theme.ColorNameScrollBar:           overlay(0x23282A, 0x90),
	theme.ColorNameScrollBarBackground: overlay(0x23282A, 0x14),
	theme.ColorNameShadow:              overlay(0x000000, 0x33),
	theme.ColorNameHover:               overlay(0x23282A, 0x12),
	theme.ColorNamePressed:             overlay(0x23282A, 0x24),
	theme.ColorNamePrimary:             rgb(0x0B5F5B),
	theme.ColorNameForegroundOnPrimary: rgb(0xFFFFFF),
	theme.ColorNameHyperlink:           rgb(0x0B5F5B),
	theme.ColorNameFocus:               overlay(0x00B8AC, 0x58),
	theme.ColorNameSelection:           overlay(0x0B7F78, 0x44),
	theme.ColorNameSuccess:             rgb(0x2A5F2E),
	theme.ColorNameForegroundOnSuccess: rgb(0xFFFFFF),
	theme.ColorNameWarning:             rgb(0x7A4700),
	theme.ColorNameForegroundOnWarning: rgb(0xFFFFFF),
	theme.ColorNameError:               rgb(0x9C211B),
	theme.ColorNameForegroundOnError:   rgb(0xFFFFFF),
	WashGood:                           rgb(0xE1EDDB),
	WashCaution:                        rgb(0xF6E5C3),
	WashStop:                           rgb(0xF7DDD5),
	Raised:                             rgb(0xFCF9F2),
	Air:                                rgb(0xDCEBE8),
	AirEdge:                            rgb(0x4C6F6C),
	Today:                              rgb(0x9A4208),
	Proposal:                           rgb(0x0B45C4),
}

var dark = palette{
	theme.ColorNameBackground:          rgb(0x1F2324),
	theme.ColorNameForeground:          rgb(0xE9E5DB),
	theme.ColorNameButton:              rgb(0x353B3D),
	theme.ColorNameDisabledButton:      rgb(0x2A2F30),
	theme.ColorNameDisabled:            rgb(0xA7A49A),
	theme.ColorNamePlaceHolder:         rgb(0xAEAA9E),
	theme.ColorNameHeaderBackground:    rgb(0x2C3234),
	theme.ColorNameInputBackground:     rgb(0x292E30),
	theme.ColorNameInputBorder:         rgb(0x838985),
	theme.ColorNameMenuBackground:      rgb(0x272C2E),
	theme.ColorNameOverlayBackground:   rgb(0x272C2E),
	theme.ColorNameSeparator:           rgb(0x454C4E),
	theme.ColorNameScrollBar:           overlay(0xE9E5DB, 0x90),
	theme.ColorNameScrollBarBackground: overlay(0xE9E5DB, 0x14),
	theme.ColorNameShadow:              overlay(0x000000, 0x66),
	theme.ColorNameHover:               overlay(0xE9E5DB, 0x14),
	theme.ColorNamePressed:             overlay(0xE9E5DB, 0x24),
	theme.ColorNamePrimary:             rgb(0x66C7BB),
	theme.ColorNameForegroundOnPrimary: rgb(0x0C211F),
	theme.ColorNameHyperlink:           rgb(0x66C7BB),
	theme.ColorNameFocus:               overlay(0xE6FFFB, 0x2A),
	theme.ColorNameSelection:           overlay(0x66C7BB, 0x44),
	theme.ColorNameSuccess:             rgb(0x93CE8B),
	theme.ColorNameForegroundOnSuccess: rgb(0x0F2410),
	theme.ColorNameWarning:             rgb(0xEDBB58),
	theme.ColorNameForegroundOnWarning: rgb(0x2A1D00),
	theme.ColorNameError:               rgb(0xFFA394),
	theme.ColorNameForegroundOnError:   rgb(0x340C07),
	WashGood:                           rgb(0x24372A),
	WashCaution:                        rgb(0x3D331F),
	WashStop:                           rgb(0x472A26),
	Raised:                             rgb(0x272C2E),
	Air:                                rgb(0x2B4240),
	AirEdge:                            rgb(0x86ADA8),
	Today:                              rgb(0xF7A24A),
	Proposal:                           rgb(0xB4B8FF),
}
