package gui

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// windowWords are all words that the window shows on a house, in any place, in the
// menu, on the empty bench and in the settings.
func windowWords(t *testing.T) map[string]bool {
	t.Helper()
	b := newBench(t)
	words := map[string]bool{}
	gather := func(o fyne.CanvasObject) {
		for _, one := range test.LaidOutObjects(o) {
			switch v := one.(type) {
			case *canvas.Text:
				words[v.Text] = true
			case *widget.Label:
				words[v.Text] = true
			case *widget.RichText:
				words[v.String()] = true
			}
		}
	}
	var menu func(m *fyne.Menu)
	menu = func(m *fyne.Menu) {
		words[m.Label] = true
		for _, it := range m.Items {
			words[it.Label] = true
			if it.ChildMenu != nil {
				menu(it.ChildMenu)
			}
		}
	}
	for _, m := range b.menu.main.Items {
		menu(m)
	}
	b.settings.Library = t.TempDir()
	gather(b.root)
	b.put(example(t, "one-inch-slot"), "")
	for _, p := range places() {
		words[string(p.name)] = true
		b.enter(p.key)
		gather(b.root)
	}
	settingsOf(t, b)
	gather(b.window.Canvas().Overlays().Top())
	b.answerLast()
	b.showLibrary()
	gather(b.window.Canvas().Overlays().Top())
	return words
}

var (
	italics  = regexp.MustCompile(`\*([^*\n]+(?:\n[^*\n]+)?)\*`)
	pictures = regexp.MustCompile(`(?:\]\(|src=")([a-z/]+\.png)[")]`)
)

// What README.md and the manual put in italics stands in the window just so, and
// their pictures are there.
func TestManualSpeaksOfTheWindow(t *testing.T) {
	shown := windowWords(t)
	others := map[string]bool{"Open with": true} // of Windows
	for _, name := range []string{"README.md", "assets/manual/README.md"} {
		data, err := os.ReadFile(filepath.Join("..", name))
		require.NoError(t, err)
		text := strings.ReplaceAll(string(data), "**", "")
		text = regexp.MustCompile("(?s)```.*?```|`[^`]*`").ReplaceAllString(text, "")
		n := 0
		for _, m := range italics.FindAllStringSubmatch(text, -1) {
			words := strings.Join(strings.Fields(m[1]), " ")
			n++
			assert.True(t, shown[words] || others[words], "%s: %q does not stand in the window", name, words)
		}
		assert.Greater(t, n, 10, name)
		drawn := pictures.FindAllStringSubmatch(text, -1)
		assert.NotEmpty(t, drawn, name)
		for _, p := range drawn {
			assert.FileExists(t, filepath.Join("..", filepath.Dir(name), p[1]), name)
		}
	}
}
