package widgets

import (
	"reflect"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// Watched is a part that tells when it gets the keyboard, so that what scrolls it
// can bring it into sight.
type Watched interface {
	fyne.Focusable
	OnKeyboard(func())
}

// keyboard is what a Watched part remembers.
type keyboard struct{ got func() }

// OnKeyboard sets what is told when the part gets the keyboard.
func (k *keyboard) OnKeyboard(got func()) { k.got = got }

func (k *keyboard) tell() {
	if k.got != nil {
		k.got()
	}
}

// Button is the toolkit's, Watched.
type Button struct {
	widget.Button
	keyboard
}

// NewButton makes the button.
func NewButton(label string, tapped func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = label, tapped
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained shows the focus.
func (b *Button) FocusGained() {
	b.Button.FocusGained()
	b.tell()
}

// Check is the toolkit's, Watched.
type Check struct {
	widget.Check
	keyboard
}

// NewCheck makes the box to tick.
func NewCheck(label string, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = label, changed
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained shows the focus.
func (c *Check) FocusGained() {
	c.Check.FocusGained()
	c.tell()
}

// Select is the toolkit's drop-down, Watched.
type Select struct {
	widget.Select
	keyboard
}

// NewSelect makes the drop-down.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged, s.PlaceHolder = options, changed, "choose"
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained shows the focus.
func (s *Select) FocusGained() {
	s.Select.FocusGained()
	s.tell()
}

// Wheel is laid over a scrolled column. It takes the wheel alone, wherever the
// pointer is: an entry below would swallow it. All else goes through to what is
// below.
type Wheel struct {
	widget.BaseWidget
	turned func(*fyne.ScrollEvent)
}

// NewWheel makes a Wheel that hands its turns on.
func NewWheel(turned func(*fyne.ScrollEvent)) *Wheel {
	w := &Wheel{turned: turned}
	w.ExtendBaseWidget(w)
	return w
}

// Scrolled hands the turn on.
func (w *Wheel) Scrolled(e *fyne.ScrollEvent) { w.turned(e) }

// CreateRenderer draws nothing.
func (w *Wheel) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(&fyne.Container{})
}

// Turn gives the wheel to a long text and tells whether the text moved: one that
// is all in sight, or at its end, leaves the wheel to what is around it.
func (e *Entry) Turn(ev *fyne.ScrollEvent) bool {
	if !e.grows || e.inner == nil {
		return false
	}
	before := offsetOf(e.inner)
	e.inner.Scrolled(ev)
	return offsetOf(e.inner) != before
}

// offsetOf reads how far the toolkit's inner scroll of an entry has moved. Its
// type has no name outside the toolkit.
func offsetOf(s fyne.Scrollable) any {
	v := reflect.Indirect(reflect.ValueOf(s)).FieldByName("Offset")
	if !v.IsValid() {
		return nil
	}
	return v.Interface()
}
