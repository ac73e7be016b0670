package lesson

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// halves gives the picture at least half the height of the window, and what stands over
// it what is left: it scrolls where that is too little.
type halves struct {
	words, over, picture, bar fyne.CanvasObject
	fit                       func() // the type of the words, to the window
}

// leastWords is the share that the words keep where the window has little height for a
// demonstration.
const leastWords = 0.4

// MinSize is that of the widest, with room for a picture.
func (h *halves) MinSize([]fyne.CanvasObject) fyne.Size {
	bar, words, picture := h.bar.MinSize(), h.words.MinSize(), h.picture.MinSize()
	return fyne.NewSize(fyne.Max(bar.Width, fyne.Max(words.Width, picture.Width)), bar.Height+2*picture.Height)
}

// Layout shares the height out.
func (h *halves) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	h.fit()
	h.bar.Resize(fyne.NewSize(size.Width, h.bar.MinSize().Height)) // it knows its lines once it has a width
	bar := h.bar.MinSize().Height
	rest := size.Height - bar
	h.over.Resize(fyne.NewSize(size.Width, rest/2)) // the words know their lines once they have a width
	room := fyne.Max(rest-h.half(size), leastWords*rest)
	over := fyne.Max(0, fyne.Min(h.words.MinSize().Height, room))
	h.over.Move(fyne.NewPos(0, 0))
	h.over.Resize(fyne.NewSize(size.Width, over))
	h.picture.Move(fyne.NewPos(0, over))
	h.picture.Resize(fyne.NewSize(size.Width, rest-over))
	h.bar.Move(fyne.NewPos(0, rest))
	h.bar.Resize(fyne.NewSize(size.Width, bar))
}

// half is half the height of the window.
func (h *halves) half(size fyne.Size) float32 {
	if c := fyne.CurrentApp().Driver().CanvasForObject(h.bar); c != nil {
		return c.Size().Height / 2
	}
	return size.Height / 2
}

// textsOverTrace sets the texts on the picture beside it: the first scrolls, and the trace
// under it has what that leaves, but no less than its share.
type textsOverTrace struct {
	texts func() fyne.Size // what the first would take
	share float32
}

// MinSize is that of the first.
func (*textsOverTrace) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

// Layout shares the height out.
func (a *textsOverTrace) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(size) // it knows its lines once it has a width
	trace := float32(0)
	if o[1].Visible() {
		trace = fyne.Max(a.share*size.Height, size.Height-a.texts().Height)
	}
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(size.Width, size.Height-trace))
	o[1].Move(fyne.NewPos(0, size.Height-trace))
	o[1].Resize(fyne.NewSize(size.Width, trace))
}

// widest gives a label the room of the widest text it will show, so that the
// slider keeps still.
type widest struct{ texts func() []string }

func (w *widest) MinSize(o []fyne.CanvasObject) fyne.Size {
	l := o[0].(*widget.Label)
	th := l.Theme()
	size := l.MinSize()
	for _, t := range w.texts() {
		m := fyne.MeasureText(t, th.Size(theme.SizeNameText), l.TextStyle)
		size.Width = fyne.Max(size.Width, m.Width+4*th.Size(theme.SizeNameInnerPadding))
	}
	return size
}

func (w *widest) Layout(o []fyne.CanvasObject, size fyne.Size) { o[0].Resize(size) }

// sideBySide shares the width between two objects, of which the right one has what it needs
// first.
type sideBySide struct {
	share       float32 // of the left one
	left, right fyne.CanvasObject
}

// MinSize has room for both.
func (b *sideBySide) MinSize([]fyne.CanvasObject) fyne.Size {
	left, right := b.left.MinSize(), b.right.MinSize()
	return fyne.NewSize(left.Width+right.Width, fyne.Max(left.Height, right.Height))
}

// Layout shares the width out.
func (b *sideBySide) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	const gap = 8
	left := fyne.Min((size.Width-gap)*b.share, size.Width-gap-b.right.MinSize().Width)
	b.left.Move(fyne.NewPos(0, 0))
	b.left.Resize(fyne.NewSize(left, size.Height))
	b.right.Move(fyne.NewPos(left+gap, 0))
	b.right.Resize(fyne.NewSize(size.Width-left-gap, size.Height))
}
