package lesson

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// keyButton is a button that answers to Return as well as to the space bar, and
// passes on the keys of the demonstration.
type keyButton struct {
	widget.Button
	keys func(fyne.KeyName) bool // true: the key was taken
}

var _ fyne.Focusable = (*keyButton)(nil)

func newKeyButton(label string, tapped func(), keys func(fyne.KeyName) bool) *keyButton {
	b := &keyButton{keys: keys}
	b.Text, b.OnTapped = label, tapped
	b.ExtendBaseWidget(b)
	return b
}

// TypedKey answers to the keyboard.
func (b *keyButton) TypedKey(k *fyne.KeyEvent) {
	switch {
	case b.keys(k.Name):
	case k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter:
		if !b.Disabled() {
			b.OnTapped()
		}
	default:
		b.Button.TypedKey(k)
	}
}
