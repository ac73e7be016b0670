package gui

import (
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/form"
	"returnbench/gui/lang"
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// answer is one way to answer a question.
type answer struct {
	label message.ID
	then  func() // nil: nothing happens
}

// ask puts a question; the first answer has the keyboard. Escape is the answer after
// which nothing happens, else the last.
func (b *Bench) ask(title message.ID, text string, answers ...answer) {
	b.askOf(lang.T(title), text, answers...)
}

// askOf is ask with a title that is written already.
func (b *Bench) askOf(title, text string, answers ...answer) {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	b.show(title, l, fyne.NewSize(460, 150), answers...)
}

func (b *Bench) show(title string, content fyne.CanvasObject, size fyne.Size, answers ...answer) {
	d := dialog.NewCustomWithoutButtons(title, content, b.window)
	under := b.escape // of the dialog below this one
	buttons, harmless := make([]fyne.CanvasObject, len(answers)), len(answers)-1
	for i, a := range answers {
		if a.then == nil {
			harmless = i
		}
		w := newKeyButton(a.label, func() {
			b.escape = under
			d.Hide()
			if a.then != nil {
				a.then()
			}
		})
		w.escape = b.answerLast
		buttons[i] = w
	}
	buttons[0].(*keyButton).Importance = widget.HighImportance
	b.escape = buttons[harmless].(*keyButton).OnTapped
	d.SetButtons(buttons)
	d.Resize(size)
	d.Show()
	b.window.Canvas().Focus(buttons[0].(fyne.Focusable))
}

func (b *Bench) answerLast() {
	if f := b.escape; f != nil {
		b.escape = nil
		f()
	}
}

// showError shows an error; the arguments are those of the title.
func (b *Bench) showError(title message.ID, err error, args ...any) {
	text := widget.NewLabel(b.inWords(err))
	text.Wrapping = fyne.TextWrapWord
	text.Selectable = true
	b.show(lang.T(title, args...), container.NewVScroll(text), fyne.NewSize(620, 300), answer{label: "Close"})
}

// inWords gives each fault of a job a line of its own. The job is not in view, so
// that elements of its lists are named by number; the paths of a demonstration's
// job begin with "job".
func (p *program) inWords(err error) string {
	var faults sizing.FieldErrors
	if !errors.As(err, &faults) {
		return faultWords(err)
	}
	lines := make([]string, len(faults))
	for i, f := range faults {
		lines[i] = fmt.Sprintf("%s: %s", p.words(nil, strings.TrimPrefix(f.Path, "job.")), form.Sentence(f))
	}
	return strings.Join(lines, "\n")
}

// faultWords puts an error in words; of several together each has a line.
func faultWords(err error) string {
	several, ok := err.(interface{ Unwrap() []error })
	if !ok || err.Error() != errors.Join(several.Unwrap()...).Error() {
		return message.Fault(lang.Locale(), err)
	}
	var lines []string
	for _, one := range several.Unwrap() {
		lines = append(lines, faultWords(one))
	}
	return strings.Join(lines, "\n")
}

// keyButton is a button that answers to Return as well as to the space bar, and
// to Escape where that is set.
type keyButton struct {
	widget.Button
	escape func()
}

var _ fyne.Focusable = (*keyButton)(nil)

func newKeyButton(label message.ID, tapped func()) *keyButton {
	return newPlainButton(lang.T(label), tapped)
}

// newPlainButton is newKeyButton with words that are written already.
func newPlainButton(label string, tapped func()) *keyButton {
	k := &keyButton{}
	k.Text, k.OnTapped = label, tapped
	k.ExtendBaseWidget(k)
	return k
}

// TypedKey answers to the keyboard.
func (k *keyButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter:
		k.OnTapped()
	case fyne.KeyEscape:
		if k.escape != nil {
			k.escape()
		}
	default:
		k.Button.TypedKey(e)
	}
}
