package widgets

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"returnbench/gui/look"
)

// LongPress does what a right click does once a finger rests on a widget, under
// the setting for a finger. The zero value is ready.
type LongPress struct {
	// After calls then on the window's thread once a time has passed, unless it
	// is stopped before; nil: the clock's own.
	After func(d time.Duration, then func()) (stop func())

	stop func()
}

const pressTime = 600 * time.Millisecond

// Down begins a press.
func (p *LongPress) Down(m *desktop.MouseEvent, th fyne.Theme, then func(*fyne.PointEvent)) {
	p.Up()
	if th.Size(look.Target) == 0 || m.Button != desktop.MouseButtonPrimary {
		return
	}
	after := p.After
	if after == nil {
		after = afterClock
	}
	at := m.PointEvent
	p.stop = after(pressTime, func() {
		p.stop = nil
		then(&at)
	})
}

// Up ends it.
func (p *LongPress) Up() {
	if p.stop != nil {
		p.stop()
		p.stop = nil
	}
}

// entry is what a press on a text needs of its field.
type entry interface {
	Theme() fyne.Theme
	SelectedText() string
	TappedSecondary(*fyne.PointEvent)
}

// OnEntry begins a press on a field for text; it opens the menu to cut, copy and
// paste. A finger that moved has selected something, and opens nothing.
func (p *LongPress) OnEntry(e entry, m *desktop.MouseEvent) {
	before := e.SelectedText()
	p.Down(m, e.Theme(), func(at *fyne.PointEvent) {
		if e.SelectedText() == before {
			e.TappedSecondary(at)
		}
	})
}

func afterClock(d time.Duration, then func()) (stop func()) {
	stopped := false // of the window's thread, as all the rest
	t := time.AfterFunc(d, func() {
		fyne.Do(func() {
			if !stopped {
				then()
			}
		})
	})
	return func() {
		stopped = true
		t.Stop()
	}
}
