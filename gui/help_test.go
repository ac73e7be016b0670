package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"
)

// The list of keys holds every shortcut of the menu and every place, each once,
// and each key is one that a keyboard has.
func TestKeysAreAllListed(t *testing.T) {
	b := newBench(t)
	listed := map[string]string{}
	for _, row := range b.keys() {
		require.NotEmpty(t, row[0], row[1])
		require.NotContains(t, listed, row[0])
		listed[row[0]] = row[1]
	}
	for _, p := range places() {
		require.Equal(t, "go to "+p.name, listed[shortcutWords(p.shortcut)])
		key := p.shortcut.(fyne.KeyboardShortcut).Key()
		require.Regexp(t, "^([A-Z0-9]|F[0-9]+)$", string(key), p.key)
	}
	require.Equal(t, "Undo", listed["Ctrl+Z"])
	require.Equal(t, "New window", listed["Ctrl+Shift+N"])
}
