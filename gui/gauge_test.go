package gui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// What is wrong with a round stands under its table, and goes with the round.
func TestGaugeListsContradictionsOfARound(t *testing.T) {
	b := newBench(t)
	b.window.Resize(fyne.NewSize(1366, 700))
	b.put(example(t, "one-inch-slot"), "")
	b.session.Apply("rounds", func(j *sizing.Job) {
		j.Readings = []sizing.Reading{
			{Label: "swapped", ReturnPlenum: -0.40 * units.InchWater, BlowerInlet: -0.15 * units.InchWater},
			{Label: "plain", Airflow: 900 * units.CFM},
		}
	})
	b.goTo("gauge")
	gauge := b.screens["gauge"].(interface {
		Findings() []sizing.Finding
		Show(path string)
		Head() fyne.CanvasObject
	})
	require.Len(t, gauge.Findings(), 1)
	require.Equal(t, "ports_swapped", gauge.Findings()[0].Code)
	require.Equal(t, b.session.Study().Readings[0].Findings, gauge.Findings())
	gauge.Show("readings[1].airflow")
	for _, f := range gauge.Findings() {
		require.NotEqual(t, "ports_swapped", f.Code)
	}
	b.session.Apply("no rounds", func(j *sizing.Job) { j.Readings = nil })
	require.Empty(t, gauge.Findings())
}
