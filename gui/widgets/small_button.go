package widgets

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/look"
)

// SmallButton is a small button that leaves the keyboard where it is.
type SmallButton struct {
	widget.BaseWidget
	Hover
	sign  string
	onTap func()
}

var (
	_ desktop.Hoverable = (*SmallButton)(nil)
	_ fyne.Tappable     = (*SmallButton)(nil)
)

func NewSmallButton(sign string, onTap func()) *SmallButton {
	b := &SmallButton{sign: sign, onTap: onTap}
	b.Changed = b.Refresh
	b.ExtendBaseWidget(b)
	return b
}

// Tapped makes one step.
func (b *SmallButton) Tapped(*fyne.PointEvent) { b.onTap() }

// CreateRenderer draws the button.
func (b *SmallButton) CreateRenderer() fyne.WidgetRenderer {
	r := &smallButtonRenderer{b: b, ground: canvas.NewRectangle(color.Transparent), overlay: canvas.NewRectangle(color.Transparent), text: canvas.NewText(b.sign, color.Black)}
	r.text.Alignment = fyne.TextAlignCenter
	r.paint()
	return r
}

type smallButtonRenderer struct {
	b               *SmallButton
	ground, overlay *canvas.Rectangle
	text            *canvas.Text
}

func (r *smallButtonRenderer) Destroy() {}

func (r *smallButtonRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.ground, r.overlay, r.text}
}

func (r *smallButtonRenderer) MinSize() fyne.Size {
	side := fyne.Max(20*TextScale(r.b.Theme()), r.b.Theme().Size(look.Target))
	return fyne.NewSize(side, side)
}

func (r *smallButtonRenderer) Layout(size fyne.Size) {
	r.ground.Resize(size)
	r.overlay.Resize(size)
	h := r.text.MinSize().Height
	r.text.Resize(fyne.NewSize(size.Width, h))
	r.text.Move(fyne.NewPos(0, (size.Height-h)/2))
}

func (r *smallButtonRenderer) Refresh() {
	r.paint()
	r.Layout(r.b.Size())
	canvas.Refresh(r.b)
}

func (r *smallButtonRenderer) paint() {
	th := r.b.Theme()
	v := fyne.CurrentApp().Settings().ThemeVariant()
	r.ground.FillColor = th.Color(theme.ColorNameButton, v)
	r.ground.CornerRadius = th.Size(theme.SizeNameInputRadius)
	r.overlay.FillColor = th.Color(theme.ColorNameHover, v)
	r.overlay.CornerRadius = r.ground.CornerRadius
	r.overlay.Hidden = !r.b.Hovered
	r.text.Color = th.Color(theme.ColorNameForeground, v)
	r.text.TextSize = th.Size(theme.SizeNameText)
}
