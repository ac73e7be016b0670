package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/sizing/message"
)

// Button is the toolkit's, and a FocusNotifier.
type Button struct {
	widget.Button
	FocusReporter
}

// NewButton makes the button.
func NewButton(label message.ID, tapped func()) *Button {
	return NewNamedButton(lang.T(label), tapped)
}

// NewNamedButton makes a button of what is already written, such as a name that a
// person gave.
func NewNamedButton(name string, tapped func()) *Button {
	b := &Button{}
	b.Text, b.OnTapped = name, tapped
	b.ExtendBaseWidget(b)
	return b
}

// FocusGained shows the focus.
func (b *Button) FocusGained() {
	b.Button.FocusGained()
	b.ReportFocus()
}

// TypedKey answers to the keyboard.
func (b *Button) TypedKey(k *fyne.KeyEvent) {
	if !HelpKey(b, k) {
		b.Button.TypedKey(k)
	}
}

// Check is the toolkit's, and a FocusNotifier.
type Check struct {
	widget.Check
	FocusReporter
}

// NewCheck makes the box to tick.
func NewCheck(label message.ID, changed func(bool)) *Check {
	c := &Check{}
	c.Text, c.OnChanged = lang.T(label), changed
	c.ExtendBaseWidget(c)
	return c
}

// FocusGained shows the focus.
func (c *Check) FocusGained() {
	c.Check.FocusGained()
	c.ReportFocus()
}

// TypedKey answers to the keyboard.
func (c *Check) TypedKey(k *fyne.KeyEvent) {
	if !HelpKey(c, k) {
		c.Check.TypedKey(k)
	}
}

// Select is the toolkit's drop-down, and a FocusNotifier.
type Select struct {
	widget.Select
	FocusReporter
}

// NewSelect makes the drop-down of what is already written: names that a person gave
// may be among it.
func NewSelect(options []string, changed func(string)) *Select {
	s := &Select{}
	s.Options, s.OnChanged, s.PlaceHolder = options, changed, lang.T("choose")
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained shows the focus.
func (s *Select) FocusGained() {
	s.Select.FocusGained()
	s.ReportFocus()
}

// MinSize has room for a finger where the theme asks for it, however short the
// label.
func (b *Button) MinSize() fyne.Size {
	size := b.Button.MinSize()
	size.Width = fyne.Max(size.Width, b.Theme().Size(look.Target))
	return size
}

// TypedKey answers to the keyboard.
func (s *Select) TypedKey(k *fyne.KeyEvent) {
	if !HelpKey(s, k) {
		s.Select.TypedKey(k)
	}
}
