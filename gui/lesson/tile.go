package lesson

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/widgets"
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

// tiles stand side by side, or under each other where that is too wide.
type tiles struct{ width float32 } // as last laid out

func (t *tiles) shape(o []fyne.CanvasObject, width float32) (columns int, cell fyne.Size) {
	for _, one := range o {
		cell = cell.Max(one.MinSize())
	}
	columns = 2
	if width < 2*cell.Width {
		columns = 1
	}
	cell.Width = fyne.Max(cell.Width, width/float32(columns))
	return columns, cell
}

// MinSize is as wide as one, and as high as they were at the last width.
func (t *tiles) MinSize(o []fyne.CanvasObject) fyne.Size {
	columns, cell := t.shape(o, t.width)
	_, least := t.shape(o, 0)
	return fyne.NewSize(least.Width, cell.Height*float32((len(o)+columns-1)/columns))
}

// Layout fills row after row.
func (t *tiles) Layout(o []fyne.CanvasObject, size fyne.Size) {
	t.width = size.Width
	columns, cell := t.shape(o, size.Width)
	for i, one := range o {
		one.Resize(cell)
		one.Move(fyne.NewPos(cell.Width*float32(i%columns), cell.Height*float32(i/columns)))
	}
}

// tapArea takes taps on a tile: its number is then traced. It explains the term of the
// number in a tooltip.
type tapArea struct {
	widget.BaseWidget
	widgets.HoverTip
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
	t.pick.OnAll(t.pick, func() string { return widgets.Explain(n.Name()) })
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
