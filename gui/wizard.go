package gui

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
)

// wizardSteps are the places in the order in which one walks the house: plate,
// blower, returns, slot, coil, gauge. Any step can be left and come back to.
var wizardSteps = []string{"equipment", "blower", "returns", "slot", "parts", "gauge"}

// wizard is the strip under the form of a step.
type wizard struct {
	bench      *Bench
	says       *widget.Label
	back, next *keyButton
	ground     *canvas.Rectangle // a text that the form scrolled out may reach under the strip
	box        *fyne.Container
}

func newWizard(b *Bench) *wizard {
	w := &wizard{bench: b, says: widget.NewLabel("")}
	w.says.Truncation = fyne.TextTruncateEllipsis
	w.back = newKeyButton("Back", func() { b.wizardBy(-1) })
	w.next = newKeyButton("Next", func() { b.wizardBy(1) })
	w.ground = canvas.NewRectangle(color.Transparent)
	w.box = container.NewStack(w.ground, container.NewBorder(widget.NewSeparator(), nil, nil, container.NewHBox(w.back, w.next), w.says))
	return w
}

// step is where a place stands in the walk, -1 where it is none of its steps.
func step(key string) int {
	for i, k := range wizardSteps {
		if k == key {
			return i
		}
	}
	return -1
}

// wizardBy goes a step on or back; from any other place it goes to the first.
func (b *Bench) wizardBy(by int) {
	to := 0
	if at := step(b.at); at >= 0 {
		to = min(max(at+by, 0), len(wizardSteps)-1)
	}
	b.enter(wizardSteps[to])
}

// Refresh says which step it is and what is still assumed of it.
func (w *wizard) Refresh() {
	at := step(w.bench.at)
	if at < 0 {
		return
	}
	w.ground.FillColor = look.Of(w.says.Theme(), theme.ColorNameBackground)
	w.ground.Refresh()
	text := fmt.Sprintf("Step %d of %d", at+1, len(wizardSteps))
	if n := w.bench.assumedIn(w.bench.at); n > 0 {
		text += fmt.Sprintf(", %d assumed", n)
	}
	if w.says.Text != text {
		w.says.SetText(text)
	}
	enable(w.back, at > 0)
	enable(w.next, at < len(wizardSteps)-1)
}

func enable(b *keyButton, on bool) {
	switch {
	case on && b.Disabled():
		b.Enable()
	case !on && !b.Disabled():
		b.Disable()
	}
}

// assumedIn counts the values of a place that nobody typed or measured.
func (b *Bench) assumedIn(place string) int {
	n := 0
	if study := b.session.Study(); study != nil {
		for _, a := range study.Assumptions {
			if placeOfPath(a.Path) == place {
				n++
			}
		}
	}
	return n
}
