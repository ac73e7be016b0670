package forms

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"

	"returnbench/gui/guitest"
	"returnbench/gui/look"
	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/duct"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// What a return leaves out is said beside its fields: a duct that is not entered, and
// the filter at the unit that is no longer assumed.
func TestReturnSaysWhatItLeavesOut(t *testing.T) {
	test.NewTempApp(t)
	guitest.UseTheme(t, look.Light, 1)
	m := session.New(sizing.Solve, session.InStep)
	job := house()
	job.Slot = sizing.Slot{}
	job.Filters = []filter.Filter{{Name: "pleated", Depth: units.Inch, MERV: 8}}
	job.Returns = []sizing.Return{{Name: "study", Grille: duct.Grille{Width: 20 * units.Inch, Height: 20 * units.Inch}}}
	m.Load(job, "")
	s, slot := NewReturns(m), NewFilterSlot(m)
	m.OnChange(func() { s.Refresh(); slot.Refresh() })
	const missing, none, at = "No duct entered: its drop is missing.", "With a filter here none is assumed at the unit.", "None at the unit: the filter is in the grille of study."
	assert.Contains(t, guitest.Words(s.Object()), missing)
	assert.NotContains(t, guitest.Words(s.Object()), none)
	assert.NotContains(t, guitest.Words(slot.Object()), at)

	m.Apply("filter", func(j *sizing.Job) { j.Returns[0].Filter = "pleated" })
	assert.Contains(t, guitest.Words(s.Object()), none)
	assert.Contains(t, guitest.Words(slot.Object()), at)

	m.Apply("slot", func(j *sizing.Job) { j.Slot.Filter = "pleated" })
	assert.NotContains(t, guitest.Words(s.Object()), none)
	assert.NotContains(t, guitest.Words(slot.Object()), at)

	m.Apply("no duct", func(j *sizing.Job) { j.Returns[0].Ends = sizing.NoEnds })
	assert.NotContains(t, guitest.Words(s.Object()), missing)
}
