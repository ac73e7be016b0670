package gui

import (
	"errors"
	"time"

	"returnbench/gui/lang"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/jobfile"
	"returnbench/sizing/message"
)

// offerRecovery offers the unsaved jobs of earlier runs, one after another.
func (b *Bench) offerRecovery() {
	kept, err := b.session.Offered()
	var aside *asideError
	if errors.As(err, &aside) {
		b.ask("A copy of unsaved work cannot be read", lang.T("It was set aside, and the other copies are offered.")+" "+aside.In(lang.Locale()), answer{"Close", b.offerRecovery})
		return
	}
	if err != nil {
		b.showError("The copies of unsaved work cannot be read", err)
		return
	}
	if kept == nil {
		return
	}
	b.ask("Recovered job", keptWords(kept),
		answer{"Restore", func() {
			w := b
			if b.session.Dirty() {
				w = b.NewWindow()
			}
			w.restoreCopy(*kept, b.recovery)
			b.offerRecovery()
		}},
		answer{"Delete", func() {
			if err := b.recovery.deleteFound(); err != nil {
				b.showError("The copy cannot be removed", err)
				return
			}
			b.offerRecovery()
		}},
		answer{"Ask me next time", func() { b.recovery.found = "" }})
}

// keptWords distinguish copies of one job by the time at which they were kept,
// and by how much they differ from the file.
func keptWords(kept *session.Recovery) string {
	ended := message.New("The program ended before {path} was saved.", "path", kept.Path)
	before, inFile := sizing.Job{Schema: sizing.Schema}, false
	switch name := kept.Job.Name; {
	case kept.Path != "":
		if job, err := jobfile.Load(kept.Path); err == nil {
			before, inFile = job, true
		}
	case name != "":
		ended = message.New("The program ended before a new job ({name}) was saved.", "name", clipped(name))
	default:
		ended = message.New("The program ended before a new job was saved.")
	}
	args := []any{"count", session.Differences(before, kept.Job), "time", momentWords(kept.Time.Local())}
	var copied message.ID
	switch dated := !kept.Time.IsZero(); {
	case dated && inFile:
		copied = "A copy was kept on {time}; {count} values differ from the file."
	case dated:
		copied = "A copy was kept on {time}; {count} values are filled in."
	case inFile:
		copied = "A copy was kept; {count} values differ from the file."
	default:
		copied = "A copy was kept; {count} values are filled in."
	}
	return message.Sentences{ended, message.New(copied, args...)}.In(lang.Locale())
}

var months = [...]message.ID{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}

// momentWords write a day and a time of the day.
func momentWords(t time.Time) message.Message {
	return message.New("{day} {month} {year} at {clock}", "day", t.Day(), "month", months[t.Month()-1], "year", t.Year(), "clock", t.Format(time.TimeOnly))
}

// restoreCopy continues with a copy that an earlier run of the program left; the
// copy is removed once the job is saved or discarded.
func (b *Bench) restoreCopy(kept session.Recovery, from *recoveryStore) {
	b.recovery.takeOver(from)
	b.dropScreens()
	b.cautionsRead = false
	b.session.Restore(kept)
	b.enter(firstPlace)
}
