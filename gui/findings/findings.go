// Package findings is the place for the engine's findings: the problems of the
// house by kind, the options that remove them, what is good, and what was
// assumed.
package findings

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/notices"
	"returnbench/gui/table"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	Study() *sizing.Study
	Ranges() []sizing.OptionRange // of that Study; nil while not known
	RangeWords() string           // the state of the ranges
	Units() units.Locale
}

// Links lead to other places.
type Links struct {
	Field  func(path string) // the field of a path
	Place  func(key string)
	Option func(name string)
	Call   func(path string) string // names the field for a person
	Label  func(path string) string // the same without its place
}

// Screen is the place.
type Screen struct {
	model   Model
	links   Links
	list    *fyne.Container
	ranges  *widget.Label
	share   *widget.Label
	assumed *table.Fitted
	paths   []string
	rows    [][]string // of what is assumed
	scroll  *container.Scroll
	first   fyne.Focusable
	shown   shown
}

// shown is what the list was made of.
type shown struct {
	study  *sizing.Study
	ranges bool
	units  units.Locale
}

// New makes the screen.
func New(m Model, links Links) *Screen {
	s := &Screen{model: m, links: links, list: container.NewVBox(), ranges: widget.NewLabel(""), share: widget.NewLabel(""), assumed: table.NewFitted(30)}
	s.share.Wrapping, s.ranges.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	s.ranges.SizeName = theme.SizeNameCaptionText
	s.assumed.OnActivated = func(i int) { s.links.Field(s.paths[i]) }
	bottom := container.NewVBox(gap(), heading("Assumed values (double click or Return leads to the field)"), s.share, s.assumed.Object())
	s.scroll = widgets.NewVScroll(container.NewVBox(s.list, bottom))
	s.Refresh()
	return s
}

func heading(text message.ID) *widget.Label {
	l := widget.NewLabelWithStyle(lang.T(text), fyne.TextAlignLeading, fyne.TextStyle{Bold: true})
	l.SizeName = theme.SizeNameSubHeadingText
	return l
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.scroll }

// First is the first button of a problem, or else the table of what is assumed.
func (s *Screen) First() fyne.Focusable {
	if s.first != nil {
		return s.first
	}
	return s.assumed.Table
}

// Assumed are the rows of what is assumed: sentence, source and field.
func (s *Screen) Assumed() [][]string { return s.rows }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	s.RefreshRanges()
	study := s.model.Study()
	now := shown{study, s.model.Ranges() != nil, s.model.Units()}
	if now == s.shown && len(s.list.Objects) > 0 {
		return
	}
	s.shown = now
	s.fill(study)
	s.listAssumed(study)
}

// RefreshRanges shows the state of the ranges.
func (s *Screen) RefreshRanges() { s.ranges.SetText(s.model.RangeWords()) }

func (s *Screen) fill(study *sizing.Study) {
	s.first = nil
	if study == nil {
		s.list.Objects = []fyne.CanvasObject{widget.NewLabel(lang.T("There is no result yet. Enter the capacity or the design airflow under Start."))}
		s.list.Refresh()
		return
	}
	today, brought := kinds(study)
	s.list.Objects = []fyne.CanvasObject{heading("Problems of today's house, worst first")}
	if len(today) == 0 {
		s.list.Add(widget.NewLabel(lang.T("Today's house has none.")))
	}
	for _, k := range today {
		s.list.Add(s.entry(k))
	}
	if len(brought) > 0 {
		s.list.Add(gap())
		s.list.Add(heading("Problems that an option brings"))
	}
	for _, k := range brought {
		s.list.Add(s.entry(k))
	}
	s.list.Add(gap())
	s.list.Add(heading("What helps, and what is good"))
	s.list.Add(s.ranges)
	good := notices.NewFindingList()
	good.Set(append(sizing.RangeFindings(s.model.Ranges()), ofToday(study, sizing.Good)...), s.model.Units())
	s.list.Add(good)
	s.list.Refresh()
}

// gap stands between two groups.
func gap() fyne.CanvasObject {
	return container.NewGridWrap(fyne.NewSize(1, look.GroupGap-2*8))
}

func ofToday(study *sizing.Study, severity sizing.Severity) (out []sizing.Finding) {
	for _, f := range study.Findings {
		if f.Severity == severity && (f.Option == "" || f.Option == study.Today().Name) {
			out = append(out, f)
		}
	}
	return out
}

// entry shows a problem with what removes it and the field where it is put right.
func (s *Screen) entry(k *kind) fyne.CanvasObject {
	sys, f := s.model.Units(), &k.finding
	small := message.Rows{Mark: notices.Between, Items: notices.Basis(*f)}
	if k.today && len(k.with) > 0 {
		small.Items = append(small.Items, message.New("also with {options}", "options", strings.Join(k.with, ", ")))
	}
	fine := widget.NewLabel(small.Show(sys))
	fine.Wrapping = fyne.TextWrapWord
	fine.SizeName = theme.SizeNameCaptionText
	fine.Importance = widget.LowImportance
	buttons := widgets.NewFlow()
	s.optionLinks(buttons, "Removed by", k.removes)
	s.optionLinks(buttons, "Removed, but not surely, by", k.unsure)
	s.optionLinks(buttons, "Lessened by", k.lessens)
	if !k.today {
		s.optionLinks(buttons, "With", k.with)
	}
	s.fieldLink(buttons, k)
	return notices.NewEntry(f.Severity, notices.Title(k.problem), f.In(sys), fine, buttons)
}

func (s *Screen) optionLinks(row *fyne.Container, words message.ID, options []string) {
	if len(options) == 0 {
		return
	}
	row.Add(widget.NewLabel(lang.T(words)))
	for _, name := range options {
		s.link(row, name, func() { s.links.Option(name) })
	}
}

func (s *Screen) fieldLink(row *fyne.Container, k *kind) {
	path := fields[k.problem]
	if path == "" {
		return
	}
	s.link(row, lang.T("Show {field}", "field", s.links.Label(path)), func() { s.links.Field(path) })
}

func (s *Screen) link(row *fyne.Container, label string, open func()) {
	b := widgets.NewNamedButton(label, open)
	b.OnFocusGained(func() { s.scrollTo(b) })
	if s.first == nil {
		s.first = b
	}
	row.Add(b)
}

// scrollTo scrolls by the least distance that shows the button.
func (s *Screen) scrollTo(b *widgets.Button) {
	driver := fyne.CurrentApp().Driver()
	top := driver.AbsolutePositionForObject(b).Y - driver.AbsolutePositionForObject(s.scroll.Content).Y
	at, room := s.scroll.Offset.Y, s.scroll.Size().Height
	switch bottom := top + b.Size().Height; {
	case top < at:
		s.scroll.ScrollToOffset(fyne.NewPos(0, top))
	case bottom > at+room:
		s.scroll.ScrollToOffset(fyne.NewPos(0, bottom-room))
	}
}

func (s *Screen) listAssumed(study *sizing.Study) {
	s.paths, s.rows = nil, nil
	if study == nil {
		s.share.SetText("")
		s.assumed.Set(heads(), nil)
		return
	}
	s.share.SetText(message.Text(s.model.Units(), "{share} % of today's external static comes from parts that nobody entered or measured.", "share", message.Fixed(100*study.AssumedShare, 0)))
	for _, a := range study.Assumptions {
		s.rows = append(s.rows, []string{a.In(s.model.Units()), lang.T(a.Source), s.links.Call(a.Path)})
		s.paths = append(s.paths, a.Path)
	}
	s.assumed.Set(heads(), s.rows)
}

func heads() []table.Column {
	return []table.Column{{Title: "Assumed"}, {Title: "Source"}, {Title: "Field that replaces it"}}
}
