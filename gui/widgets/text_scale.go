package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"returnbench/gui/look"
)

// TextScale is how much larger than at scale 1 the text is.
func TextScale(th fyne.Theme) float32 { return th.Size(theme.SizeNameText) / look.BodyText }
