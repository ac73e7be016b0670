package homes

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

func compared(name string, static, cost float64, severities ...sizing.Severity) sizing.OptionResult {
	o := sizing.OptionResult{Name: name, Kind: "option", TenYearCost: units.Money(cost)}
	o.Clean.ExternalStatic = units.Pressure(static) * units.InchWater
	for _, s := range severities {
		o.Findings = append(o.Findings, sizing.Finding{Severity: s})
	}
	return o
}

// TestHelping_Identity: fewest stops, then fewest cautions, then the least
// cost; an option that misses as much as today must plainly lower the static.
func TestHelping_Identity(t *testing.T) {
	today := compared("today", 0.8, 0, sizing.Stop, sizing.Caution, sizing.Caution, sizing.Good)
	today.Kind = "today"
	for want, options := range map[string][]sizing.OptionResult{
		"":       {compared("alike", 0.79, 0, sizing.Stop, sizing.Caution, sizing.Caution), compared("worse", 0.5, 0, sizing.Stop, sizing.Stop)},
		"calmer": {compared("calmer", 0.7, 90, sizing.Stop, sizing.Caution, sizing.Caution)},
		"fewer":  {compared("calmer", 0.2, 0, sizing.Stop, sizing.Caution, sizing.Caution), compared("fewer", 0.9, 90, sizing.Stop, sizing.Caution)},
		"free":   {compared("fewer", 0.2, 0, sizing.Stop), compared("free", 0.9, 90, sizing.Caution, sizing.Caution, sizing.Caution)},
		"cheap":  {compared("dear", 0.5, 90, sizing.Caution), compared("cheap", 0.6, 80, sizing.Caution), compared("dearer", 0.4, 99, sizing.Caution)},
	} {
		got := helping(&sizing.Study{Options: append([]sizing.OptionResult{{Kind: "no_filter"}, today}, options...)})
		if want == "" {
			assert.Nil(t, got)
			continue
		}
		require.NotNil(t, got, want)
		assert.Equal(t, want, got.Name)
	}
}

// TestProposed_Identity: a home over its limits that names no upgrade is
// studied with the sizes that its own study found; one that names some, or
// needs none, is not.
func TestProposed_Identity(t *testing.T) {
	read := func(cells ...string) *sizing.Study {
		h, err := readHeading([]string{"cooling_capacity", "slot", "min_merv", "option_merv", "rated_external_static", "motor", "equipment_kind", "heating_output"})
		require.NoError(t, err)
		home, faults := h.read(cells)
		require.Empty(t, faults)
		study, err := home.solve()
		require.NoError(t, err)
		return study
	}
	poor := read("3 ton", "16x20x1", "11", "", "", "", "", "60000 Btu/h")
	require.NotEqual(t, sizing.Good, poor.Today().Verdict)
	require.Equal(t, 4, len(poor.Options))
	for i, size := range []*sizing.Size{poor.Answer.Slot, poor.Answer.Cabinet} {
		o := poor.Options[2+i]
		assert.Equal(t, []string{LargerSlot, DeeperCabinet}[i], o.Name)
		assert.InDelta(t, size.FaceArea.SI(), o.FaceArea.SI(), 1e-9)
		assert.Equal(t, 11, o.Efficiency.MERV)
		assert.InEpsilon(t, size.Airflow.SI(), o.Clean.Airflow.SI(), 0.01, "the size and the option are one house")
	}
	own := read("4 ton", "16x20x1", "", "13", "", "", "", "")
	require.Equal(t, 3, len(own.Options))
	assert.Equal(t, "MERV 13", own.Options[2].Name)
}
