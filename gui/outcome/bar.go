package outcome

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// bar sets the choice of the picture, what it is of and the buttons in one line; where
// that is too wide what it is of goes into a second one.
type bar struct{ choice, of, buttons fyne.CanvasObject }

// twoLines tells whether it is too wide for one.
func (b *bar) twoLines(width float32) bool {
	gap := theme.Padding()
	return b.choice.MinSize().Width+gap+b.of.MinSize().Width+gap+b.buttons.MinSize().Width > width
}

// MinSize is that of two lines where the last width takes them.
func (b *bar) MinSize([]fyne.CanvasObject) fyne.Size {
	choice, of, buttons := b.choice.MinSize(), b.of.MinSize(), b.buttons.MinSize()
	size := fyne.NewSize(fyne.Max(choice.Width+theme.Padding()+buttons.Width, of.Width), fyne.Max(choice.Height, buttons.Height))
	if width := b.buttons.Position().X + b.buttons.Size().Width; width > 0 && b.twoLines(width) {
		size.Height += of.Height
	}
	return size
}

// Layout gives the choice what the others leave.
func (b *bar) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	gap, of, buttons := theme.Padding(), b.of.MinSize(), b.buttons.MinSize()
	line := fyne.Max(b.choice.MinSize().Height, buttons.Height)
	right := size.Width - buttons.Width
	b.buttons.Move(fyne.NewPos(right, 0))
	b.buttons.Resize(fyne.NewSize(buttons.Width, line))
	right -= gap
	if b.twoLines(size.Width) {
		b.of.Move(fyne.NewPos(0, line))
		b.of.Resize(of)
	} else {
		right -= of.Width
		b.of.Move(fyne.NewPos(right, 0))
		b.of.Resize(fyne.NewSize(of.Width, line))
		right -= gap
	}
	b.choice.Move(fyne.NewPos(0, 0))
	b.choice.Resize(fyne.NewSize(right, line))
}
