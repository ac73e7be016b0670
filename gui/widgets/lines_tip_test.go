package widgets

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
)

// A text that is cut is shown whole under the pointer, one that is whole is not shown again.
func TestACutTextIsShownUnderThePointer(t *testing.T) {
	test.NewTempApp(t)
	lines, tips := NewLines(1, theme.SizeNameText, theme.ColorNameForeground, false), NewTooltips()
	tips.Wait = func(_ time.Duration, show func()) { show() }
	window := test.NewTempWindow(t, container.NewStack(lines, tips))
	for text, want := range map[string]string{
		"Short.": "", "A sentence that is far too long for a window of this width.": "A sentence that is far too long for a window of this width.",
	} {
		lines.Set(text, theme.ColorNameForeground)
		window.Resize(fyne.NewSize(150, 60))
		require.Equal(t, want != "", lines.Cut(), text)
		lines.MouseIn(&desktop.MouseEvent{})
		require.Equal(t, want, tips.Text())
		lines.MouseOut()
		require.Empty(t, tips.Text())
	}
}
