// Package working is the place where any headline number shows the steps it
// came from: what was done, the formula, the numbers in it, and the source.
package working

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
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
	Units() units.Locale
}

// Screen is the place: the numbers at the left, the steps of the chosen one at
// the right.
type Screen struct {
	model    Model
	table    *table.Table
	steps    *fyne.Container
	box      fyne.CanvasObject
	study    *sizing.Study
	ranged   bool // the workings of the ranges are among them
	workings []sizing.Working
}

// New makes the screen.
func New(m Model) *Screen {
	s := &Screen{model: m, table: table.New(), steps: container.NewVBox()}
	s.table.SetColumns([]table.Column{{Title: "Number"}, {Title: "Filter"}, {Title: "Result"}})
	s.table.Folds = true
	s.table.OnSelected = func(int) { s.showSteps() }
	split := container.NewHSplit(s.table, widgets.NewVScroll(container.NewPadded(s.steps)))
	s.box = container.NewBorder(
		widget.NewLabelWithStyle(lang.T("The working behind each number"), fyne.TextAlignLeading, fyne.TextStyle{Bold: true}),
		nil, nil, nil, container.New(&parted{split: split, table: s.table}, split))
	s.Refresh()
	return s
}

// parted gives the table the width of its columns, as far as that leaves room for the
// steps, whenever the window gets another width.
type parted struct {
	split *container.Split
	table *table.Table
	width float32
}

// MinSize is that of the split.
func (p *parted) MinSize([]fyne.CanvasObject) fyne.Size { return p.split.MinSize() }

// Layout parts the width anew.
func (p *parted) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const least, most = 0.4, 0.62
	if size.Width != p.width && size.Width > 0 {
		p.width = size.Width
		wanted := p.table.FullWidth() + theme.ScrollBarSize() + theme.Padding()
		p.split.SetOffset(float64(fyne.Max(least, fyne.Min(wanted/size.Width, most))))
	}
	p.split.Resize(size)
}

// name is what a number is called.
func name(w sizing.Working, sys units.Locale) string { return message.List{w.Name}.Show(sys) }

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.box }

// First is the table of numbers.
func (s *Screen) First() fyne.Focusable { return s.table }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	ranges := s.model.Ranges()
	if study := s.model.Study(); study != s.study || s.ranged != (ranges != nil) {
		s.study, s.workings, s.ranged = study, nil, ranges != nil
		if study != nil {
			s.workings = append(study.Workings(), sizing.RangeWorkings(study, ranges)...)
		}
	}
	sys := s.model.Units()
	rows := make([][]string, len(s.workings))
	for i, w := range s.workings {
		rows[i] = []string{name(w, sys), w.Filter.Show(sys), w.Result(sys)}
	}
	s.table.SetRows(rows)
	if s.table.Selected() < 0 && len(rows) > 0 {
		s.table.Select(0)
	}
	s.showSteps()
}

func (s *Screen) showSteps() {
	s.steps.Objects = nil
	if i := s.table.Selected(); i >= 0 && i < len(s.workings) {
		s.add(name(s.workings[i], s.model.Units()), func(l *widget.Label) { l.SizeName = theme.SizeNameSubHeadingText; l.TextStyle.Bold = true })
		for _, line := range widgets.CalculationLines(s.workings[i], s.model.Units()) {
			s.steps.Add(line)
		}
	}
	s.steps.Refresh()
}

func (s *Screen) add(text string, dress func(*widget.Label)) {
	if text == "" {
		return
	}
	l := widget.NewLabel(text)
	l.Wrapping = fyne.TextWrapWord
	dress(l)
	s.steps.Add(l)
}
