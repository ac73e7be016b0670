package lesson

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
)

// handCount counts the hands raised for an answer.
type handCount struct {
	label *widget.Label
	box   *fyne.Container
}

func newHandCount(raise func(by int)) *handCount {
	h := &handCount{label: widget.NewLabel(hands(0))}
	h.box = container.NewHBox(widgets.NewButton("−", func() { raise(-1) }), h.label, widgets.NewButton("+", func() { raise(1) }))
	return h
}

func (h *handCount) set(n int) {
	setText(h.label, hands(n))
}

func hands(n int) string { return lang.T("{count} hands", "count", n) }

// over sets one object over another, which is hidden or has what the first leaves: its
// share, and no less than a height that is asked for.
type over struct {
	share float32
	least func() float32
}

// MinSize is that of the first: the second makes do with what is left.
func (*over) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout shares the height out.
func (v *over) Layout(o []fyne.CanvasObject, size fyne.Size) {
	high := size.Height
	if o[1].Visible() {
		high = fyne.Min(high, fyne.Max(high*v.share, v.least()))
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width, high))
	o[1].Move(fyne.NewPos(0, high))
	o[1].Resize(fyne.NewSize(size.Width, size.Height-high))
}
