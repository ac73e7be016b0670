package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"returnbench/assets"
	"returnbench/gui/fields"
	"returnbench/gui/widgets"
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
		require.NotNil(t, p.shortcut, p.key)
		require.Equal(t, "go to "+string(p.name), listed[shortcutWords(p.shortcut)])
		key := p.shortcut.(fyne.KeyboardShortcut).Key()
		require.Regexp(t, "^([A-Z0-9]|F[0-9]+)$", string(key), p.key)
	}
	require.Equal(t, "Undo", listed["Ctrl+Z"])
	require.Equal(t, "New window", listed["Ctrl+Shift+N"])
}

// Every action of the menu has a key; a text size has those that go up and down.
func TestEveryActionHasAKey(t *testing.T) {
	b := newBench(t)
	var without []string
	var look func(m *fyne.Menu)
	look = func(m *fyne.Menu) {
		for _, it := range m.Items {
			switch {
			case it.ChildMenu != nil:
				look(it.ChildMenu)
			case it.Shortcut == nil && !it.IsSeparator && it != b.menu.sizes[1] && it != b.menu.sizes[1.25] && it != b.menu.sizes[1.5]:
				without = append(without, it.Label)
			}
		}
	}
	for _, m := range b.menu.main.Items {
		look(m)
	}
	require.Equal(t, []string{"none yet", "Full screen (F11)", "Safety"}, without, "no recent file; F11 is no shortcut of the menu; a place has its key among the places")
}

func TestTextSizeGoesUpAndDownByKeys(t *testing.T) {
	b := newBench(t)
	press := func(label string) {
		for _, m := range b.menu.main.Items {
			for _, it := range m.Items {
				if it.Label == label {
					it.Action()
					return
				}
			}
		}
		t.Fatal("no such item: " + label)
	}
	for _, want := range []float32{1.25, 1.5, 1.5} {
		press("Larger text")
		require.Equal(t, want, b.settings.TextSize)
	}
	for _, want := range []float32{1.25, 1, 1} {
		press("Smaller text")
		require.Equal(t, want, b.settings.TextSize)
	}
}

// F1 tells of the place in view whatever has the keyboard; every place has its text
// and no text is of a place that is gone.
func TestEveryPlaceHasItsHelp(t *testing.T) {
	b := newBench(t)
	b.put(example(t, "one-inch-slot"), "")
	texts := assets.ReadHelp("").Places
	for _, p := range places() {
		text := texts[string(p.name)]
		require.Greater(t, len(text), 60, p.name)
		b.enter(p.key)
		f1 := &fyne.KeyEvent{Name: fyne.KeyF1}
		switch f := b.window.Canvas().Focused(); f.(type) {
		case *fields.Entry, *widgets.Button:
			f.TypedKey(f1)
		default:
			b.window.Canvas().OnTypedKey()(f1)
		}
		require.True(t, b.busy(), p.name)
		b.answerLast()
		require.False(t, b.busy())
		delete(texts, string(p.name))
	}
	require.Empty(t, texts)
}

// F1 leads to what each number rests on, in the person's language.
func TestHelpLeadsToTheSourcesOfNumbers(t *testing.T) {
	b := newBench(t)
	b.showHelp()
	require.Contains(t, onTop(b), "Sources of numbers")
	b.showNumbers()
	said := onTop(b)
	for _, n := range assets.ReadHelp("").Numbers {
		require.Contains(t, said, n.Name)
		require.Contains(t, said, n.Text)
	}
}
