package plots

import (
	"fmt"
	"image/color"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"

	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

// The contrast ratio of WCAG 2.2 runs from 1 to 21; blue weighs 0.0722.
func TestContrast_Identity(t *testing.T) {
	assert.InDelta(t, 21, contrast(rgb(0), rgb(0xFFFFFF)), 1e-9)
	assert.InDelta(t, 1, contrast(rgb(0xFFFFFF), rgb(0xFFFFFF)), 1e-9)
	assert.InDelta(t, 0.0722, luminance(rgb(0x0000FF)), 1e-12)
}

func TestContrast_Plausible(t *testing.T) {
	for _, r := range []published.Row{
		{Name: "#767676 on white", Source: "from memory: the lightest grey that meets 4.5:1 on white", Got: contrast(rgb(0x767676), rgb(0xFFFFFF)), Want: 4.54, Tolerance: 0.005, Why: "two printed decimals"},
	} {
		published.Check(t, r)
	}
}

func looks() map[string]Look {
	return map[string]Look{
		"light": Light(units.IP), "dark": Dark(units.IP), "print": Print(units.IP),
		"light mono": mono(Light(units.IP)).complete(), "dark mono": mono(Dark(units.IP)).complete(), "print mono": mono(Print(units.IP)).complete(),
	}
}

// Words want 4.5:1 and lines 3:1 (WCAG 2.2, success criteria 1.4.3, 1.4.11).
func TestColoursStandOut(t *testing.T) {
	for name, l := range looks() {
		for _, c := range append([]color.Color{l.Ink, l.Faint, l.Limit}, l.Series...) {
			assert.GreaterOrEqual(t, contrast(c, l.Background), 4.5, "%s: %v", name, c)
		}
		assert.GreaterOrEqual(t, contrast(l.Rest, l.Background), 3.0, "%s: the other options", name)
		for _, c := range slices.Concat(l.Fills, l.Money) {
			assert.GreaterOrEqual(t, contrast(l.on(c), c), 4.5, "%s: words on %v", name, c)
		}
		assert.Greater(t, contrast(l.Grid, l.Background), 1.05, "%s: the grid can be seen", name)
	}
}

// sight turns linear sRGB into what an eye without the long or the middle cone
// sees. Machado, Oliveira and Fernandes 2009, severity 1 (from memory).
var sight = map[string][3][3]float64{
	"normal": {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}},
	"protan": {{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}},
	"deutan": {{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}},
}

// seen gives the color in CIE 1976 L*a*b* as an eye sees it.
func seen(c color.Color, eye [3][3]float64) [3]float64 {
	r, g, b, _ := c.RGBA()
	in := [3]float64{linear(r), linear(g), linear(b)}
	var l [3]float64
	for i := range l {
		for k := range in {
			l[i] += eye[i][k] * in[k]
		}
		l[i] = min(max(l[i], 0), 1)
	}
	f := func(t float64) float64 {
		if t > 216.0/24389 {
			return math.Cbrt(t)
		}
		return (24389.0/27*t + 16) / 116
	}
	x := f((0.4124*l[0] + 0.3576*l[1] + 0.1805*l[2]) / 0.95047)
	y := f(0.2126*l[0] + 0.7152*l[1] + 0.0722*l[2])
	z := f((0.0193*l[0] + 0.1192*l[1] + 0.9505*l[2]) / 1.08883)
	return [3]float64{116*y - 16, 500 * (x - y), 200 * (y - z)}
}

func difference(a, b [3]float64) float64 {
	return math.Sqrt((a[0]-b[0])*(a[0]-b[0]) + (a[1]-b[1])*(a[1]-b[1]) + (a[2]-b[2])*(a[2]-b[2]))
}

// Any two series differ by 15 at least, several times what is just noticed,
// also for color-blind eyes.
func TestSeriesDifferForEveryEye(t *testing.T) {
	for name, l := range map[string]Look{"light": Light(units.IP), "dark": Dark(units.IP), "print": Print(units.IP)} {
		series := append([]color.Color{l.Rest}, l.Series...)
		for eye, m := range sight {
			for i, a := range series {
				for _, b := range series[:i] {
					assert.Greater(t, difference(seen(a, m), seen(b, m)), 15.0, "%s, %s: %v and %v", name, eye, a, b)
				}
			}
		}
	}
}

// Neighbours in a bar differ in lightness, so that they part in gray too.
func TestFillsPartInGrey(t *testing.T) {
	for name, l := range looks() {
		for _, fills := range [][]color.Color{l.Fills, l.Money} {
			for i := 1; i < 4; i++ {
				a, b := seen(fills[i-1], sight["normal"]), seen(fills[i], sight["normal"])
				assert.Greater(t, math.Abs(a[0]-b[0]), 10.0, "%s: fills %d and %d", name, i-1, i)
			}
		}
	}
}

// Parts of the air's path and parts of a cost share no color, and neither has one
// of an option.
func TestColorsSayOneThing(t *testing.T) {
	for name, l := range map[string]Look{"light": Light(units.IP), "dark": Dark(units.IP), "print": Print(units.IP)} {
		for _, c := range l.Money {
			assert.NotContains(t, l.Fills, c, name)
		}
		for _, c := range l.Series {
			assert.NotContains(t, slices.Concat(l.Fills, l.Money, l.Depths), c, name)
		}
	}
}

func TestMonochromeHasNoColour(t *testing.T) {
	c := NewCanvas()
	for _, look := range []Look{mono(Light(units.IP)), mono(Dark(units.IP))} {
		for _, k := range All(testStudy(3), look) {
			picture, _ := c.Render(k, look, 620, 380, 96)
			for i := 0; i < len(picture.Pix); i += 4 {
				p := picture.Pix[i : i+3]
				if p[0] != p[1] || p[1] != p[2] {
					t.Fatalf("%s: pixel %d is %v", k.Key, i/4, p)
				}
			}
		}
	}
}

func TestLookFillsWhatIsOpen(t *testing.T) {
	l := Look{}.complete()
	assert.Equal(t, Light(units.IP).Ink, l.Ink)
	assert.Equal(t, 1.0, l.Scale)
	assert.Equal(t, 3.0, Look{Scale: 99}.complete().Scale)
	assert.Equal(t, 1.0, Look{Scale: math.NaN()}.complete().Scale)
	own := Look{Ink: rgb(0x123456)}.complete()
	assert.Equal(t, rgb(0x123456), own.Ink)
}

func TestShapesDiffer(t *testing.T) {
	seen := map[string]bool{}
	for i := range 2 * len(shapes) { // no two options share a mark
		s := fmt.Sprint(shape(i))
		assert.False(t, seen[s], "shape %d is used before", i)
		seen[s] = true
	}
}
