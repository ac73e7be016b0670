package lesson

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/widgets"
)

// barLayout lays out the buttons under a demonstration: the last ones stand at the right
// end, and all go on in a new line where the width ends.
type barLayout struct {
	flow fyne.Layout
	last int
}

func newBar(first, last []fyne.CanvasObject) *fyne.Container {
	return container.New(&barLayout{widgets.NewFlow().Layout, len(last)}, append(first, last...)...)
}

// MinSize is that of the lines at the last width.
func (f *barLayout) MinSize(objects []fyne.CanvasObject) fyne.Size { return f.flow.MinSize(objects) }

// Layout sets the last ones apart where one line holds all.
func (f *barLayout) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.flow.Layout(objects, size)
	end, first := size.Width, objects[0]
	if slices.ContainsFunc(objects, func(o fyne.CanvasObject) bool { return o.Position().Y > first.Position().Y+first.Size().Height }) {
		return
	}
	for _, o := range objects {
		o.Resize(fyne.NewSize(o.Size().Width, size.Height))
		o.Move(fyne.NewPos(o.Position().X, 0))
	}
	for i := len(objects) - 1; i >= len(objects)-f.last; i-- {
		end -= objects[i].Size().Width
		objects[i].Move(fyne.NewPos(end, 0))
		end -= theme.Padding()
	}
}
