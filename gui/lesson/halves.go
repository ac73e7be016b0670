package lesson

import "fyne.io/fyne/v2"

// halves gives the picture at least half the height, and what stands over it what
// is left: it scrolls where that is too little.
type halves struct{ words, over, picture, bar fyne.CanvasObject }

// MinSize is that of the widest, with room for a picture.
func (h *halves) MinSize([]fyne.CanvasObject) fyne.Size {
	bar, words, picture := h.bar.MinSize(), h.words.MinSize(), h.picture.MinSize()
	return fyne.NewSize(fyne.Max(bar.Width, fyne.Max(words.Width, picture.Width)), bar.Height+2*picture.Height)
}

// Layout shares the height out.
func (h *halves) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	h.bar.Resize(fyne.NewSize(size.Width, h.bar.MinSize().Height)) // it knows its lines once it has a width
	bar := h.bar.MinSize().Height
	rest := size.Height - bar
	h.over.Resize(fyne.NewSize(size.Width, rest/2)) // the words know their lines once they have a width
	over := fyne.Max(0, fyne.Min(h.words.MinSize().Height, rest-size.Height/2))
	h.over.Move(fyne.NewPos(0, 0))
	h.over.Resize(fyne.NewSize(size.Width, over))
	h.picture.Move(fyne.NewPos(0, over))
	h.picture.Resize(fyne.NewSize(size.Width, rest-over))
	h.bar.Move(fyne.NewPos(0, rest))
	h.bar.Resize(fyne.NewSize(size.Width, bar))
}
