package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// FocusNotifier is a part that tells when it gets the keyboard, so that what scrolls it
// can bring it into sight.
type FocusNotifier interface {
	fyne.Focusable
	OnFocusGained(func())
}

// FocusReporter is what a FocusNotifier remembers.
type FocusReporter struct{ got func() }

// OnFocusGained sets what is reported when the part gets the keyboard.
func (k *FocusReporter) OnFocusGained(got func()) { k.got = got }

func (k *FocusReporter) ReportFocus() {
	if k.got != nil {
		k.got()
	}
}

// Hover is the part of a widget that knows whether the pointer is over it. The
// widget embeds it and sets Changed.
type Hover struct {
	Hovered bool
	Changed func() // draws the widget again
}

var _ desktop.Hoverable = (*Hover)(nil)

// MouseIn notes that the pointer is over the widget.
func (h *Hover) MouseIn(*desktop.MouseEvent) { h.Hovered = true; h.Changed() }

// MouseMoved changes nothing: the pointer is over the widget still.
func (h *Hover) MouseMoved(*desktop.MouseEvent) {}

// MouseOut notes that the pointer has left.
func (h *Hover) MouseOut() { h.Hovered = false; h.Changed() }

// Highlight is Hover for a widget that takes the keyboard too.
type Highlight struct {
	Hover
	FocusReporter
	Focused bool
}

// FocusGained notes the keyboard and reports it.
func (l *Highlight) FocusGained() { l.Focused = true; l.Changed(); l.ReportFocus() }

// FocusLost notes that the keyboard has gone.
func (l *Highlight) FocusLost() { l.Focused = false; l.Changed() }

// TypedRune changes nothing: such a widget takes keys, not letters.
func (l *Highlight) TypedRune(rune) {}
