package job_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// A fault is reported in the units of a reader, its error in those of the file.
func TestAFaultInTheUnitsOfAReader(t *testing.T) {
	f := job.NewFieldError("limits.change_drop", 1500*units.Pascal, message.New("{low} to {high}", "low", 0.02*units.InchWater, "high", 5*units.InchWater))
	assert.Equal(t, "1500 Pa", f.Given)
	assert.EqualError(t, f, "limits.change_drop: given 1500 Pa; want 0.02 in. w.c. to 5 in. w.c.")
	assert.Equal(t, "limits.change_drop: given 6.022 in. w.c.; want 0.02 in. w.c. to 5 in. w.c.", f.In(units.IP))
	comma := units.Locale{System: units.InchPound, Comma: true}
	assert.Equal(t, "limits.change_drop: given 6,022 in. w.c.; want 0,02 in. w.c. to 5 in. w.c.", f.In(comma))
	assert.Equal(t, "limits.change_drop: given 1500 Pa; want 5.0 Pa to 1245.4 Pa", f.In(units.SI))
	assert.Equal(t, f.In(units.SI), message.Fault(units.SI, f))

	moved := f.At("job.limits.change_drop")
	assert.Equal(t, "job.limits.change_drop", moved.Path)
	assert.Equal(t, "limits.change_drop", f.Path)
	given, wanted := moved.Say(units.IP, func(units.Quantity) string { return "q" })
	assert.Equal(t, [2]string{"q", "q to q"}, [2]string{given, wanted})
}

func TestWhatWasGivenMayBeWords(t *testing.T) {
	plain := &job.FieldError{Path: "a", Given: "as typed", Wanted: message.New("another")}
	assert.EqualError(t, plain, "a: given as typed; want another")
	assert.Equal(t, plain.Error(), plain.In(units.SI))
	one := job.NewFieldError("taps[0].points", message.New("{count} rows", "count", 1), message.New("at least 2 rows"))
	assert.Equal(t, "1 row", one.Given)
	assert.Equal(t, "0,4", func() string {
		given, _ := job.NewFieldError("a", 0.4, message.New("b")).Say(units.Locale{Comma: true}, nil)
		return given
	}())
}

// Every fault of a job reads in English as it is reported, and no argument is left open.
func TestFaultsOfAJobAreWhole(t *testing.T) {
	j := job.Job{Schema: 9, Equipment: job.Equipment{Kind: "boiler"}, Slot: job.Slot{Filter: "none such", None: true},
		Options: []job.Option{{Name: "today", Tap: "low"}}, Readings: []job.Reading{{AfterWork: true, Tap: "high"}}}
	faults := j.Check()
	require.Greater(t, len(faults), 6)
	for _, f := range faults {
		for _, text := range []string{f.Error(), f.In(units.SI)} {
			assert.NotContains(t, text, "{", f.Path)
			assert.NotContains(t, text, "%!", f.Path)
		}
	}
	assert.EqualError(t, faults.At("schema"), "schema: given 9; want 1")
	assert.EqualError(t, faults.At("readings[0].option"), `readings[0].option: given nothing, though the round was read after the work; want the option that was installed: "today", or "today" where nothing was changed`)
	assert.EqualError(t, faults.At("readings[0].tap"), `readings[0].tap: given "high"; want the name of a tap of the table: the table has none`)
}
