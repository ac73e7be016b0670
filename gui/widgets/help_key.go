package widgets

import "fyne.io/fyne/v2"

// HelpKey gives F1 to the window, which hears keys only while no part has the
// keyboard, and reports whether it was that key.
func HelpKey(part fyne.CanvasObject, k *fyne.KeyEvent) bool {
	if k.Name != fyne.KeyF1 {
		return false
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(part); c != nil && c.OnTypedKey() != nil {
		c.OnTypedKey()(k)
	}
	return true
}
