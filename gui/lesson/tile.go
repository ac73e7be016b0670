package lesson

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/sizing/lesson"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// tile is one headline number: now in large, and under it the start and the
// change in words.
type tile struct {
	number            lesson.Number
	name, value, from *widget.Label
	box               *fyne.Container
	pick              *tapArea
}

// tapArea takes taps on a tile: its number is then traced.
type tapArea struct {
	widget.BaseWidget
	tapped func()
}

func (a *tapArea) Tapped(*fyne.PointEvent) { a.tapped() }

func (a *tapArea) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}

func newTile(n lesson.Number, large bool) *tile {
	t := &tile{number: n, name: wrapped(lang.T(n.Name())), value: bold("–"), from: wrapped("")}
	t.value.SizeName = theme.SizeNameHeadingText
	if !large {
		t.name.SizeName, t.from.SizeName = theme.SizeNameText, theme.SizeNameText
	}
	t.pick = &tapArea{tapped: func() {}}
	t.pick.ExtendBaseWidget(t.pick)
	t.box = container.NewStack(container.NewVBox(t.name, t.value, t.from), t.pick)
	return t
}

func (t *tile) set(start, now lesson.SolvedSetting, moved bool, sys units.Locale) {
	c := lesson.Change{From: start.Value(t.number), To: now.Value(t.number)}
	setText(t.value, c.To.Show(sys))
	words := ""
	if moved {
		words = message.Text(sys, "from {before}: {change}", "before", c.From, "change", c.Words(sys))
	}
	setText(t.from, words)
}
