package sizing

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/assume"
	"returnbench/sizing/house"
	"returnbench/sizing/judge"
	"returnbench/sizing/units"
)

// The least states that are stopped and cautioned: a surface at 36 F and under
// 40 F, air leaving under 38 F, less than 300 cfm a ton (common practice, no
// source), looked for in eighths.
func TestFrost_Identity(t *testing.T) {
	h := &house.House{CompleteJob: &assume.CompleteJob{Job: Job{Equipment: Equipment{Kind: FurnaceWithCoil}}}}
	says := func(surface, leaving, perTon float64) string {
		c := Condition{ApparatusDewPt: units.Fahrenheit(surface), CoilAirLeaving: units.Fahrenheit(leaving), AirflowPerCapacity: units.FlowPerCapacity(perTon) * units.CFMPerTon}
		c.Frost = house.Freezes(&c)
		dirty := OptionResult{Clean: Condition{ApparatusDewPt: units.Fahrenheit(50), AirflowPerCapacity: 400 * units.CFMPerTon}, Loaded: c}
		clean := OptionResult{Clean: c, Loaded: c}
		f, g := judge.JudgeFrost(h, &clean), judge.JudgeFrost(h, &dirty)
		require.Equal(t, f == nil, g == nil, "clean and dirty alike")
		if f == nil {
			return "nothing"
		}
		require.Equal(t, f.Code, g.Code)
		require.NotContains(t, f.In(units.IP), "due for change")
		require.Contains(t, g.In(units.IP), "with the filter due for change")
		return f.Code
	}
	// from is the lowest of the values at which it says something else.
	from := func(low, high float64, say func(float64) string) float64 {
		at := say(low)
		for v := low; v <= high; v += 0.125 {
			if say(v) != at {
				return v
			}
		}
		return high
	}
	check := func(name string, got, want float64) {
		assert.InDelta(t, want, got, 0.126, name)
	}
	check("surface, stop", from(30, 60, func(v float64) string { return says(v, 50, 400) }), 36.125)
	check("surface, caution", from(37, 60, func(v float64) string { return says(v, 50, 400) }), 40)
	check("air leaving, stop", from(30, 60, func(v float64) string { return says(50, v, 400) }), 38)
	check("airflow, caution", from(250, 400, func(v float64) string { return says(50, 55, v) }), 300)
	assert.Equal(t, "frost", says(36, 50, 400), "at 36 °F")
	assert.Equal(t, "frost", says(33, 50, 400), "above freezing")
}

// 600 cfm on 2.1 tons is 286 cfm a ton: a caution, no stop.
func TestLittleAirPerTonIsNearFrost(t *testing.T) {
	j := least()
	j.Equipment.CoolingCapacity, j.DesignAirflow = 2.1*units.Ton, 600*units.CFM
	found := codes(solved(t, j).Findings)
	assert.Equal(t, Caution, found["frost_risk"])
	assert.NotContains(t, found, "frost")
	j.Equipment.Kind = Furnace
	assert.NotContains(t, codes(solved(t, j).Findings), "frost_risk", "no cooling, no tons")
}

// furnaceWords are those that mean a flame.
var furnaceWords = regexp.MustCompile(`(?i)furnace|flue|burner|heat exchanger|\bgas\b`)

// Nothing that is said of an air handler speaks of a furnace, hot or cold, high
// or low.
func TestAirHandlersGetNoFurnaceWords(t *testing.T) {
	for _, output := range []float64{10000, 36000, 150000} {
		for _, typed := range []bool{false, true} {
			j := least()
			j.Equipment.Kind = AirHandler
			j.Equipment.HeatingOutput = units.HeatRate(output) * units.BtuPerHour
			j.Site.Altitude = 2000 * units.Metre
			j.Coil.Drop = 0.2 * units.InchWater
			if typed {
				j.Equipment.RiseLow, j.Equipment.RiseHigh = 20*units.FahrenheitDegree, 45*units.FahrenheitDegree
			}
			j.Limits.Checks = []CheckSet{Title24, ASHRAE622}
			s := solved(t, j)
			for _, f := range s.Findings {
				assert.NotRegexp(t, furnaceWords, f.In(units.IP), f.Code)
			}
			for _, a := range s.Assumptions {
				assert.NotRegexp(t, furnaceWords, a.Text.String()+string(a.Source), a.Path)
			}
			for _, w := range s.Workings() {
				for _, step := range w.Steps {
					assert.NotRegexp(t, furnaceWords, step.Text.String()+step.Source.String(), w.Key)
				}
			}
			if found := codes(s.Findings); typed && output == 10000 {
				assert.Contains(t, found, "supply_cool")
			} else if typed && output == 150000 {
				assert.Equal(t, Stop, found["rise_high"])
			}
		}
	}
}

// What is said of frost: of the clean filter first, of the dirty one alone where it is
// there with it only.
func TestFrostInWords(t *testing.T) {
	jobs := unlike()
	states := map[string]bool{}
	for wet := 52; wet < 66; wet++ { // surfaces on either side of 36 and 40 °F
		j := jobs["near frost"].Clone()
		j.Site.IndoorDryBulb, j.Site.IndoorWetBulb = units.Fahrenheit(float64(wet)+8), units.Fahrenheit(float64(wet))
		jobs[fmt.Sprint("wet bulb ", wet)] = j
	}
	surfaces := 0
	for name := range jobs {
		if !strings.HasPrefix(name, "wet bulb") && !slices.Contains([]string{"frost", "near frost", "few cfm"}, name) {
			continue
		}
		for _, wider := range []units.Flow{1, 1.05, 1.1, 1.15, 1.2, 1.3} {
			j := jobs[name].Clone()
			j.DesignAirflow *= wider
			s := solved(t, j)
			o := s.Today()
			for _, f := range o.Findings {
				if f.Code != "frost" && f.Code != "frost_risk" {
					continue
				}
				c, when := o.Clean, ""
				if !o.Misses(f.Problem, WhenClean) {
					c, when = o.Loaded, " with the filter due for change"
				}
				states[f.Code+when] = true
				show := func(v interface{ Show(units.Locale) string }) string { return v.Show(units.IP) }
				want := "The cooling coil will frost" + when + ": at " + show(c.Airflow) + " its surface is at " + show(c.ApparatusDewPt) + " and the air leaves at " + show(c.CoilAirLeaving) +
					", where it has to stay over 36.0 °F and 38.0 °F. Ice stops the air: raise the airflow before cooling is run."
				switch {
				case f.Code == "frost":
				case c.ApparatusDewPt < units.Fahrenheit(40):
					surfaces++
					want = "The cooling coil may frost" + when + ": at " + show(c.Airflow) + " its surface is at " + show(c.ApparatusDewPt) + ", under 40.0 °F. Raise the airflow."
				default:
					want = "The cooling coil may frost" + when + ": " + show(c.Airflow) + " is " + show(c.AirflowPerCapacity) + " of cooling, under 300 cfm/ton. Raise the airflow."
				}
				assert.Equal(t, want, f.In(units.IP))
			}
		}
	}
	assert.Positive(t, surfaces)
	assert.True(t, states["frost"] && states["frost_risk"], "%v", states)
	assert.True(t, states["frost with the filter due for change"] || states["frost_risk with the filter due for change"], "%v", states)
}
