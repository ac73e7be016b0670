package gui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"returnbench/gui/form"
	"returnbench/gui/notices"
	"returnbench/gui/session"
	"returnbench/sizing"
)

// banner stands over every place: what must stop the work, and whether the
// figures in view are those of the job as it now stands. Where a form is in view
// it stands over the picture alone: it comes and goes while a person types, and
// the form must not move under the pointer.
type banner struct {
	session  *session.Session
	enter    func(key string)
	showPath func(path string)
	words    func(job *sizing.Job, path string) string

	stops  *notices.Notice
	faults *notices.Notice
	box    *fyne.Container
	shown  [2]string
}

func newBanner(s *session.Session, enter, showPath func(string), words func(*sizing.Job, string) string) *banner {
	b := &banner{session: s, enter: enter, showPath: showPath, words: words}
	b.stops = notices.NewNotice(sizing.Stop, "", "")
	b.faults = notices.NewNotice(sizing.Caution, "", "")
	more := newKeyButton("Findings", func() { enter("findings") })
	lead := newKeyButton("Show", b.leadToFault)
	b.box = container.NewVBox(
		container.NewBorder(nil, nil, nil, container.NewCenter(more), b.stops),
		container.NewBorder(nil, nil, nil, container.NewCenter(lead), b.faults))
	b.box.Hide()
	return b
}

// Object is the banner; it is hidden while there is nothing to say.
func (b *banner) Object() fyne.CanvasObject { return b.box }

// Refresh reads the Study again and tells whether the banner changed.
func (b *banner) Refresh() bool {
	now := [2]string{b.stopWords(), b.faultWords()}
	if now == b.shown {
		return false
	}
	b.shown = now
	setNotice(b.stops, b.box.Objects[0], sizing.Stop, now[0])
	setNotice(b.faults, b.box.Objects[1], sizing.Caution, now[1])
	b.show()
	return true
}

// show puts the banner in view where it has something to say.
func (b *banner) show() {
	if b.stops.Visible() || b.faults.Visible() {
		b.box.Show()
	} else {
		b.box.Hide()
	}
}

func setNotice(n *notices.Notice, row fyne.CanvasObject, s sizing.Severity, text string) {
	n.Set(s, text, "")
	if text == "" {
		row.Hide()
	} else {
		row.Show()
	}
}

// stopWords are the gravest finding of the house as it is, and how many more
// there are.
func (b *banner) stopWords() string {
	study := b.session.Study()
	if study == nil {
		return ""
	}
	var stops []sizing.Finding
	for _, f := range study.Findings {
		if f.Severity == sizing.Stop {
			stops = append(stops, f)
		}
	}
	if len(stops) == 0 {
		return ""
	}
	text := stops[0].In(b.session.Units())
	if stops[0].Option != "" {
		text = stops[0].Option + ": " + text
	}
	if n := len(stops) - 1; n > 0 {
		text += fmt.Sprintf(" And %d more.", n)
	}
	return text
}

// faultWords say why the figures in view are older than the job, and why the
// job would not outlive the program.
func (b *banner) faultWords() string {
	words := b.resultFault()
	if f := b.session.KeepFault(); f != nil {
		words = strings.TrimSpace(words + " This work has no recovery copy: " + f.Error() + ". Save it.")
	}
	return words
}

// resultFault says what keeps the job from a result.
func (b *banner) resultFault() string {
	if f := b.session.Fault(); f != nil {
		return "No result: " + f.Error()
	}
	faults := b.session.Errors()
	if words := b.unreadWords(); words != "" {
		return words
	}
	if len(faults) == 0 || b.session.Blank() {
		return ""
	}
	first := faults[0]
	count := "1 field cannot be used"
	if len(faults) > 1 {
		count = fmt.Sprintf("%d fields cannot be used", len(faults))
	}
	if b.session.Study() != nil {
		count += "; the figures are those from before"
	}
	return count + ". " + b.words(b.session.Peek(), first.Path) + ": " + form.SentenceIn(first, b.session.Units())
}

// unreadWords say what was typed that nobody can read, once its field is left.
func (b *banner) unreadWords() string {
	left := leftUnread(b.session)
	if len(left) == 0 {
		return ""
	}
	text := "1 field cannot be read: the figures and the file keep its value from before. "
	if n := len(left); n > 1 {
		text = fmt.Sprintf("%d fields cannot be read: the figures and the file keep their values from before. ", n)
	}
	return text + left[0].Name + ": " + left[0].Fault
}

// leftUnread are the texts that cannot be read and are not being typed now.
func leftUnread(s *session.Session) []session.Unread {
	return slices.DeleteFunc(slices.Clone(s.Unread()), func(u session.Unread) bool { return u.Typing })
}

func (b *banner) leadToFault() {
	if left := leftUnread(b.session); len(left) > 0 {
		b.showPath(left[0].Path)
		return
	}
	if faults := b.session.Errors(); len(faults) > 0 {
		b.showPath(faults[0].Path)
	}
}
