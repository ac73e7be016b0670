// Package cautions is the place that comes before any work on the equipment.
package cautions

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/export"
)

// Screen is the place.
type Screen struct{ object fyne.CanvasObject }

// New makes the screen.
func New() *Screen {
	box := container.NewVBox(widgets.NewNotice(sizing.Stop, "Before any work on the equipment", ""))
	for _, w := range export.Cautions() {
		box.Add(widgets.NewNotice(sizing.Caution, w, ""))
	}
	foot := widget.NewLabel("The figures of this program are estimates from what was typed and what was assumed. They do not replace a measurement, the equipment's nameplate, or the judgement of the person who is licensed to do the work.")
	foot.Wrapping = fyne.TextWrapWord
	box.Add(foot)
	return &Screen{container.NewVScroll(container.NewPadded(box))}
}

// Object is the screen.
func (s *Screen) Object() fyne.CanvasObject { return s.object }

// Refresh changes nothing: the cautions hold for every job.
func (s *Screen) Refresh() {}

// First is nothing: there is nothing to type.
func (s *Screen) First() fyne.Focusable { return nil }
