package widgets

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
)

func block(width, height float32) *canvas.Rectangle {
	r := canvas.NewRectangle(color.Black)
	r.SetMinSize(fyne.NewSize(width, height))
	return r
}

// Things go on in a new line where the width ends; one that is hidden takes no
// room; none is cut where a single one fits.
func TestFlow(t *testing.T) {
	a, b, c := block(100, 20), block(60, 30), block(80, 10)
	gap := theme.Padding()
	f := NewFlow(a, b, c)
	require.Equal(t, fyne.NewSize(100, 30), f.MinSize(), "one line, before there is a width")

	f.Resize(fyne.NewSize(160+gap, 100))
	require.Equal(t, fyne.NewPos(0, 5), a.Position(), "in the middle of its line")
	require.Equal(t, fyne.NewPos(100+gap, 0), b.Position())
	require.Equal(t, fyne.NewPos(0, 30+gap), c.Position())
	require.Equal(t, fyne.NewSize(100, 40+gap), f.MinSize())

	f.Resize(fyne.NewSize(100, 100))
	require.Equal(t, float32(60+2*gap), f.MinSize().Height, "a line each")

	b.Hide()
	f.Resize(fyne.NewSize(180+gap, 100))
	require.Equal(t, fyne.NewPos(100+gap, 5), c.Position())
	require.Equal(t, float32(20), f.MinSize().Height)
}
