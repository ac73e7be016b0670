package gui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/gui/start"
)

// thingsToTry are three to try on the first start, one for each job that the window is
// for; Help has them again.
func (b *Bench) thingsToTry() []start.Entry {
	try := func(example, place string) func() {
		return func() {
			b.hideThingsToTry()
			b.ifSafe(func() {
				if example != "" {
					job, err := openExample(example)
					if err != nil {
						b.showError("The example cannot be opened", err)
						return
					}
					b.put(job, "")
				}
				b.enter(place)
			})
		}
	}
	return []start.Entry{
		{Name: lang.T("Find what chokes a house"), Note: lang.T("An invented house with a 1 inch filter: its problems, worst first, and what removes each."), Open: try("one-inch-slot", problemsPlace)},
		{Name: lang.T("Compare fixes and make an offer"), Note: lang.T("Two returns or one more: what each gains and costs, side by side. Paper turns one into an offer."), Open: try("two-returns", "compare")},
		{Name: lang.T("Show it to a class"), Note: lang.T("Ten demonstrations: guess first, then move one slider and see who was right."), Open: try("", lessonPlace)},
	}
}

// hideThingsToTry keeps the three things from being offered again.
func (b *Bench) hideThingsToTry() {
	if b.settings.Tried {
		return
	}
	b.settings.Tried = true
	b.keepSettings()
	b.listTemplates()
}

// showThings shows them again.
func (b *Bench) showThings() {
	box := container.NewVBox()
	for _, e := range b.thingsToTry() {
		note := widget.NewLabel(e.Note)
		note.Wrapping = fyne.TextWrapWord
		note.SizeName = theme.SizeNameCaptionText
		box.Add(container.NewHBox(newPlainButton(e.Name, func() { b.closeThen(e.Open) })))
		box.Add(note)
	}
	b.show(lang.T("Three things to try"), box, fyne.NewSize(560, 320), answer{"Close", nil})
}
