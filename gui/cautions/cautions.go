// Package cautions is the place that comes before any work on the equipment.
package cautions

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/widgets"
	"returnbench/sizing"
)

// Words are the cautions, in the order in which the work meets them.
func Words() []string {
	return []string{
		"Switch off the power at the disconnect, and the gas where there is a furnace, and check that it is off before you open anything.",
		"Sheet metal cuts: wear gloves and cover the edges.",
		"Old duct tape and wrap may hold asbestos: stop, leave it alone and have it tested.",
		"Never run the blower with the blower door or the filter out.",
		"A return must not draw from a garage, a bathroom, a kitchen, or a room with an open combustion appliance.",
		"After any change to the return near fuel-burning equipment, have draft and combustion tested.",
		"Cabinet, gas, electrical and refrigerant work is for licensed installers under the local code and the equipment's own instructions, which override this program.",
	}
}

// Screen is the place.
type Screen struct{ object fyne.CanvasObject }

// New makes the screen.
func New() *Screen {
	box := container.NewVBox(widgets.NewNotice(sizing.Stop, "Before any work on the equipment", ""))
	for _, w := range Words() {
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
