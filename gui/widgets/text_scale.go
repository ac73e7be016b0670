package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// TextScale is how much larger than 13 points the text is.
func TextScale(th fyne.Theme) float32 { return th.Size(theme.SizeNameText) / 13 }
