package widgets

import "fyne.io/fyne/v2/driver/desktop"

// Lit is the part of a widget that knows whether the pointer is over it and
// whether it has the keyboard. The widget embeds it and sets Changed.
type Lit struct {
	Hovered, Focused bool
	Changed          func() // draws the widget anew
}

// MouseIn lights it.
func (l *Lit) MouseIn(*desktop.MouseEvent) { l.Hovered = true; l.Changed() }

// MouseMoved is part of being hovered.
func (l *Lit) MouseMoved(*desktop.MouseEvent) {}

// MouseOut puts the light out.
func (l *Lit) MouseOut() { l.Hovered = false; l.Changed() }

// FocusGained shows the focus.
func (l *Lit) FocusGained() { l.Focused = true; l.Changed() }

// FocusLost puts it away.
func (l *Lit) FocusLost() { l.Focused = false; l.Changed() }

// TypedRune is part of being focused.
func (l *Lit) TypedRune(rune) {}
