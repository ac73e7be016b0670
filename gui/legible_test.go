package gui

import (
	"image"
	"image/color"
	"math"
	"os"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/gui/table"
	"returnbench/sizing/units"
)

// area is a rectangle of the window.
type area struct{ x, y, right, bottom float32 }

func (a area) cut(b area) area {
	return area{max(a.x, b.x), max(a.y, b.y), min(a.right, b.right), min(a.bottom, b.bottom)}
}

// written is a text in view: where it is drawn, what it must stay in, and what
// of it is in sight. What a scroll holds may be longer than the scroll.
type written struct {
	text                *canvas.Text
	at, within, inSight area
}

var everywhere = area{-1e6, -1e6, 1e6, 1e6}

func texts(o fyne.CanvasObject, at fyne.Position, within, sight area) (out []written) {
	if !o.Visible() {
		return nil
	}
	at = at.Add(o.Position())
	own := area{at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height}
	switch v := o.(type) {
	case *canvas.Text:
		if v.Text == "" {
			return nil
		}
		m, x := v.MinSize(), at.X
		switch v.Alignment {
		case fyne.TextAlignCenter:
			x += (v.Size().Width - m.Width) / 2
		case fyne.TextAlignTrailing:
			x += v.Size().Width - m.Width
		}
		b := area{x, at.Y, x + m.Width, at.Y + m.Height}
		return []written{{v, b, within, b.cut(sight)}}
	case *fyne.Container:
		for _, c := range v.Objects {
			out = append(out, texts(c, at, within, sight)...)
		}
	case *container.Scroll:
		const bar = 12 // drawn over what is under it
		if v.Content.MinSize().Width > own.right-own.x {
			own.bottom -= bar
		}
		if v.Content.MinSize().Height > own.bottom-own.y {
			own.right -= bar
		}
		out = texts(v.Content, at, everywhere, sight.cut(own))
	case *container.Clip: // a table's head, which goes sideways with its body
		out = texts(v.Content, at, everywhere, sight.cut(own))
	case fyne.Widget:
		if within.right < 1e5 {
			within = within.cut(own)
		}
		for _, c := range test.WidgetRenderer(v).Objects() {
			out = append(out, texts(c, at, within, sight)...)
		}
	}
	return out
}

func textsOf(b *Bench) []written {
	s := b.window.Canvas().Size()
	all := area{0, 0, s.Width, s.Height}
	return texts(b.window.Content(), fyne.Position{}, all, all)
}

// aLaptop and aNetbook are sizes of small screens.
var aLaptop, aNetbook = fyne.NewSize(1366, 768), fyne.NewSize(1024, 600)

// everyPicture asks for all sizes, units and languages, which takes minutes more.
func everyPicture() bool { return os.Getenv("RETURNBENCH_EVERY_PICTURE") != "" }

// inEveryPlace shows every place of an example in the language and units of a reader.
func inEveryPlace(t *testing.T, house, theme string, size float32, sys units.Locale, window fyne.Size, see func(b *Bench, place string)) {
	before := lang.Locale()
	lang.Set(sys)
	defer lang.Set(before)
	b, err := New(test.NewApp(), Options{Dir: NoDir, Run: session.InStep})
	require.NoError(t, err)
	b.settings.Theme, b.settings.TextSize = theme, size
	b.retheme()
	b.SetUnits(sys)
	b.window.Resize(window)
	b.put(example(t, house), "")
	for _, place := range PlaceKeys() {
		b.enter(place)
		b.window.Canvas().Unfocus()
		see(b, place)
	}
}

// No text of a whole window is cut off by what holds it.
func TestNoTextOfTheWindowIsCutOff(t *testing.T) {
	for _, e := range assets.Examples() {
		for _, size := range []float32{1, 1.5} {
			for _, reader := range []struct {
				units.Locale
				window fyne.Size
			}{{units.IP, aLaptop}, {units.SI, aLaptop}, {spanish, aLaptop}, {spanish, aNetbook}} {
				if reader.window == aNetbook && size > 1 {
					continue // larger letters are for a larger screen
				}
				if usual := reader.Locale == units.IP || size > 1 == (reader.Locale == spanish) || reader.window == aNetbook; !usual && !everyPicture() {
					continue
				}
				seen := 0
				inEveryPlace(t, e.Name, look.Light, size, reader.Locale, reader.window, func(b *Bench, place string) {
					for _, w := range textsOf(b) {
						seen++
						const slack = 1.5
						ok := w.at.x >= w.within.x-slack && w.at.right <= w.within.right+slack && w.at.y >= w.within.y-slack && w.at.bottom <= w.within.bottom+slack
						assert.True(t, ok, "%s, %s, text %.0f %%, %v: %q at %v is cut by %v", e.Name, place, 100*size, reader, w.text.Text, w.at, w.within)
					}
				})
				require.Greater(t, seen, 500)
			}
		}
	}
}

// sideways counts the lists and tables that a window has no room for from side to side.
func sideways(o fyne.CanvasObject) (n int) {
	if !o.Visible() {
		return 0
	}
	switch v := o.(type) {
	case *fyne.Container:
		for _, c := range v.Objects {
			n += sideways(c)
		}
	case *container.Scroll:
		if v.Direction != container.ScrollVerticalOnly && v.Content.MinSize().Width > v.Size().Width+1 {
			n++
		}
		n += sideways(v.Content)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(v).Objects() {
			n += sideways(c)
		}
	}
	return n
}

// The smallest window holds the largest letters: no place asks for more room than there
// is, and nothing but a table or a page goes sideways, or is cut at the side.
func TestTheSmallestWindowHoldsTheLargestLetters(t *testing.T) {
	for _, house := range []string{"one-inch-slot", "metric-altitude"} {
		for _, sys := range []units.Locale{units.IP, spanish} {
			inEveryPlace(t, house, look.Light, 1.5, sys, aNetbook, func(b *Bench, place string) {
				least := b.root.MinSize()
				assert.LessOrEqual(t, least.Width, aNetbook.Width, "%s, %s, %v", house, place, sys)
				assert.LessOrEqual(t, least.Height, aNetbook.Height, "%s, %s, %v", house, place, sys)
				for _, s := range scrolls(b.window.Content()) {
					assert.LessOrEqual(t, s.Content.MinSize().Width, s.Size().Width+1, "%s, %s, %v", house, place, sys)
				}
			})
		}
	}
	b := newBench(t)
	b.settings.TextSize = 1.5
	b.retheme()
	b.window.Resize(aNetbook)
	for _, s := range scrolls(b.window.Content()) {
		assert.LessOrEqual(t, s.Content.MinSize().Width, s.Size().Width+1, "an empty bench")
	}
}

// scrolls are what scrolls outside of tables and pages.
func scrolls(o fyne.CanvasObject) (out []*container.Scroll) {
	if !o.Visible() {
		return nil
	}
	switch v := o.(type) {
	case *table.Table:
	case *fyne.Container:
		for _, c := range v.Objects {
			out = append(out, scrolls(c)...)
		}
	case *container.Scroll:
		if _, isPage := v.Content.(*canvas.Image); !isPage {
			out = append(scrolls(v.Content), v)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(v).Objects() {
			out = append(out, scrolls(c)...)
		}
	}
	return out
}

// A Spanish window has its tables in sight, and its names whole, wherever the English
// one has: what Spanish says is no longer than the room there is.
func TestSpanishTakesNoMoreRoomThanThereIs(t *testing.T) {
	type room struct{ sideways, shortened int }
	for i, e := range assets.Examples() {
		if i%3 > 0 && !everyPicture() {
			continue
		}
		seen := map[string]room{}
		look := func(sys units.Locale, see func(place string, r room, short []string)) {
			inEveryPlace(t, e.Name, look.Light, 1, sys, aLaptop, func(b *Bench, place string) {
				r, short := room{sideways: sideways(b.window.Content())}, []string(nil)
				for _, w := range textsOf(b) {
					if strings.HasSuffix(w.text.Text, "…") {
						short = append(short, w.text.Text)
					}
				}
				r.shortened = len(short)
				see(place, r, short)
				if place == "sizes" {
					b.window.Resize(aNetbook)
					require.Positive(t, sideways(b.window.Content()), "a small window has no room for every column")
					b.window.Resize(aLaptop)
				}
			})
		}
		look(units.IP, func(place string, r room, _ []string) { seen[place] = r })
		look(spanish, func(place string, r room, short []string) {
			assert.LessOrEqual(t, r.sideways, seen[place].sideways, "%s, %s: a table goes sideways", e.Name, place)
			assert.LessOrEqual(t, r.shortened, seen[place].shortened, "%s, %s: %q", e.Name, place, short)
		})
	}
}

// Every text keeps 4.5 to 1 against the pixels it is drawn on (WCAG 2.1, 1.4.3
// AA), in both themes.
func TestTextOfTheWindowStandsOut(t *testing.T) {
	for _, theme := range []string{look.Light, look.Dark} {
		inEveryPlace(t, "one-inch-slot", theme, 1, units.IP, aLaptop, func(b *Bench, place string) {
			picture := b.window.Canvas().Capture()
			for _, w := range textsOf(b) {
				s := w.inSight
				if s.right-s.x < 4 || s.bottom-s.y < 0.6*(w.at.bottom-w.at.y) {
					continue // half of it is scrolled out of sight
				}
				ground := mostSeen(picture, s)
				ink := over(color.NRGBAModel.Convert(w.text.Color).(color.NRGBA), ground)
				c := contrast(ink, ground)
				assert.GreaterOrEqual(t, c, 4.5, "%s, %s: %q is %v on %v", theme, place, w.text.Text, ink, ground)
			}
		})
	}
}

// mostSeen is the color of most pixels, which under a text is its ground.
func mostSeen(p image.Image, a area) color.NRGBA {
	count := map[color.NRGBA]int{}
	var best color.NRGBA
	for y := int(a.y); y < int(a.bottom); y++ {
		for x := int(a.x); x < int(a.right); x++ {
			c := color.NRGBAModel.Convert(p.At(x, y)).(color.NRGBA)
			if count[c]++; count[c] > count[best] {
				best = c
			}
		}
	}
	return best
}

func over(top, ground color.NRGBA) color.NRGBA {
	mix := func(t, g uint8) uint8 {
		a := float64(top.A) / 255
		return uint8(math.Round(float64(t)*a + float64(g)*(1-a)))
	}
	return color.NRGBA{R: mix(top.R, ground.R), G: mix(top.G, ground.G), B: mix(top.B, ground.B), A: 0xff}
}

// contrast is the ratio (L1 + 0.05) / (L2 + 0.05) of the relative luminances of
// WCAG 2.1.
func contrast(a, b color.NRGBA) float64 {
	luminance := func(c color.NRGBA) float64 {
		linear := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	}
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}
