package forms

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/notices"
	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/export"
)

// Cautions is the place that comes before any work on the equipment.
type Cautions struct{ object fyne.CanvasObject }

// NewCautions makes the form.
func NewCautions() *Cautions {
	box := container.NewVBox(notices.NewNotice(sizing.Stop, lang.T("Before any work on the equipment"), ""))
	for _, w := range export.Cautions() {
		box.Add(notices.NewNotice(sizing.Caution, lang.T(w), ""))
	}
	note := widget.NewLabel(lang.T("The figures of this program are estimates from what was typed and what was assumed. They do not replace a measurement, the equipment's nameplate, or the judgement of the person who is licensed to do the work."))
	note.Wrapping = fyne.TextWrapWord
	box.Add(note)
	return &Cautions{widgets.NewVScroll(container.NewPadded(box))}
}

// Object is the screen.
func (s *Cautions) Object() fyne.CanvasObject { return s.object }

// Refresh changes nothing: the cautions hold for every job.
func (s *Cautions) Refresh() {}

// First is nothing: there is nothing to type.
func (s *Cautions) First() fyne.Focusable { return nil }
