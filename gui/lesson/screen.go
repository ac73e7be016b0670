package lesson

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/plots"
	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	Job() sizing.Job
	Units() units.Locale
}

// Shell is what it needs of the window around it.
type Shell struct {
	Look func(units.Locale) plots.Look
	// Open lets the person choose a file, which then comes back through the Show.
	Open func()
	// Save writes a demonstration to its file, or asks for one where path is
	// empty, and reports where it was saved.
	Save func(l lesson.Lesson, path string, saved func(path string))
	// House opens a house as a job, once no unsaved work would be lost.
	House func(job sizing.Job)
	// Leave goes on at once, or where dirty after a question.
	Leave func(dirty bool, then func())
	// Large turns the large type on or off.
	Large func(on bool)
	// Full makes the window fill the screen, or no more.
	Full func()
	// Call returns how the window calls a field of a house; nil: by its path.
	Call func(job *sizing.Job, path string) string
}

// Screen is the place.
type Screen struct {
	show  *Show
	model Model
	shell Shell
	large bool

	list    *fyne.Container
	pick    *widget.Select // the same list, where there is no room for it
	items   []*answer
	view    *demonstrationView
	editor  *editor
	content *fyne.Container // demonstration or editor
	box     fyne.CanvasObject

	made  int // edition that the view was built for
	names string
	step  Step
	sys   units.Locale
}

// New makes the screen; large fills it with one demonstration in large type.
func New(show *Show, m Model, shell Shell, large bool) *Screen {
	s := &Screen{show: show, model: m, shell: shell, large: large, made: -1}
	s.content = container.NewStack()
	if large {
		s.box = s.content
	} else {
		s.list = container.NewVBox()
		buttons, further := container.NewVBox(), fyne.NewMenu("")
		for _, act := range s.acts() {
			buttons.Add(widget.NewButton(lang.T(act.label), act.do))
			further.Items = append(further.Items, fyne.NewMenuItem(lang.T(act.label), act.do))
		}
		left := container.NewBorder(heading(lang.T("Demonstrations")), buttons, nil, nil, container.NewVScroll(s.list))
		s.pick = widget.NewSelect(nil, func(string) {
			if i := s.pick.SelectedIndex(); i >= 0 && i != s.show.At() {
				s.choose(i)
			}
		})
		more := widget.NewButton(lang.T("More ..."), nil)
		more.OnTapped = func() {
			c := fyne.CurrentApp().Driver().CanvasForObject(more)
			widget.ShowPopUpMenuAtRelativePosition(further, c, fyne.NewPos(0, more.Size().Height), more)
		}
		top := container.NewBorder(nil, nil, nil, more, s.pick)
		rule := widget.NewSeparator()
		s.box = container.New(&sidebar{left, rule, top, s.content}, left, rule, top, s.content)
	}
	show.OnChange(s.Refresh)
	s.Refresh()
	return s
}

func heading(text string) *widget.Label {
	l := bold(text)
	l.SizeName = theme.SizeNameSubHeadingText
	return l
}

// act is what can be done with the demonstration in view.
type act struct {
	label message.ID
	do    func()
}

func (s *Screen) acts() []act {
	return []act{
		{"Open a file ...", s.shell.Open},
		{"Make one of the present job ...", s.EditJob},
		{"Edit this one ...", func() { s.edit(FromShow(s.show)) }},
		{"Open this house as a job", s.OpenHouse},
	}
}

// sidebar gives the list as much room as its buttons need. Where that is more than a
// share of the width, a list that opens stands over the demonstration instead.
type sidebar struct {
	list    fyne.CanvasObject
	rule    fyne.CanvasObject
	top     fyne.CanvasObject // the list that opens
	content fyne.CanvasObject
}

const widestList = 0.3

// MinSize is that without the list.
func (b *sidebar) MinSize([]fyne.CanvasObject) fyne.Size {
	top, content := b.top.MinSize(), b.content.MinSize()
	return fyne.NewSize(fyne.Max(top.Width, content.Width), top.Height+content.Height)
}

// Layout shows the one list or the other.
func (b *sidebar) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	w := fyne.Max(b.list.MinSize().Width, size.Width*0.19)
	narrow := w > widestList*size.Width
	visible(b.list, !narrow)
	visible(b.rule, !narrow)
	visible(b.top, narrow)
	at := fyne.NewPos(w+12, 0)
	if narrow {
		at = fyne.NewPos(0, b.top.MinSize().Height)
	}
	b.list.Resize(fyne.NewSize(w, size.Height))
	b.rule.Resize(fyne.NewSize(1, size.Height))
	b.rule.Move(fyne.NewPos(w+5, 0))
	b.top.Resize(fyne.NewSize(size.Width, b.top.MinSize().Height))
	b.content.Move(at)
	b.content.Resize(fyne.NewSize(size.Width-at.X, size.Height-at.Y))
}

// house is the house of the demonstration at the setting in view.
func (s *Screen) house() sizing.Job {
	settings := s.show.Settings()
	if i := s.show.Position(); i < len(settings) {
		return settings[i].Job.Clone()
	}
	return s.show.Lesson().Job.Clone()
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.box }

// First is what the present step waits for.
func (s *Screen) First() fyne.Focusable {
	if s.editor != nil {
		return s.editor.first()
	}
	return s.view.firstFocus()
}

// Refresh shows the Show as it stands.
func (s *Screen) Refresh() {
	s.refreshList()
	if d := s.show.draft; d != nil && !s.large {
		if s.editor == nil || s.editor.draft != d {
			s.editor = newEditor(s, d)
			s.setContent(s.editor.box)
		}
		s.editor.refresh()
		return
	}
	sys := s.model.Units()
	if s.view == nil || s.made != s.show.edition || s.editor != nil {
		s.editor = nil
		label := lang.T("Large type")
		if s.large {
			label = lang.T("Leave large type")
		}
		content := s.view != nil && s.view.hasFocus(s.focused())
		big := widget.NewButton(label, func() { s.shell.Large(!s.large) })
		full := widget.NewButton(lang.T("Full screen (F11)"), func() { s.full() })
		s.view = newDemonstrationView(s.show, s.model.Units, s.look, s.large, full, big)
		s.view.toggleFullScreen = s.full
		s.made, s.step = s.show.edition, s.show.Step()
		s.setContent(s.view.box)
		if content {
			s.step = -1 // the keyboard goes on to the new view
		}
	}
	s.sys = sys
	s.view.refresh()
	if s.step != s.show.Step() {
		s.step = s.show.Step()
		s.focus(s.view.firstFocus())
	}
}

// look is that of the window; under large type lines are as thick as the letters
// are large.
func (s *Screen) look() plots.Look {
	look := s.shell.Look(s.model.Units())
	if s.large {
		look.Stroke = 2
	}
	return look
}

func (s *Screen) full() {
	if s.shell.Full != nil {
		s.shell.Full()
	}
}

func (s *Screen) setContent(o fyne.CanvasObject) {
	s.content.Objects = []fyne.CanvasObject{o}
	s.content.Refresh()
}

// focused is what has the keyboard, nil where nothing has.
func (s *Screen) focused() fyne.Focusable {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.content); c != nil {
		return c.Focused()
	}
	return nil
}

func (s *Screen) focus(f fyne.Focusable) {
	if c := fyne.CurrentApp().Driver().CanvasForObject(s.content); c != nil && f != nil && c.Overlays().Top() == nil {
		c.Focus(f)
	}
}

func (s *Screen) refreshList() {
	if s.large {
		return
	}
	names := ""
	for _, it := range s.show.Items() {
		names += it.Name() + "\n"
	}
	if names != s.names {
		s.names = names
		s.items, s.list.Objects = nil, nil
		for i, it := range s.show.Items() {
			a := newAnswer(it.Name(), func() { s.choose(i) })
			s.items = append(s.items, a)
			s.list.Add(a)
		}
		s.list.Refresh()
		s.pick.SetOptions(strings.Split(strings.TrimSpace(names), "\n"))
	}
	if s.pick.SelectedIndex() != s.show.At() {
		s.pick.SetSelectedIndex(s.show.At())
	}
	for i, a := range s.items {
		a.set(i == s.show.At(), false, "", widget.MediumImportance)
	}
}

// choose puts another demonstration in view; a draft is not lost by it.
func (s *Screen) choose(i int) {
	if s.show.draft != nil {
		return
	}
	s.show.Choose(i)
}

func (s *Screen) edit(d *Draft) {
	if s.show.draft == nil {
		s.show.draft = d
	}
	s.Refresh()
	s.focus(s.editor.first())
}

// EditJob begins a demonstration of the job under edit.
func (s *Screen) EditJob() { s.edit(FromJob(s.model.Job())) }

// OpenHouse opens the house as it stands at the setting in view.
func (s *Screen) OpenHouse() { s.shell.House(s.house()) }
