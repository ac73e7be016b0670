package fields

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/require"
)

// A space that falls where a line is full stays where it was typed, whatever the
// width.
func TestALongTextKeepsItsSpaces(t *testing.T) {
	const text = "An invented house with invented equipment and filters. A coil sits on a furnace whose place is a slot."
	for w := float32(150); w < 420; w++ {
		e := newLongEntry(3)
		win := test.NewWindow(e)
		win.Resize(fyne.NewSize(w, 80))
		win.Canvas().Focus(e)
		for _, r := range text {
			e.TypedRune(r)
		}
		require.Equal(t, text, e.Text, "%v wide", w)
		win.Close()
	}
}
