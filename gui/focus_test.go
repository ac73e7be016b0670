package gui

import (
	"fmt"
	"image"
	"math"
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/look"
	"returnbench/sizing/units"
)

// stop is a part of the window that the tab key comes to.
type stop struct {
	part   fyne.Focusable
	at     area
	column fyne.CanvasObject // scroll, side or place that holds it
}

func (s stop) String() string { return fmt.Sprintf("%T at %.0f, %.0f", s.part, s.at.x, s.at.y) }

// stops goes once round the window with the tab key.
func stops(t *testing.T, b *Bench) (out []stop) {
	t.Helper()
	c := b.window.Canvas()
	c.Unfocus()
	found := placed(b.window.Content(), b.nav.Object(), b.decision.strip.Object())
	for range 400 {
		test.FocusNext(c)
		f := c.Focused()
		if f == nil || len(out) > 0 && f == out[0].part {
			return out
		}
		s, ok := found[f]
		require.True(t, ok, "%T has the keyboard and is not in the window", f)
		out = append(out, s)
	}
	require.Fail(t, "the tab key comes to no end")
	return nil
}

// placed finds where everything that takes the keyboard stands. Columns are what
// the window is divided into, each of which is read on its own.
func placed(o fyne.CanvasObject, columns ...fyne.CanvasObject) map[fyne.Focusable]stop {
	out := map[fyne.Focusable]stop{}
	var walk func(o fyne.CanvasObject, at fyne.Position, column fyne.CanvasObject)
	walk = func(o fyne.CanvasObject, at fyne.Position, column fyne.CanvasObject) {
		if !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		if f, ok := o.(fyne.Focusable); ok {
			out[f] = stop{f, area{at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height}, column}
		}
		switch v := o.(type) {
		case *fyne.Container:
			sides := strings.HasSuffix(fmt.Sprintf("%T", v.Layout), ".sidebar")
			for _, c := range v.Objects {
				if sides || slices.Contains(columns, c) {
					column = c
				}
				walk(c, at, column)
			}
		case *container.Scroll:
			walk(v.Content, at, v)
		case *container.Split:
			walk(v.Leading, at, v.Leading)
			walk(v.Trailing, at, v.Trailing)
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(v).Objects() {
				walk(c, at, column)
			}
		}
	}
	walk(o, fyne.Position{}, o)
	return out
}

// before reports whether one part is read before another: above it, or left of it
// in one line.
func (s stop) before(o stop) bool {
	overlap := min(s.at.bottom, o.at.bottom) - max(s.at.y, o.at.y)
	if overlap > min(s.at.bottom-s.at.y, o.at.bottom-o.at.y)/2 {
		return s.at.x < o.at.x
	}
	return s.at.y < o.at.y
}

// The tab key goes through each column of every place as one reads it.
func TestTabGoesInTheOrderOfReading(t *testing.T) {
	inEveryPlace(t, "one-inch-slot", look.Light, 1, units.IP, aLaptop, func(b *Bench, place string) {
		last := map[fyne.CanvasObject]stop{}
		list := stops(t, b)
		require.NotEmpty(t, list, place)
		for _, s := range list {
			if before, ok := last[s.column]; ok {
				assert.True(t, before.before(s), "%s: after %v the tab key comes to %v", place, before, s)
			}
			last[s.column] = s
		}
	})
}

// What has the keyboard looks different from what has not, everywhere. The first
// of each kind is drawn with it and without; of the others the parts that are to
// be drawn are compared.
func TestTheKeyboardIsSeen(t *testing.T) {
	for _, variant := range []string{look.Light, look.Dark} {
		drawn := map[string]bool{}
		inEveryPlace(t, "one-inch-slot", variant, 1, units.IP, aLaptop, func(b *Bench, place string) {
			c := b.window.Canvas()
			for _, s := range stops(t, b) {
				c.Unfocus()
				without := strokes(s.part.(fyne.CanvasObject))
				c.Focus(s.part)
				with := strokes(s.part.(fyne.CanvasObject))
				assert.NotEqual(t, without, with, "%s, %s: %v", place, variant, s)
				kind := fmt.Sprintf("%T", s.part)
				if drawn[kind] || s.at.right > c.Size().Width || s.at.bottom > c.Size().Height {
					continue
				}
				drawn[kind] = true
				focused := c.Capture()
				at := whereItIs(s.part.(fyne.CanvasObject)) // the form may have moved to it
				c.Unfocus()
				assert.Greater(t, unlike(c.Capture(), focused, at), 30, "%s, %s: %v looks the same with the keyboard", place, variant, s)
			}
		})
		require.Greater(t, len(drawn), 8)
	}
}

func whereItIs(o fyne.CanvasObject) area {
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o)
	return area{at.X, at.Y, at.X + o.Size().Width, at.Y + o.Size().Height}
}

// strokes describes all that is drawn of a part.
func strokes(o fyne.CanvasObject) (out string) {
	if !o.Visible() {
		return ""
	}
	switch v := o.(type) {
	case *canvas.Rectangle:
		return fmt.Sprint("r", v.FillColor, v.StrokeColor, v.StrokeWidth, v.Size())
	case *canvas.Circle:
		return fmt.Sprint("c", v.FillColor, v.StrokeColor, v.StrokeWidth, v.Size())
	case *canvas.Line:
		return fmt.Sprint("l", v.StrokeColor, v.StrokeWidth)
	case *canvas.Text:
		return fmt.Sprint("t", v.Color, v.TextStyle)
	case *fyne.Container:
		for _, c := range v.Objects {
			out += strokes(c)
		}
	case *container.Scroll:
		return strokes(v.Content)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(v).Objects() {
			out += strokes(c)
		}
	}
	return out
}

// unlike counts the pixels of an area in which two pictures differ to the eye.
func unlike(a, b image.Image, in area) (n int) {
	for x := int(in.x); x < int(in.right); x++ {
		for y := int(in.y); y < int(in.bottom); y++ {
			ar, ag, ab, _ := a.At(x, y).RGBA()
			br, bg, bb, _ := b.At(x, y).RGBA()
			if max(math.Abs(float64(ar)-float64(br)), math.Abs(float64(ag)-float64(bg)), math.Abs(float64(ab)-float64(bb))) > 0x0C00 {
				n++
			}
		}
	}
	return n
}
