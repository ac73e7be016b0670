package widgets

import (
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func runes(s string) float32 { return float32(utf8.RuneCountInString(s)) }

func TestWrapBreaksBetweenWords(t *testing.T) {
	lines, cut := wrap("the filter is the biggest restriction", 14, 3, runes)
	require.Equal(t, []string{"the filter is", "the biggest", "restriction"}, lines)
	require.False(t, cut)
	lines, cut = wrap("the filter is the biggest restriction", 14, 2, runes)
	require.Equal(t, []string{"the filter is", "the biggest …"}, lines)
	require.True(t, cut)
}

// No word is lost unless the text says that it is cut, and no line of more than
// one word is longer than the room.
func TestWrapLosesNoWord(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOf(rapid.StringMatching(`[a-z0-9.]{1,9}`)).Draw(t, "words"), " ")
		room, most := float32(rapid.IntRange(4, 60).Draw(t, "room")), rapid.IntRange(1, 5).Draw(t, "most")
		lines, cut := wrap(text, room, most, runes)
		require.LessOrEqual(t, len(lines), most)
		all := strings.Join(lines, " ")
		if cut {
			require.True(t, strings.HasPrefix(text, strings.TrimSuffix(all, ellipsis)))
		} else {
			require.Equal(t, text, all)
		}
		for _, l := range lines {
			if n := len(strings.Fields(strings.TrimSuffix(l, ellipsis))); n > 1 {
				require.LessOrEqual(t, runes(l), room, l)
			}
		}
	})
}

// The height is that of the lines there may be, not of those there are.
func TestLinesKeepTheirHeight(t *testing.T) {
	l := NewLines(2, theme.SizeNameText, theme.ColorNameForeground, false)
	w := test.NewTempWindow(t, l)
	w.Resize(fyne.NewSize(200, 100))
	empty := l.MinSize()
	l.Set(strings.Repeat("more air ", 80), theme.ColorNameForeground)
	require.Equal(t, empty, l.MinSize())
	require.True(t, l.Cut())
	require.Len(t, test.WidgetRenderer(l).Objects(), 2)
}
