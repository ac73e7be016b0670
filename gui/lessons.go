package gui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/lesson"
	"returnbench/gui/look"
	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/jobfile"
	lessons "returnbench/sizing/lesson"
	"returnbench/sizing/message"
)

// lessonSuffix is how the file of a demonstration ends.
const lessonSuffix = ".lesson.json"

// lessonPlace is the place of the demonstrations.
const lessonPlace = "lesson"

func isLesson(path string) bool { return strings.HasSuffix(strings.ToLower(path), lessonSuffix) }

// newLessons makes the place of the demonstrations. Its state is kept outside
// the place, which is made again with every job and theme.
func (b *Bench) newLessons() screen {
	return lesson.New(b.classShow(), b.session, lesson.Shell{
		Look: b.chartLook,
		Open: b.askOpenLesson,
		Save: b.saveLesson,
		House: func(job sizing.Job) {
			b.ifSafe(func() {
				b.setLarge(false)
				b.put(job, "")
			})
		},
		Leave: func(dirty bool, then func()) {
			if !dirty {
				then()
				return
			}
			b.ask("Unsaved work", lang.T("The demonstration has changes that are not saved."),
				answer{"Don't save", then}, answer{"Cancel", nil})
		},
		Large: b.setLarge,
		Full:  b.fullScreen,
		Call:  b.partWords,
	}, b.large)
}

// classShow is the state of the demonstration in view.
func (b *Bench) classShow() *lesson.Show {
	if b.class == nil {
		var err error
		if b.class, err = lesson.NewShow(sizing.NewSolver().Solve, b.session.Tasks()); err != nil {
			b.showError("A demonstration cannot be read", err)
		}
	}
	return b.class
}

var sizeParts = map[string]message.ID{"width": "width", "height": "height", "depth": "depth"}

// partWords calls one part of a field too: of a size, its width.
func (b *Bench) partWords(job *sizing.Job, path string) string {
	words := b.words(job, path)
	if part, ok := sizeParts[fieldpath.Name(path)]; ok && strings.Contains(words, " x ") {
		words += " (" + lang.T(part) + ")"
	}
	return words
}

// openLesson puts the demonstration of a file in view. The job stays as it is.
func (b *Bench) openLesson(path string) error {
	l, err := jobfile.LoadLesson(path)
	if err != nil {
		return err
	}
	b.goTo(lessonPlace)
	b.class.Open(l, absolute(path))
	b.focusFirst()
	return b.remember(path)
}

// askLesson lets the person choose a demonstration: one of the list by its title, or a
// file.
func (b *Bench) askLesson() {
	list := container.NewVBox()
	for i, it := range b.classShow().Items() {
		button := newPlainButton(it.Name(), func() {
			b.answerLast()
			b.goTo(lessonPlace)
			b.class.Choose(i)
			b.focusFirst()
		})
		button.Alignment = widget.ButtonAlignLeading
		button.escape = b.answerLast
		list.Add(button)
	}
	b.show(lang.T("Open a demonstration"), container.NewVScroll(list), fyne.NewSize(560, 480),
		answer{"Open a file ...", b.askOpenLesson}, answer{"Cancel", nil})
	if len(list.Objects) > 0 {
		b.window.Canvas().Focus(list.Objects[0].(fyne.Focusable))
	}
}

// lessonFiles passes the files of demonstrations alone.
type lessonFiles struct{}

// Matches goes by the name.
func (lessonFiles) Matches(u fyne.URI) bool { return isLesson(u.Path()) }

func (b *Bench) askOpenLesson() {
	d := dialog.NewFileOpen(func(r fyne.URIReadCloser, err error) {
		switch {
		case err != nil:
			b.showError("The file cannot be opened", err)
		case r != nil:
			_ = r.Close() // the file is read by its path
			b.openOrShowError(r.URI().Path())
		}
	}, b.window)
	b.inFolder(d)
	d.SetFilter(lessonFiles{})
	b.showFiles(d)
}

// saveLesson writes a demonstration; the person names its file.
func (b *Bench) saveLesson(l lessons.Lesson, path string, saved func(path string)) {
	name := plainFileName(l.Title, lang.T("demonstration")) + lessonSuffix
	if path != "" {
		name = filepath.Base(path)
	}
	b.askPath(pathQuestion{title: "Save the demonstration as", name: name, suffix: lessonSuffix, own: path}, func(path string) {
		if err := jobfile.SaveLesson(path, l); err != nil {
			b.showError("{file} cannot be saved", err, "file", filepath.Base(path))
			return
		}
		if err := b.remember(path); err != nil {
			b.showError("The list of recent files could not be kept", err)
		}
		b.menu.Refresh()
		saved(path)
	})
}

// Large type: the demonstration alone, in letters that are read from the back
// of a room.

// largeLetters is the height of the window over that of its letters.
const largeLetters = 28

// largeScale is the text scale that gives such letters, in steps so that a
// window which is drawn wider by hand is not dressed again at each pixel.
func largeScale(height float32) float32 {
	steps := float32(int(height/largeLetters/look.BodyText*8 + 0.5))
	return max(1.25, min(steps/8, 5))
}

// setLarge turns the large type on or off.
func (b *Bench) setLarge(on bool) {
	if b.large == on {
		return
	}
	if on && b.at != lessonPlace {
		b.goTo(lessonPlace)
	}
	b.large = on
	if on {
		// The small place in large letters would widen the window permanently.
		b.showLessonAlone()
		b.body.RemoveAll()
	}
	b.retheme()
	b.refresh()
	b.focusFirst()
}

// fullScreen makes the window fill the screen, or no more. A demonstration then has all
// of it but the menu, which holds its keys.
func (b *Bench) fullScreen() {
	full := !b.window.FullScreen()
	if full {
		b.before = b.window.Canvas().Size()
	}
	b.window.SetFullScreen(full)
	b.refresh()
	if !full { // the toolkit forgets it when the size of the letters changes meanwhile
		b.window.Resize(b.before)
	}
}

// alone says that the demonstration in view has the window for itself.
func (b *Bench) alone() bool {
	return b.large || b.at == lessonPlace && b.window.FullScreen()
}

// textScale is the size of all text: what the person chose, or large type.
func (b *Bench) textScale() float32 {
	if b.large {
		return largeScale(b.window.Canvas().Size().Height)
	}
	return b.settings.TextSize
}

// chartScale is the size of the words of charts. At scale 1 they are a little
// larger than the window's; under large type they are as large.
func (b *Bench) chartScale() float64 {
	if b.large {
		return float64(b.textScale()) * look.BodyText / 16
	}
	return float64(b.settings.TextSize)
}

// inLesson does something to the demonstration in view.
func (b *Bench) inLesson(do func(*lesson.Show)) func() {
	return func() {
		if b.at == lessonPlace && b.class != nil {
			do(b.class)
		}
	}
}

// lesson holds the keys of a demonstration.
func (m *menu) lesson() *fyne.Menu {
	b := m.bench
	return fyne.NewMenu(lang.T("Demonstration"),
		m.item("Open a demonstration ...", ctrlAlt(fyne.KeyO), b.askLesson),
		fyne.NewMenuItemSeparator(),
		m.item("Next step", ctrl(fyne.KeyPageDown), b.inLesson((*lesson.Show).Forward)),
		m.item("Step before", ctrl(fyne.KeyPageUp), b.inLesson((*lesson.Show).Back)),
		fyne.NewMenuItemSeparator(),
		m.item("Start over", ctrlShift(fyne.KeyR), b.inLesson((*lesson.Show).Reset)),
		m.item("Full screen (F11)", nil, b.fullScreen),
		m.item("Large type for a projector", ctrl(fyne.KeyB), func() { b.setLarge(!b.large) }))
}

// showLessonAlone hides strip and column in large type, and where a demonstration
// fills the screen.
func (b *Bench) showLessonAlone() {
	alone := b.alone()
	if b.nav.Object().Visible() != alone {
		return
	}
	for _, o := range []fyne.CanvasObject{b.nav.Object(), b.decision.strip.Object()} {
		if alone {
			o.Hide()
		} else {
			o.Show()
		}
	}
	b.root.Refresh()
}

// leastForBoth is the least width of a form with a chart beside it, at scale 1.
const leastForBoth = 540

// fitted holds the place in view. Where the window grows or shrinks under large
// type, the letters follow; where it is too narrow for both, a form stands alone.
type fitted struct{ b *Bench }

// MinSize is that of the place.
func (f *fitted) MinSize(o []fyne.CanvasObject) fyne.Size {
	size := fyne.Size{}
	for _, one := range o {
		size = size.Max(one.MinSize())
	}
	return size
}

// Layout gives the place all the room.
func (f *fitted) Layout(o []fyne.CanvasObject, size fyne.Size) {
	for _, one := range o {
		one.Move(fyne.Position{})
		one.Resize(size)
	}
	if narrow := !f.b.large && size.Width < leastForBoth*f.b.textScale(); narrow != f.b.narrow {
		f.b.narrow = narrow
		fyne.Do(func() { f.b.lay(f.b.placeInView(), f.b.screens[f.b.at]) })
	}
	if f.b.large && f.b.appliedScale != f.b.textScale() {
		fyne.Do(f.b.retheme)
	}
}
