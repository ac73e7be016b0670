package widgets

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// CalculationLines are the lines of a working: what was done, the formula, the numbers in
// it, the result, and small the source.
func CalculationLines(w sizing.Working, sys units.Locale) []fyne.CanvasObject {
	var out []fyne.CanvasObject
	add := func(text string, dress func(*widget.Label)) {
		if text == "" {
			return
		}
		l := widget.NewLabel(text)
		l.Wrapping = fyne.TextWrapWord
		dress(l)
		out = append(out, l)
	}
	for _, step := range w.Steps {
		numbers, result := step.In(sys)
		add(step.Text.In(sys), func(l *widget.Label) { l.TextStyle.Bold = true })
		add(step.Equation(sys), func(l *widget.Label) { l.TextStyle.Italic = true })
		add(numbers, func(*widget.Label) {})
		add("= "+result, func(*widget.Label) {})
		if !step.Source.Empty() {
			add(message.Text(sys, "source: {source}", "source", step.Source), func(l *widget.Label) {
				l.SizeName = theme.SizeNameCaptionText
				l.Importance = widget.LowImportance
			})
		}
	}
	return out
}
