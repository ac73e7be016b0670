package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// FitSelect makes a list as wide as the longest of its choices, where the
// toolkit makes it as wide as what it shows while nothing is chosen.
func FitSelect(s *widget.Select) {
	widest := float32(0)
	for _, choice := range s.Options {
		if w := fyne.MeasureText(choice, s.Theme().Size(theme.SizeNameText), fyne.TextStyle{}).Width; w > widest {
			widest, s.PlaceHolder = w, choice
		}
	}
	s.Refresh()
}
