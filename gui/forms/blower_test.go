package forms

import (
	"testing"

	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/gui/session"
	"returnbench/sizing"
	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

func tapOf(name string, flow units.Flow) blower.Tap {
	t := blower.Tap{Name: name}
	for i := range 5 {
		t.Points = append(t.Points, blower.Point{ExternalStatic: units.Pressure(0.1+0.2*float64(i)) * units.InchWater, Airflow: flow * units.Flow(1-0.06*float64(i))})
	}
	return t
}

// A paste adds a stronger tap; the tap that was in use stays in use, as one step with
// the paste, and the form says so.
func TestAPasteLeavesTheTapInUse(t *testing.T) {
	test.NewTempApp(t)
	m := session.New(sizing.Solve, session.InStep)
	job := house()
	job.Equipment.Blower.Taps = []blower.Tap{tapOf("low", 1000*units.CFM)}
	m.Load(job, "")
	s := NewBlower(m)
	require.Equal(t, "low", m.Study().Today().Tap)
	s.paste([]blower.Tap{tapOf("high", 1500*units.CFM), tapOf("medium", 1200*units.CFM)}, []string{`The row "Amps" is no airflow, power or speed.`})
	require.Len(t, m.Job().Equipment.Blower.Taps, 3)
	assert.Equal(t, "low", m.Study().Today().Tap)
	assert.Contains(t, s.pasteSummary(), "The tap in cooling stays low.")
	assert.Contains(t, s.pasteSummary(), "Amps")
	m.Undo()
	assert.Equal(t, job, m.Job(), "one step")

	job.Equipment.Blower.Taps = nil
	m.Load(job, "")
	s = NewBlower(m)
	s.paste([]blower.Tap{tapOf("high", 1500*units.CFM), tapOf("low", 1000*units.CFM)}, nil)
	assert.Empty(t, m.Job().Equipment.Blower.CoolingTap)
	assert.Contains(t, s.pasteSummary(), "No tap in cooling is chosen: the strongest is used")
}
