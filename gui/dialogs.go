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
	"returnbench/sizing"
)

// answer is one way to answer a question.
type answer struct {
	label string
	then  func() // nil: nothing happens
}

// ask puts a question; the first answer has the keyboard. Escape is the last
// answer, which is the harmless one.
func (b *Bench) ask(title, text string, answers ...answer) {
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	b.show(title, l, fyne.NewSize(460, 150), answers...)
}

func (b *Bench) show(title string, content fyne.CanvasObject, size fyne.Size, answers ...answer) {
	d := dialog.NewCustomWithoutButtons(title, content, b.window)
	under := b.escape // of a question that this one lies over
	buttons := make([]fyne.CanvasObject, len(answers))
	for i, a := range answers {
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
	b.escape = buttons[len(buttons)-1].(*keyButton).OnTapped
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

// tell shows what went wrong.
func (b *Bench) tell(title string, err error) {
	text := widget.NewLabel(b.inWords(err))
	text.Wrapping = fyne.TextWrapWord
	text.Selectable = true
	b.show(title, container.NewVScroll(text), fyne.NewSize(620, 300), answer{label: "Close"})
}

// inWords gives each fault of a job a line of its own. The job is not in view,
// so that its things have numbers alone; that of a demonstration lies under "job".
func (p *program) inWords(err error) string {
	var faults sizing.FieldErrors
	if !errors.As(err, &faults) {
		return err.Error()
	}
	lines := make([]string, len(faults))
	for i, f := range faults {
		lines[i] = fmt.Sprintf("%s: %s", p.words(nil, strings.TrimPrefix(f.Path, "job.")), form.Sentence(f))
	}
	return strings.Join(lines, "\n")
}

// keyButton is a button that answers to Return as well as to the space bar,
// and to Escape where told.
type keyButton struct {
	widget.Button
	escape func()
}

var _ fyne.Focusable = (*keyButton)(nil)

func newKeyButton(label string, tapped func()) *keyButton {
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
