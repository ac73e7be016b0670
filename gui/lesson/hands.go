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
