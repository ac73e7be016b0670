package plots

import (
	"image/color"
	"math"
)

// luminance is the relative luminance of a color, 0 to 1:
//
//	L = 0.2126 R + 0.7152 G + 0.0722 B
//
// with R, G, B the sRGB channels made linear. Source: W3C, Web Content
// Accessibility Guidelines 2.2, definition of relative luminance.
func luminance(c color.Color) float64 {
	r, g, b, _ := c.RGBA()
	return 0.2126*linear(r) + 0.7152*linear(g) + 0.0722*linear(b)
}

func linear(channel uint32) float64 {
	v := float64(channel) / 0xFFFF
	if v <= 0.04045 {
		return v / 12.92
	}
	return math.Pow((v+0.055)/1.055, 2.4)
}
