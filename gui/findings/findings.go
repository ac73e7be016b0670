// Package findings is the place for all that the engine has to say about the
// house: findings with their limits and sources, and what was assumed.
package findings

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/notices"
	"returnbench/gui/table"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Model is what the screen needs of the session.
type Model interface {
	Study() *sizing.Study
	Ranges() []sizing.OptionRange // of that Study; nil while not known
	RangeWords() string           // how far they are
	Units() units.System
}

// Screen is the place.
type Screen struct {
	model   Model
	show    func(path string)
	call    func(path string) string
	list    *notices.FindingList
	ranges  *widget.Label
	share   *widget.Label
	assumed *table.Fitted
	paths   []string
	rows    [][]string // of what is assumed
	box     fyne.CanvasObject
}

// New makes the screen; show leads to a field, call tells a person which one it is.
func New(m Model, show func(path string), call func(path string) string) *Screen {
	s := &Screen{model: m, show: show, call: call, list: notices.NewFindingList(), ranges: widget.NewLabel(""), share: widget.NewLabel(""), assumed: table.NewFitted(8)}
	s.share.Wrapping, s.ranges.Wrapping = fyne.TextWrapWord, fyne.TextWrapWord
	s.assumed.OnActivated = func(i int) { s.show(s.paths[i]) }
	bottom := container.NewVBox(
		widget.NewLabelWithStyle("What is assumed (double click or Return leads to the field)", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}),
		s.share, s.assumed.Object())
	s.box = container.NewBorder(
		container.NewVBox(widget.NewLabelWithStyle("Findings, gravest first", fyne.TextAlignLeading, fyne.TextStyle{Bold: true}), s.ranges),
		bottom, nil, nil, container.NewVScroll(s.list))
	s.Refresh()
	return s
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.box }

// First is the table of what is assumed.
func (s *Screen) First() fyne.Focusable { return s.assumed.Table }

// Assumed are the rows of what is assumed: sentence, source and field.
func (s *Screen) Assumed() [][]string { return s.rows }

// Refresh reads the Study again.
func (s *Screen) Refresh() {
	s.RefreshRanges()
	study := s.model.Study()
	if study == nil {
		s.list.Set(nil, s.model.Units())
		s.share.SetText("There is no result yet.")
		s.assumed.Set(heads(), nil)
		s.paths, s.rows = nil, nil
		return
	}
	s.list.Set(append(sizing.RangeFindings(s.model.Ranges()), study.Findings...), s.model.Units())
	s.share.SetText(fmt.Sprintf("%.0f %% of today's external static comes from parts that nobody typed or measured.", 100*study.AssumedShare))
	rows := make([][]string, len(study.Assumptions))
	s.paths = make([]string, len(study.Assumptions))
	for i, a := range study.Assumptions {
		rows[i] = []string{a.In(s.model.Units()), a.Source, s.call(a.Path)}
		s.paths[i] = a.Path
	}
	s.rows = rows
	s.assumed.Set(heads(), rows)
}

// RefreshRanges says how far the ranges are.
func (s *Screen) RefreshRanges() { s.ranges.SetText(s.model.RangeWords()) }

func heads() []table.Column {
	return []table.Column{{Title: "Assumed"}, {Title: "Source"}, {Title: "Field that replaces it"}}
}
