package forms

import (
	"fmt"

	"returnbench/gui/form"
	"returnbench/sizing"
)

// FilterSlot is the place for the central filter: where it sits and how well
// the place closes round it.
type FilterSlot struct{ *form.Form }

// NewFilterSlot makes the form.
func NewFilterSlot(m form.Model) *FilterSlot {
	return &FilterSlot{form.New(m,
		func() string {
			j := m.Peek()
			return m.Units().String() + fmt.Sprint(form.NoSlotForGrilles(j)) + j.FilteredReturns().Show(m.Units())
		},
		func(b *form.Builder) {
			b.Heading("Filter at the unit")
			if j := m.Peek(); form.NoSlotForGrilles(j) {
				b.Note("None at the unit: the filter is in the grille of {names}. If the unit holds one too, enter it here.", "names", j.FilteredReturns())
			}
			form.Slot(b, "slot", func(j *sizing.Job) *sizing.Slot { return &j.Slot }, "not named")
			b.Note("A filter behind a grille belongs to its return: see Returns. Other filters are described under Filters.")
		})}
}
