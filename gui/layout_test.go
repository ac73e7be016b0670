package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// measured stands for the toolkit's canvas of a window on a screen.
type measured struct {
	fyne.Canvas
	grows bool
	asked int
}

func (m *measured) EnsureMinSize() bool {
	m.asked++
	return m.grows
}

type measuredWindow struct {
	fyne.Window
	canvas fyne.Canvas
	held   int
}

func (w *measuredWindow) Canvas() fyne.Canvas { return w.canvas }
func (w *measuredWindow) SetPadded(bool)      { w.held++ }

func TestLayOutHoldsTheWindowToItsLeastSizeOnlyWhereThatChanged(t *testing.T) {
	c := &measured{}
	w := &measuredWindow{canvas: c}
	layOut(w)
	require.Equal(t, []int{1, 0}, []int{c.asked, w.held})
	c.grows = true
	layOut(w)
	require.Equal(t, []int{2, 1}, []int{c.asked, w.held})
	layOut(&measuredWindow{canvas: struct{ fyne.Canvas }{}}) // one that does not measure
}
