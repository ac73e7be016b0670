package fields

import (
	"fyne.io/fyne/v2"

	"returnbench/gui/lang"
)

// typedText is a field whose value is typed as text. A value that the model
// returns while it is being typed does not change the text.
type typedText struct {
	row
	entry *Entry

	// show is the value as text, empty where it is left open.
	show func() string
	// state is the value exactly, to tell whether it changed.
	state func() string
	// take reads a typed text and hands the value on. It returns the state
	// that the model should then have, or a fault in words.
	take func(text string) (state, fault string)
	// unitNow is the unit of the system in use; nil where there is none.
	unitNow func() string

	focused   bool
	edited    bool   // typed since the text was last taken from the model
	deferred  bool   // the model takes typed values later
	known     string // state when text and model last agreed
	typedBad  string // fault of the text itself
	engineBad string
	silent    bool
	onUnread  func(text, fault string, typing bool)
}

// UnreadableText is a field that may hold a text that it cannot read. The function
// set by OnUnread decides how long the text stays.
type UnreadableText interface {
	Field
	// OnUnread sets the function called for such a text: whenever it changes,
	// when the field is left, and with no fault once it can be read.
	OnUnread(func(text, fault string, typing bool))
	// Unread is the fault of such a text, empty where there is none.
	Unread() (fault string)
	// Retype puts such a text back, with its fault.
	Retype(text, fault string)
	// Reset forgets it and shows the value.
	Reset()
}

func (t *typedText) start(label, tip string, editor fyne.CanvasObject) {
	unit := ""
	if t.unitNow != nil {
		unit = t.unitNow()
	}
	t.build(label, tip, unit, editor)
	t.entry.OnChanged = t.changed
	t.entry.OnSubmitted = func(string) { t.reformat() }
	t.entry.OnFocus = func(gained bool) {
		t.focused = gained
		if !gained {
			t.leave()
		}
	}
	t.read()
}

// Entry is the text entry, for forms that link fields and for tests.
func (t *typedText) Entry() *Entry { return t.entry }

// Focusable is the part that takes the keyboard.
func (t *typedText) Focusable() fyne.Focusable { return t.entry }

func (t *typedText) changed(text string) {
	if t.silent {
		return
	}
	t.edited = true
	want, fault := t.take(text)
	was := t.typedBad
	t.typedBad = fault
	if fault == "" {
		t.known = t.state()
		t.deferred = t.known != want
	}
	if fault != "" || was != "" {
		t.report(t.focused)
	}
	t.showState()
}

func (t *typedText) leave() {
	edited := t.edited
	t.reformat()
	if edited {
		t.report(false)
	}
	t.showState()
}

// report reports a text that cannot be read, or that it now can be.
func (t *typedText) report(typing bool) {
	if t.onUnread == nil {
		return
	}
	t.onUnread(t.entry.Text, t.typedBad, typing)
	if t.typedBad != "" {
		t.known, t.deferred = t.state(), false // it may have gone back to the value before
	}
}

// OnUnread sets the function called for a text that cannot be read.
func (t *typedText) OnUnread(f func(text, fault string, typing bool)) { t.onUnread = f }

// Unread is the fault of the text, empty where it can be read.
func (t *typedText) Unread() string { return t.typedBad }

// Retype puts a text back that could not be read.
func (t *typedText) Retype(text, fault string) {
	t.silent = true
	t.entry.SetText(text)
	t.silent = false
	t.known, t.edited, t.deferred, t.typedBad = t.state(), true, false, fault
	t.showState()
}

// reformat rewrites a good text the way the value is shown; a faulty one stays.
func (t *typedText) reformat() {
	if t.typedBad != "" || t.deferred {
		return
	}
	t.read()
}

// read takes the text from the model.
func (t *typedText) read() {
	t.known = t.state()
	t.edited, t.deferred, t.typedBad = false, false, ""
	if text := t.show(); text != t.entry.Text {
		t.silent = true
		t.entry.SetText(text)
		t.silent = false
	}
	t.showState()
}

// Reset forgets what was typed and could not be read, as on opening another
// job.
func (t *typedText) Reset() { t.read() }

// Refresh reads the value again, unless the person is in the middle of typing
// it or what he typed is still at fault.
func (t *typedText) Refresh() {
	unitChanged := false
	if t.unitNow != nil {
		if u := t.unitNow(); u != t.unit.Text {
			t.unit.SetText(u)
			unitChanged = true
		}
	}
	same := t.state() == t.known
	switch {
	case t.typedBad != "" && (same || t.onUnread != nil):
		t.showState()
	case t.focused && t.edited && t.typedBad == "" && !unitChanged && (same || t.deferred):
		t.showState()
	default:
		t.read()
	}
}

// SetFault shows a fault that the engine found.
func (t *typedText) SetFault(text string) {
	t.engineBad = text
	t.showState()
}

// SetAssumed shows the value that is assumed while the field is left open.
func (t *typedText) SetAssumed(text string) {
	t.assumed = text
	t.showState()
}

func (t *typedText) showState() {
	fault := t.typedBad
	if fault == "" {
		fault = t.engineBad
	}
	t.typing = t.focused && t.edited
	note := ""
	if t.entry.Text == "" && t.assumed != "" {
		note = lang.T(assumedWord)
	}
	if p := t.placeholder(); p != t.entry.PlaceHolder {
		t.entry.SetPlaceHolder(p)
	}
	t.entry.SetFaulty(fault != "")
	t.showNote(note, fault)
}
