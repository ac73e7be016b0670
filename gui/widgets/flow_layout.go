package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// NewFlow sets things side by side, each as large as it needs to be, and goes on
// in a new line where the width ends.
func NewFlow(objects ...fyne.CanvasObject) *fyne.Container {
	return container.New(&flow{}, objects...)
}

type flow struct {
	width float32 // as last laid out; zero: not yet, and all stands in one line
}

// line is a run of things side by side.
type line struct {
	objects       []fyne.CanvasObject
	width, height float32
}

func (f *flow) lines(objects []fyne.CanvasObject, width float32) (out []line) {
	gap := theme.Padding()
	for _, o := range objects {
		if !o.Visible() {
			continue
		}
		size := o.MinSize()
		last := len(out) - 1
		if last < 0 || width > 0 && out[last].width+gap+size.Width > width {
			out = append(out, line{width: -gap})
			last++
		}
		l := &out[last]
		l.objects = append(l.objects, o)
		l.width += gap + size.Width
		l.height = fyne.Max(l.height, size.Height)
	}
	return out
}

// MinSize is as wide as the widest thing, and as high as the lines were at the
// last width.
func (f *flow) MinSize(objects []fyne.CanvasObject) fyne.Size {
	size := fyne.Size{}
	for _, o := range objects {
		if o.Visible() {
			size.Width = fyne.Max(size.Width, o.MinSize().Width)
		}
	}
	for i, l := range f.lines(objects, f.width) {
		if i > 0 {
			size.Height += theme.Padding()
		}
		size.Height += l.height
	}
	return size
}

// Layout fills line after line.
func (f *flow) Layout(objects []fyne.CanvasObject, size fyne.Size) {
	f.width = size.Width
	y := float32(0)
	for _, l := range f.lines(objects, size.Width) {
		x := float32(0)
		for _, o := range l.objects {
			least := o.MinSize()
			o.Resize(least)
			o.Move(fyne.NewPos(x, y+(l.height-least.Height)/2))
			x += least.Width + theme.Padding()
		}
		y += l.height + theme.Padding()
	}
}
