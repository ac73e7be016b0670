package sizing

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// The push on a frame is its drop over its face; of two places the one that is pushed the
// most is reported, whichever comes first.
func TestPushIsTheMost_Identity(t *testing.T) {
	for _, swap := range []bool{false, true} {
		j := inGrilles()
		if swap {
			j.Returns[0].Grille, j.Returns[1].Grille = j.Returns[1].Grille, j.Returns[0].Grille
		}
		for i := range j.Filters {
			j.Filters[i].Bracing = "none"
		}
		o := solved(t, j).Today()
		most := 0.0
		for i, b := range o.Clean.Branches {
			g := j.Returns[i].Grille
			if push := float64(b.FilterDrop) * float64(g.Width) * float64(g.Height); push > most {
				most = push
			}
		}
		assert.InEpsilon(t, most, float64(o.Clean.FramePush), 1e-6)
		assert.Equal(t, o.Clean.FramePush, o.FramePush)
		assert.Equal(t, o.Clean.FrameBow, o.FrameBow)
		assert.Positive(t, o.FrameBow)
	}
	j := pinned()
	j.Slot.Count = 2
	o := solved(t, j).Today()
	assert.InEpsilon(t, float64(o.Clean.FilterDrop)*float64(20*units.Inch)*float64(25*units.Inch), float64(o.Clean.FramePush), 1e-6, "of one filter")
	assert.InDelta(t, 144, o.Clean.FaceVelocity.In(units.FPM), 0.01, "two carry the air")
}

// A gap that lets under 2 % past a clean filter and more past a dirty one is reported the
// dirty one; so large that both are over it, of the clean one.
func TestLeakIsReportedForItsState_Identity(t *testing.T) {
	seen := map[string]bool{}
	for gap := 0.1; gap < 3; gap *= 1.15 {
		j := pinned()
		j.Slot.Gap = units.Length(gap) * units.Millimetre
		s := solved(t, j)
		o := s.Today()
		clean, dirty := o.Clean.LeakFraction, o.Loaded.LeakFraction
		require.Greater(t, dirty, clean)
		require.InDelta(t, clean, o.LeakFraction, 1e-12)
		percent := func(v float64) string { return fmt.Sprintf("%.0f %%", 100*v) }
		switch {
		case clean >= 0.02:
			assert.Contains(t, said(t, s, TodayName, "leak"), percent(clean)+" of the air slips past the filter")
			assert.NotContains(t, said(t, s, TodayName, "leak"), "dirty")
			assert.Contains(t, said(t, s, TodayName, "leak"), "and fouls the coil. Seal the gap round the frame.")
			seen["clean"] = true
		case dirty >= 0.02:
			assert.Contains(t, said(t, s, TodayName, "leak"), percent(dirty)+" of the air slips past the filter when it is dirty")
			seen["dirty"] = true
		default:
			assert.NotContains(t, codes(o.Findings), "leak")
			seen["none"] = true
		}
		for i := range o.Efficiency.Installed {
			assert.InDelta(t, o.Efficiency.BySize[i]*(1-clean), o.Efficiency.Installed[i], 1e-9, "what slips past is not caught")
		}
	}
	assert.Len(t, seen, 3)
}

// A leak of just 2 % past the clean filter is already at its limit: the finding is of the
// clean filter, and both of its states miss the limit.
func TestLeakAtItsLimit_Identity(t *testing.T) {
	at := func(gap units.Length) *OptionResult {
		j := pinned()
		j.Slot.Gap = gap
		return solved(t, j).Today()
	}
	low, high := 0.1*units.Millimetre, 3*units.Millimetre
	require.True(t, at(low).Clean.LeakFraction < 0.02 && at(high).Clean.LeakFraction > 0.02)
	for range 24 { // to 2e-7 of the gap
		if mid := (low + high) / 2; at(mid).Clean.LeakFraction < 0.02 {
			low = mid
		} else {
			high = mid
		}
	}
	o := at(high)
	require.InDelta(t, 0.02, o.Clean.LeakFraction, 1e-7)
	assert.True(t, o.Misses(FilterLeak, WhenClean) && o.Misses(FilterLeak, WhenLoaded))
	f := findingOf(t, o.Findings, "leak")
	assert.Equal(t, WhenBoth, f.State)
	assert.Contains(t, f.In(units.IP), "2 % of the air slips past the filter")
	assert.NotContains(t, f.In(units.IP), "dirty")
	assert.False(t, at(low).Misses(FilterLeak, WhenClean))
}

// Read as predicted, the filter is as clean as it is taken to be, also with a gap round it
// and two in one casing; read at twice that, half of it is dust.
func TestFilterReadAsPredicted_Identity(t *testing.T) {
	for _, count := range []int{1, 2} {
		j := pinned()
		j.Slot.Count, j.Slot.Gap = count, 2*units.Millimetre
		predicted := solved(t, j).Today().Clean.FilterDrop
		j.Readings = []Reading{{FilterDrop: predicted, Airflow: 1000 * units.CFM}}
		f := solved(t, j).AsFound
		assert.InEpsilon(t, float64(predicted), float64(f.CleanDrop), 1e-4)
		assert.InDelta(t, 0, f.DustDrop.In(units.InchWater), 1e-4)
		j.Readings[0].FilterIsClean = true
		s := solved(t, j)
		assert.InEpsilon(t, float64(predicted), float64(s.Today().Clean.FilterDrop), 1e-4)
		assert.InEpsilon(t, float64(predicted), float64(s.AsFound.CleanDrop), 1e-4)
		assert.Zero(t, s.AsFound.DustDrop)
		j.Readings[0].FilterDrop *= 2
		s = solved(t, j)
		assert.InEpsilon(t, 2*float64(predicted), float64(s.Today().Clean.FilterDrop), 1e-3, "a new filter takes what is read, less what the gap lets past")
		assert.InEpsilon(t, 2*float64(predicted), float64(s.AsFound.CleanDrop), 1e-3)
		j.Readings[0].FilterIsClean = false
		s = solved(t, j)
		assert.InEpsilon(t, float64(predicted), float64(s.Today().Clean.FilterDrop), 1e-4)
		assert.Positive(t, s.AsFound.DustDrop)
		assert.InEpsilon(t, 2*float64(predicted), float64(s.AsFound.DustDrop+s.AsFound.CleanDrop), 1e-9)
		assert.Less(t, float64(s.AsFound.CleanDrop), float64(predicted)*1.0001, "more slips past at twice the drop")
	}
}

// Where the filters are in the grilles, a plenum read tells of the return only if they
// were new: 0.337 in. w.c. with them as described.
func TestPlenumBehindGrilleFilters_Identity(t *testing.T) {
	today := solved(t, inGrilles()).Today().Clean
	described := -today.Ports[0].Static.In(units.InchWater)
	read := func(plenum float64, clean bool) *Study {
		j := inGrilles()
		j.Readings = []Reading{{ReturnPlenum: units.Pressure(-plenum) * units.InchWater, Airflow: 1000 * units.CFM, FilterIsClean: clean}}
		return solved(t, j)
	}
	s := read(described+0.2, true)
	assert.InDelta(t, 0.2, partOf(t, &s.Today().Clean, "unexplained loss").Drop.In(units.InchWater), 1e-3)
	assert.Contains(t, codes(s.Findings), "unexplained_loss")
	s = read(described-0.2, true)
	assert.InEpsilon(t, float64(today.ExternalStatic), float64(s.Today().Clean.ExternalStatic), 1e-4, "grilles and filters are not scaled alike")
	assert.Contains(t, codes(s.Findings), "return_unlike")
	for _, plenum := range []float64{described + 0.2, described - 0.2} {
		s = read(plenum, false)
		assert.InEpsilon(t, float64(today.ExternalStatic), float64(s.Today().Clean.ExternalStatic), 1e-4)
		assert.NotContains(t, codes(s.Findings), "unexplained_loss")
		assert.NotContains(t, codes(s.Findings), "return_unlike")
	}
}

// A temperature difference may lie 3 F or a tenth off, watts and airflows a tenth.
func TestHowFarAReadingMayLie_Identity(t *testing.T) {
	agrees := func(change func(r *Reading), name message.ID) bool {
		j := pinned()
		j.Options = []Option{{Name: "same"}}
		r := Reading{Option: "same", Mode: Heating, Airflow: 1000 * units.CFM}
		change(&r)
		j.Readings = []Reading{r}
		return match(t, solved(t, j).Readings[0], name).Agrees
	}
	rise := solved(t, pinned()).Today().Clean.TemperatureRise.In(units.FahrenheitDegree) // 56.5
	at := func(degrees float64) func(*Reading) {
		return func(r *Reading) {
			r.ReturnTemperature, r.SupplyTemperature = units.Fahrenheit(68), units.Fahrenheit(68+degrees)
		}
	}
	for factor, want := range map[float64]bool{0.89: false, 0.91: true, 1.09: true, 1.11: false} {
		assert.Equal(t, want, agrees(at(rise*factor), "temperature rise"), "%v", factor)
		assert.Equal(t, want, agrees(func(r *Reading) { r.BlowerPower = units.Power(393.415 * factor) }, "blower power"), "%v", factor)
	}
	// The drop of the coil, 75 F less 53.4 with the blower's heat: 3 F where a tenth is less.
	s := solved(t, pinned())
	drop := s.Today().Clean.SupplyAir
	for off, want := range map[float64]bool{-3.2: false, -2.8: true, 2.8: true, 3.2: false} {
		j := pinned()
		j.Options = []Option{{Name: "same"}}
		j.Readings = []Reading{{Option: "same", Airflow: 1000 * units.CFM, ReturnTemperature: units.Fahrenheit(75), SupplyTemperature: drop + units.Temperature(off*float64(units.FahrenheitDegree))}}
		m := match(t, solved(t, j).Readings[0], "temperature drop")
		assert.Equal(t, want, m.Agrees, "%v", off)
		assert.InDelta(t, 75-units.ToFahrenheit(drop), m.Predicted.SI()/float64(units.FahrenheitDegree), 1e-3)
		assert.InDelta(t, 75-units.ToFahrenheit(drop)-off, m.Measured.SI()/float64(units.FahrenheitDegree), 1e-3)
	}
	// A pressure may lie 0.03 in. w.c. or a tenth off.
	row := func(supply float64) bool {
		j := pinned()
		j.Supply.Drop = 0.5 * units.InchWater
		j.Options = []Option{{Name: "same"}}
		j.Readings = []Reading{{Option: "same", Airflow: 1000 * units.CFM, SupplyPlenum: units.Pressure(supply) * units.InchWater}}
		return solved(t, j).Readings[0].Rows[0].Agrees
	}
	assert.Equal(t, []bool{false, true, true, false}, []bool{row(0.449), row(0.451), row(0.549), row(0.551)})
}

// Both curves of the system pass through their points: the static at the airflow found,
// clean and dirty, of one return or several.
func TestSystemCurvesMeetTheirPoints_Identity(t *testing.T) {
	for name, j := range map[string]Job{"two returns": pinned(), "filters in them": inGrilles(), "none described": least()} {
		s := solved(t, j)
		for i := range s.Options {
			o := &s.Options[i]
			for state, c := range map[string]struct {
				at    *Condition
				curve []CurvePoint
			}{"clean": {&o.Clean, o.SystemClean}, "loaded": {&o.Loaded, o.SystemLoaded}} {
				require.Len(t, c.curve, 25, "%s, %s", name, state)
				near := math.Inf(1)
				for k := 1; k < len(c.curve); k++ {
					a, b := c.curve[k-1], c.curve[k]
					require.Greater(t, b.Static, a.Static)
					if a.Airflow <= c.at.Airflow && c.at.Airflow <= b.Airflow {
						share := float64((c.at.Airflow - a.Airflow) / (b.Airflow - a.Airflow))
						near = math.Abs(float64(a.Static)+share*float64(b.Static-a.Static)-float64(c.at.ExternalStatic)) / float64(c.at.ExternalStatic)
					}
				}
				assert.Less(t, near, 6e-3, "%s, %s %s", name, o.Name, state)
				assert.InDelta(t, 1.5*max(float64(o.Clean.Airflow), float64(s.DesignAirflow)), float64(c.curve[24].Airflow), 1e-9)
			}
		}
	}
}
