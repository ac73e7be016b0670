package chart

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

func TestTheReadoutOutlivesALayoutOfTheSameSize(t *testing.T) {
	c := New()
	w := test.NewWindow(c)
	defer w.Close()
	w.Resize(fyne.NewSize(400, 300))
	c.shown = true
	test.WidgetRenderer(c).Layout(c.raster.Size())
	require.True(t, c.shown)
	test.WidgetRenderer(c).Layout(c.raster.Size().AddWidthHeight(10, 0))
	require.False(t, c.shown, "the picture under it is another one now")
}
