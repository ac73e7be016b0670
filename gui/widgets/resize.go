package widgets

import "fyne.io/fyne/v2"

// ResizeToWidth gives an object a width and the height that follows from it, and tells
// the height. Words that have just come into view know their lines only once they
// were laid out.
func ResizeToWidth(o fyne.CanvasObject, width float32) float32 {
	const tries = 4
	for range tries {
		height := o.MinSize().Height
		o.Resize(fyne.NewSize(width, height))
		if o.MinSize().Height == height {
			break
		}
	}
	return o.Size().Height
}
