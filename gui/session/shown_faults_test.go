package session

import (
	"testing"

	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// strict refuses a negative airflow and a filter with no name.
func strict(j sizing.Job) (*sizing.Study, error) {
	var faults sizing.FieldErrors
	if j.DesignAirflow < 0 {
		faults = append(faults, &sizing.FieldError{Path: "design_airflow"})
	}
	for range j.Filters {
		faults = append(faults, &sizing.FieldError{Path: "filters[0].name"})
	}
	if faults != nil {
		return nil, faults
	}
	return &sizing.Study{}, nil
}

func TestAFaultIsShownWhenItsFieldIsLeft(t *testing.T) {
	s := New(strict, InStep)
	s.Type("design_airflow", "Design airflow", airflow(-1))
	require.Len(t, s.Errors(), 1)
	require.Empty(t, s.ShownFaults(), "it is still typed into")
	s.EndTyping()
	require.Len(t, s.ShownFaults(), 1)
	s.Type("design_airflow", "Design airflow", airflow(-2*units.CFM))
	require.Len(t, s.ShownFaults(), 1, "a fault once told stays told while it is there")
	s.Type("design_airflow", "Design airflow", airflow(1))
	s.Type("design_airflow", "Design airflow", airflow(-1))
	require.Empty(t, s.ShownFaults(), "it was put right in between")
	s.Type("name", "Name", func(j *sizing.Job) { j.Name = "hill" })
	require.Len(t, s.ShownFaults(), 1, "typing in another field leaves this one")
}

func TestARowJustAddedIsNotBlamed(t *testing.T) {
	s := New(strict, InStep)
	add := func(j *sizing.Job) { j.Filters = append(j.Filters, filter.Filter{}) }
	s.Apply("Add filter", add)
	s.EndTyping()
	require.Len(t, s.Errors(), 1)
	require.Empty(t, s.ShownFaults())
	s.ShowAllFaults()
	require.Len(t, s.ShownFaults(), 1)
	s.Undo()
	s.Redo()
	require.Len(t, s.ShownFaults(), 1, "what is made again is told of at once")
	s.Load(s.Job(), "")
	require.Len(t, s.ShownFaults(), 1, "and so is a job that is opened")
}

// A field that is left before its result is there is reported when it comes.
func TestAFaultIsShownThoughItsResultComesLate(t *testing.T) {
	var waiting []func()
	s := New(strict, func(work, done func()) { waiting = append(waiting, func() { work(); done() }) })
	next := func() {
		f := waiting[0]
		waiting = waiting[1:]
		f()
	}
	next()
	s.Type("design_airflow", "Design airflow", airflow(-1))
	s.EndTyping()
	require.Empty(t, s.ShownFaults())
	next()
	require.Len(t, s.ShownFaults(), 1)
}
