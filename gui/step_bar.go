package gui

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/look"
	"returnbench/gui/widgets"
	"returnbench/sizing"
)

// stepPlaces are the places that hold what must be entered, in the order in which
// they stand in the column: the steps of a group are consecutive. A person may
// leave any step and come back.
var stepPlaces = []string{"house", "equipment", "blower", "returns", "slot", "parts", "gauge", "filters", "limits"}

// stepBar is the bar under the form of a step: what is missing, and the buttons
// Previous and Next.
type stepBar struct {
	bench          *Bench
	text           *widgets.Lines
	previous, next *keyButton
	ground         *canvas.Rectangle // a text that the form scrolled out may reach under the bar
	box            *fyne.Container
}

func newStepBar(b *Bench) *stepBar {
	r := &stepBar{bench: b, text: widgets.NewLines(2, theme.SizeNameCaptionText, theme.ColorNameForeground, false)}
	r.previous = newKeyButton("Previous", func() { b.goStep(-1) })
	r.next = newKeyButton("Next", func() { b.goStep(1) })
	r.ground = canvas.NewRectangle(color.Transparent)
	buttons := container.NewCenter(container.NewHBox(r.previous, r.next))
	line := container.New(inset{look.Margin, 4}, container.NewBorder(nil, nil, nil, buttons, r.text))
	r.box = container.NewStack(r.ground, container.NewBorder(widget.NewSeparator(), nil, nil, nil, line))
	return r
}

// step is the number of a place's step, -1 where it is none.
func step(key string) int { return slices.Index(stepPlaces, key) }

// goStep goes a step on or back; from any other place it goes to the first.
func (b *Bench) goStep(by int) {
	to := 0
	if at := step(b.at); at >= 0 {
		to = min(max(at+by, 0), len(stepPlaces)-1)
	}
	b.enter(stepPlaces[to])
}

// Refresh shows the number of the step, what is still assumed in it, and the
// other steps with assumed values.
func (r *stepBar) Refresh() {
	at := step(r.bench.at)
	if at < 0 {
		return
	}
	r.ground.FillColor = look.Of(r.previous.Theme(), theme.ColorNameBackground)
	r.ground.Refresh()
	r.text.Set(r.words(at), theme.ColorNameForeground)
	enable(r.previous, at > 0)
	enable(r.next, at < len(stepPlaces)-1)
}

func (r *stepBar) words(at int) string {
	text := lang.T("Step {step} of {steps}. Assumed here: none.", "step", at+1, "steps", len(stepPlaces))
	if n := r.bench.assumedIn(stepPlaces[at]); n > 0 {
		text = lang.T("Step {step} of {steps}. Assumed here: {assumed}.", "step", at+1, "steps", len(stepPlaces), "assumed", n)
	}
	others := 0
	for i, key := range stepPlaces {
		if i != at {
			others += r.bench.assumedIn(key)
		}
	}
	if others > 0 {
		text += " " + lang.T("In other steps: {assumed}.", "assumed", others)
	}
	return text
}

func enable(b *keyButton, on bool) {
	switch {
	case on && b.Disabled():
		b.Enable()
	case !on && !b.Disabled():
		b.Disable()
	}
}

// assumedIn counts the values of a place that were neither typed nor measured.
func (b *Bench) assumedIn(place string) int {
	study := b.session.Study()
	if study == nil {
		return 0
	}
	if study != b.assumed.study {
		b.assumed = assumedCounts{study, map[string]int{}}
		for _, a := range study.Assumptions {
			b.assumed.in[placeOfPath(a.Path)]++
		}
	}
	return b.assumed.in[place]
}

// assumedCounts are how many values of a Study are assumed, by place.
type assumedCounts struct {
	study *sizing.Study
	in    map[string]int
}

// inset leaves room at the sides and at top and bottom.
type inset struct{ side, end float32 }

// MinSize is that of what it holds, with the room.
func (i inset) MinSize(o []fyne.CanvasObject) fyne.Size {
	return o[0].MinSize().AddWidthHeight(2*i.side, 2*i.end)
}

// Layout gives it what the room leaves.
func (i inset) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Move(fyne.NewPos(i.side, i.end))
	o[0].Resize(size.SubtractWidthHeight(2*i.side, 2*i.end))
}
