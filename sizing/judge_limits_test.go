package sizing

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/blower"
	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// wanted is a limit as the rules have it.
type wanted struct {
	figure, limit float64 // SI
	least, missed bool
}

// heldByHand are the limits of an option by the rules of the trade: the clean
// filter's drop to a fifth of the rated static or the job's own limit, its face to the
// target or, over 2 in deep, to 492 fpm; airflow, static, table and leak in
// both states, the airflow dirty to the design airflow less what dust may cost;
// frost where there is a coil, the rise where there is heat.
func heldByHand(j Job, s *Study, o *OptionResult) map[string]wanted {
	out := map[string]wanted{}
	atMost := func(name string, v, most float64) { out[name] = wanted{v, most, false, v > most*1.0001} }
	atLeast := func(name string, v, least float64) { out[name] = wanted{v, least, true, v*1.0001 < least} }
	rated := float64(s.RatedExternalStatic)
	mostDrop := 0.2 * rated
	if j.Limits.MaxFilterDrop > 0 {
		mostDrop = float64(j.Limits.MaxFilterDrop)
	}
	atMost("filter_drop clean", float64(o.Clean.FilterDrop), mostDrop)
	if o.FaceArea > 0 {
		face := float64(s.TargetFaceVelocity)
		if o.Places[0].Depth > 2.1*units.Inch {
			face = max(face, float64(492*units.FPM))
		}
		atMost("face_velocity clean", float64(o.Clean.FaceVelocity), face)
	}
	table := []float64{}
	for _, tap := range s.Blower.Taps {
		if tap.Name == o.Tap {
			table = []float64{float64(tap.Curve[0].Static), float64(tap.Curve[len(tap.Curve)-1].Static)}
		}
	}
	loss := j.Limits.ChangeAirflowLoss
	if loss == 0 {
		loss = 0.10
	}
	for state, c := range map[string]*Condition{"clean": &o.Clean, "loaded": &o.Loaded} {
		want := float64(s.DesignAirflow)
		if state == "loaded" {
			want *= 1 - loss
		}
		out["airflow_short "+state] = wanted{float64(c.Airflow), want, true, float64(c.Airflow) < 0.99*want}
		atMost("static_high "+state, float64(c.ExternalStatic), rated)
		out["leak "+state] = wanted{c.LeakFraction, 0.02, false, c.LeakFraction >= 0.02}
		if static := float64(c.ExternalStatic); static < table[0] {
			out["off_table "+state] = wanted{static, table[0], true, !c.WithinBlowerTable}
		} else {
			out["off_table "+state] = wanted{static, table[1], false, !c.WithinBlowerTable}
		}
		if j.Equipment.Kind != Furnace {
			surface, leaving := float64(c.ApparatusDewPt), float64(c.CoilAirLeaving)
			f := func(degrees float64) float64 { return float64(units.Fahrenheit(degrees)) }
			freezes := surface <= f(36) || leaving < f(38)
			if surface > f(36) && leaving < f(38) {
				out["frost "+state] = wanted{leaving, f(38), true, true}
			} else {
				out["frost "+state] = wanted{surface, f(36), true, freezes}
			}
			perTon := float64(c.AirflowPerCapacity)
			if surface < f(40) {
				atLeast("frost_risk "+state, surface, f(40))
			} else {
				atLeast("frost_risk "+state, perTon, float64(300*units.CFMPerTon))
			}
			if freezes {
				risk := out["frost_risk "+state]
				risk.missed = false
				out["frost_risk "+state] = risk
			}
			atMost("airflow_high "+state, perTon, float64(450*units.CFMPerTon))
		}
		if !j.Equipment.NoHeating {
			h := solvedHouse(s).Equipment
			atMost("rise_high "+state, float64(c.TemperatureRise), float64(h.RiseHigh))
			atLeast("rise_low "+state, float64(c.TemperatureRise), float64(h.RiseLow))
		}
	}
	return out
}

// unlike are houses that between them miss and keep every limit, clean and dirty.
func unlike() map[string]Job {
	lossy := func(tons float64, cfm units.Flow) Job {
		j := least()
		j.Equipment.CoolingCapacity, j.DesignAirflow = units.Capacity(tons)*units.Ton, cfm*units.CFM
		return j
	}
	cold := func(dry, wet, tons float64, cfm units.Flow) Job {
		j := lossy(tons, cfm)
		j.Site.IndoorDryBulb, j.Site.IndoorWetBulb = units.Fahrenheit(dry), units.Fahrenheit(wet)
		return j
	}
	out := map[string]Job{
		"usual":        least(),
		"two returns":  twoReturns(),
		"deep":         withCabinet(),
		"near frost":   cold(74, 60, 3, 900),
		"frost":        cold(70, 56, 5, 600),
		"few cfm":      lossy(2.1, 600),
		"many cfm":     lossy(2, 1200),
		"narrow table": least(),
		"over table":   least(),
		"leaky":        least(),
		"hot":          least(),
		"cool":         least(),
		"furnace":      least(),
		"no heat":      least(),
		"wide":         least(),
		"dirty":        least(),
	}
	edit := func(name string, f func(j *Job)) { j := out[name]; f(&j); out[name] = j }
	rows := func(low, high units.Pressure) []blower.Tap {
		return []blower.Tap{{Name: "only", Points: []blower.Point{
			{ExternalStatic: low * units.InchWater, Airflow: 1300 * units.CFM, Power: 400}, {ExternalStatic: high * units.InchWater, Airflow: 1200 * units.CFM, Power: 390}}}}
	}
	edit("narrow table", func(j *Job) { j.Equipment.Blower.Taps = rows(0.1, 0.3) })
	edit("over table", func(j *Job) { j.Equipment.Blower.Taps = rows(1.2, 1.5) })
	edit("leaky", func(j *Job) {
		j.Slot = Slot{Width: 16 * units.Inch, Height: 25 * units.Inch, Depth: units.Inch, Gap: 3 * units.Millimetre}
	})
	edit("hot", func(j *Job) { j.Equipment.HeatingOutput = 120000 * units.BtuPerHour })
	edit("cool", func(j *Job) { j.Equipment.HeatingOutput = 20000 * units.BtuPerHour })
	edit("furnace", func(j *Job) { j.Equipment.Kind = Furnace })
	edit("no heat", func(j *Job) { j.Equipment.NoHeating = true })
	edit("wide", func(j *Job) {
		j.Slot = Slot{Width: 24 * units.Inch, Height: 30 * units.Inch, Depth: units.Inch, Filter: "f"}
		j.Filters = []filter.Filter{{Name: "f", Depth: units.Inch, MERV: 4}}
		j.Supply.Drop, j.Limits.MaxFilterDrop = 0.05*units.InchWater, 0.2*units.InchWater
	})
	edit("dirty", func(j *Job) {
		j.Slot = Slot{Width: 24 * units.Inch, Height: 30 * units.Inch, Depth: units.Inch, Filter: "f"}
		j.Filters = []filter.Filter{{Name: "f", Depth: units.Inch, MERV: 8, Width: 24 * units.Inch, Height: 30 * units.Inch, DustCapacity: 2000 * units.Gram}}
		j.Supply.Drop, j.Limits.ChangeAirflowLoss, j.Limits.ChangeMonths = 0.05*units.InchWater, 0.3, 120*units.Month
		j.Limits.ChangeDrop = 1.5 * units.InchWater
	})
	return out
}

func TestLimitsOfAnOption_Identity(t *testing.T) {
	seen := map[string]bool{}
	for name, j := range unlike() {
		s := solved(t, j)
		for i := range s.Options[1:] {
			o := &s.Options[i+1]
			want := heldByHand(j, s, o)
			assert.Len(t, o.Held, len(want), name)
			for _, l := range o.Held {
				key := string(l.Problem) + " " + string(l.State)
				w, is := want[key]
				require.True(t, is, "%s, %s", name, key)
				assert.InDelta(t, w.figure, l.Measured.SI(), 1e-9*(1+w.figure), "%s, %s", name, key)
				assert.InDelta(t, w.limit, l.Limit.SI(), 1e-9*(1+w.limit), "%s, %s", name, key)
				assert.Equal(t, w.least, l.Least, "%s, %s", name, key)
				assert.Equal(t, w.missed, l.Missed, "%s, %s", name, key)
				seen[fmt.Sprintf("%s %v", key, l.Missed)] = true
				delete(want, key)
			}
		}
	}
	for _, key := range []string{"airflow_short", "static_high", "leak", "off_table", "frost", "frost_risk", "airflow_high", "rise_high", "rise_low"} {
		for _, state := range []string{"clean", "loaded"} {
			assert.True(t, seen[key+" "+state+" true"], "%s %s is missed by none", key, state)
			assert.True(t, seen[key+" "+state+" false"], "%s %s is kept by none", key, state)
		}
	}
}

// Each finding of an option bears the problem it tells of, the state it is there in,
// and the figure and limit of that state: of the clean filter where both are
// past it.
func TestFindingsBearTheirState_Identity(t *testing.T) {
	problems := map[string]string{"rise_high_assumed": "rise_high", "rise_low_assumed": "rise_low", "supply_cool": "rise_low", "airflow_low": "airflow_short", "airflow": "airflow_short", "static": "static_high"}
	states := map[FilterState]int{}
	for name, j := range unlike() {
		s := solved(t, j)
		for i := range s.Options[1:] {
			o := &s.Options[i+1]
			held := heldByHand(j, s, o)
			for _, f := range o.Findings {
				at := name + ", " + f.Code
				problem := f.Code
				if p, is := problems[f.Code]; is {
					problem = p
				}
				assert.Equal(t, problem, string(f.Problem), at)
				clean, is := held[problem+" clean"]
				if !is {
					assert.Empty(t, f.State, at)
					assert.Nil(t, f.Measured, at)
					continue
				}
				loaded := held[problem+" loaded"]
				want, told := WhenClean, clean
				switch {
				case f.Severity == Good:
				case clean.missed && loaded.missed:
					want = WhenBoth
				case loaded.missed:
					want, told = WhenLoaded, loaded
				}
				states[want]++
				assert.Equal(t, want, f.State, at)
				assert.InDelta(t, told.figure, f.Measured.SI(), 1e-9*(1+told.figure), at)
				assert.InDelta(t, told.limit, f.Limit.SI(), 1e-9*(1+told.limit), at)
			}
		}
	}
	assert.Len(t, states, 3, "in each state something is told")
}
