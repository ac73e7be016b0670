package gui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"

	"returnbench/gui/widgets"
)

// hoverables are what of the window in view answers to a pointer that rests on it.
func hoverables(b *Bench) (out []desktop.Hoverable) {
	for _, o := range test.LaidOutObjects(b.window.Content()) {
		if h, ok := o.(desktop.Hoverable); ok && o.Visible() {
			out = append(out, h)
		}
	}
	return out
}

func at(x, y float32) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(x, y)}}
}

// The pointer over a field, a figure of the strip, or the head of a column or a row that
// names a term of the trade gets the term's sentence, whole and in the window, and the
// keyboard stays where it is. It goes with the pointer.
func TestTermsAreExplainedUnderThePointer(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	for _, size := range []fyne.Size{{Width: 1366, Height: 768}, {Width: 1024, Height: 600}} {
		b.window.Resize(size)
		seen := map[string]map[string]bool{}
		for _, p := range places() {
			b.enter(p.key)
			held := b.window.Canvas().Focused()
			for _, h := range hoverables(b) {
				o := h.(fyne.CanvasObject)
				for x := float32(3); x < fyne.Min(o.Size().Width, 1200); x += 40 {
					for y := float32(3); y < fyne.Min(o.Size().Height, 700); y += 25 {
						h.MouseIn(at(x, y))
						if text := b.tips.Text(); text != "" {
							term, _, _ := strings.Cut(text, ": ")
							if seen[term] == nil {
								seen[term] = map[string]bool{}
							}
							seen[term][p.key] = true
							requireTipWhole(t, b)
						}
					}
				}
				h.MouseOut()
				require.Empty(t, b.tips.Text(), p.key)
			}
			require.Equal(t, held, b.window.Canvas().Focused(), p.key)
			require.False(t, b.busy(), p.key)
		}
		for term, places := range map[string][]string{
			"External static": {"house", "blower", "compare", "sizes"}, "Rated external static": {"equipment"},
			"Face velocity": {"question", "limits", "sizes"}, "MERV": {"filters", "limits", "compare"},
			"Free area": {"returns"}, "Tap": {"blower", "gauge"},
		} {
			for _, place := range places {
				require.True(t, seen[term][place], "%s in %s at %v: %v", term, place, size, seen[term])
			}
		}
	}
}

func requireTipWhole(t *testing.T, b *Bench) {
	t.Helper()
	s := b.window.Canvas().Size()
	words := ""
	for _, w := range texts(b.tips, fyne.Position{}, everywhere, area{0, 0, s.Width, s.Height}) {
		require.Equal(t, w.at, w.inSight, w.text.Text)
		words += " " + w.text.Text
	}
	require.Equal(t, b.tips.Text(), strings.TrimSpace(words))
}

// Numbers come while the pointer rests on a label and take the tip away: the next move
// brings it back. The figures of a demonstration have tips too.
func TestATipComesBack(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	b.enter("filters")
	var label *widgets.TipArea
	for _, h := range hoverables(b) {
		if tip, ok := h.(*widgets.TipArea); ok && strings.HasPrefix(tip.Text(), "MERV") {
			label = tip
		}
	}
	require.NotNil(t, label)
	label.MouseIn(at(3, 3))
	require.NotEmpty(t, b.tips.Text())
	b.refresh()
	require.Empty(t, b.tips.Text())
	label.MouseMoved(at(5, 3))
	require.Equal(t, label.Text(), b.tips.Text())
	label.MouseOut()
	require.Empty(t, b.tips.Text())

	b.enter(lessonPlace)
	seen := map[string]bool{}
	for i := range b.class.Items() {
		b.class.Choose(i)
		for _, h := range hoverables(b) {
			h.MouseIn(at(3, 3))
			term, _, _ := strings.Cut(b.tips.Text(), ": ")
			seen[term] = true
			h.MouseOut()
		}
	}
	for _, term := range []string{"Media area", "Media velocity", "Filter drop"} {
		require.True(t, seen[term], "%s: %v", term, seen)
	}
}

// A tip ends with the place that it is of.
func TestATipEndsWithItsPlace(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "two-returns"), "")
	b.enter("filters")
	for _, h := range hoverables(b) {
		if tip, ok := h.(*widgets.TipArea); ok && strings.HasPrefix(tip.Text(), "MERV") {
			h.MouseIn(at(3, 3))
		}
	}
	require.NotEmpty(t, b.tips.Text())
	b.enter("house")
	require.Empty(t, b.tips.Text())
}
