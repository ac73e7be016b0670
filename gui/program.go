package gui

import (
	"slices"

	"fyne.io/fyne/v2"

	"returnbench/gui/form"
	"returnbench/gui/system"
	"returnbench/sizing/jobfile/atomicfile"
	"returnbench/sizing/library"
)

// program is what all windows share: the settings and the list of recent files. Each window has a job, an undo and a
// recovery copy of its own.
type program struct {
	app        fyne.App
	options    Options
	version    string
	system     system.System
	userFolder userFolder
	settings   Settings
	recent     []string                 // files, newest first
	library    *library.Library         // as last read; nil: none was
	called     map[calledAt]form.Labels // how the places call their fields, of those that were asked for

	lock    processLock
	windows []*Bench
	opened  int             // windows so far, to tell their recovery copies apart
	handled map[string]bool // recovery copies of earlier sessions that a window restored
}

// open builds one more window; it is not shown yet.
func (p *program) open() *Bench {
	b := &Bench{program: p, screens: map[string]screen{}}
	b.startSession(p.options)
	b.build()
	return b
}

// NewWindow opens another window on a new job.
func (b *Bench) NewWindow() *Bench {
	w := b.open()
	w.appear()
	return w
}

func (b *Bench) appear() {
	b.window.Show()
	b.onScreen = true
	b.focusFirst()
}

// showing is the window that has a file open, nil where none has.
func (p *program) showing(path string) *Bench {
	for _, w := range p.windows {
		if own := w.session.Path(); own != "" && atomicfile.Same(own, path) {
			return w
		}
	}
	return nil
}

func (p *program) refreshMenus() {
	for _, w := range p.windows {
		w.menu.Refresh()
	}
}

// Close closes this window once no unsaved work of its own would be lost.
func (b *Bench) Close() {
	if b.busy() {
		return
	}
	b.ifAllSafe(b.close)
}

func (b *Bench) close() {
	b.dropScreens()
	_ = b.session.Close() // a copy left behind is only offered again
	b.windows = slices.DeleteFunc(b.windows, func(w *Bench) bool { return w == b })
	if len(b.windows) == 0 {
		b.lock.end()
	}
	b.window.SetCloseIntercept(nil)
	b.window.Close()
}

// Quit closes every window once no unsaved work of any would be lost; each asks
// for its own, this one first. None is closed before all have answered.
func (b *Bench) Quit() {
	list := []*Bench{b}
	for _, w := range b.windows {
		if w != b {
			list = append(list, w)
		}
	}
	b.quit(list)
}

func (p *program) quit(left []*Bench) {
	if len(left) == 0 {
		for _, w := range slices.Clone(p.windows) {
			w.close()
		}
		return
	}
	w := left[0]
	if w.busy() || w.session.Dirty() {
		w.window.RequestFocus()
	}
	if !w.busy() {
		w.ifAllSafe(func() { p.quit(left[1:]) })
	}
}
