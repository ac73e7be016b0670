// Package slot is the place for the central filter: where it sits and how well
// the place closes round it.
package slot

import (
	"returnbench/gui/form"
	"returnbench/sizing"
)

// Model is what the screen needs of the session.
type Model interface{ form.Model }

// Screen is the place.
type Screen struct{ *form.Form }

// New makes the screen.
func New(m Model) *Screen {
	return &Screen{form.New(m,
		func() string { return m.Units().String() },
		func(b *form.Builder) {
			b.Heading("Filter place at the equipment")
			form.Slot(b, "slot", func(j *sizing.Job) *sizing.Slot { return &j.Slot }, "not named")
			b.Note("A filter behind a grille belongs to its branch: see Returns. Another make is described in Filters.")
		})}
}
