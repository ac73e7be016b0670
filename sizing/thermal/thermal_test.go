package thermal_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/air"
	"returnbench/sizing/published"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

func wetBulbState(t require.TestingT, dry, wet float64) air.State {
	s, err := air.FromWetBulb(0, units.Fahrenheit(dry), units.Fahrenheit(wet))
	require.NoError(t, err)
	return s
}

func threeTons(t require.TestingT) thermal.Coil {
	c, err := thermal.NewCoil(3*units.Ton, 1200*units.CFM, wetBulbState(t, 80, 67), 0)
	require.NoError(t, err)
	return c
}

func TestTemperatureRise_Plausible(t *testing.T) {
	dry, err := air.New(0, units.Fahrenheit(70), 0)
	require.NoError(t, err)
	for _, c := range []struct{ output, cfm float64 }{{80000, 1200}, {60000, 1000}, {100000, 1600}} {
		rise := thermal.TemperatureRise(units.HeatRate(c.output)*units.BtuPerHour, units.Flow(c.cfm)*units.CFM, dry)
		published.Check(t, published.Row{Name: "rise", Source: "Btu/h = 1.08 cfm dT, standard air, common practice, no source", Got: rise.In(units.FahrenheitDegree), Want: c.output / (1.08 * c.cfm), Tolerance: 0.005, Relative: true, Why: "1.08 is printed to three digits; dry air at 70 °F is 0.07489, not 0.075 lb/ft3"})
	}
}

func TestTemperatureRise_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s, err := air.New(units.Length(rapid.Float64Range(0, 3000).Draw(t, "altitude")), units.Celsius(rapid.Float64Range(5, 40).Draw(t, "dry bulb")), rapid.Float64Range(0, 1).Draw(t, "humidity"))
		require.NoError(t, err)
		output := units.HeatRate(rapid.Float64Range(1e3, 5e4).Draw(t, "output"))
		q := units.Flow(rapid.Float64Range(0.05, 2).Draw(t, "airflow"))
		rise := thermal.TemperatureRise(output, q, s)
		require.InEpsilon(t, q.SI(), thermal.AirflowForRise(output, rise, s).SI(), 1e-12)
		require.Greater(t, rise, thermal.TemperatureRise(output, q*1.01, s), "more air warms less")
		// The same by enthalpy: mass of dry air times its rise.
		warm := s
		warm.Temperature += units.Temperature(rise)
		require.InEpsilon(t, output.SI(), q.SI()/s.SpecificVolume()*(warm.Enthalpy()-s.Enthalpy()), 1e-10)
	})
	assert.True(t, math.IsInf(thermal.TemperatureRise(1, 0, air.State{Temperature: 293, Pressure: 1e5}).SI(), 1))
}

// Total capacity follows 0.8 + 0.2 f, worked by hand.
func TestFlowFactor_Identity(t *testing.T) {
	for f, want := range map[float64]float64{0.5: 0.9, 0.75: 0.95, 1: 1, 1.25: 1.05, 1.5: 1.1} {
		got, outside := thermal.FlowFactor(f)
		assert.False(t, outside)
		assert.InDelta(t, want, got, 1e-12)

		c := threeTons(t)
		r, err := c.Run(units.Flow(f)*c.Airflow, c.Entering)
		require.NoError(t, err)
		assert.InDelta(t, 3*want, r.Total.In(units.Ton), 1e-9)
	}
	for _, f := range []float64{0.49, 1.51} {
		_, outside := thermal.FlowFactor(f)
		assert.True(t, outside)
	}
}

func TestWetBulbFactor_Plausible(t *testing.T) {
	rated, outside := thermal.WetBulbFactor(units.Fahrenheit(67))
	assert.False(t, outside)
	published.Check(t, published.Row{Name: "wet-bulb factor at the rating point", Source: "a capacity curve is 1 at its rating point, 67 °F wet bulb and 95 °F outdoors; coefficients from memory", Got: rated, Want: 1, Tolerance: 0.002, Why: "the published coefficients meet it to 0.2 %"})
	cool, _ := thermal.WetBulbFactor(units.Fahrenheit(62))
	published.Check(t, published.Row{Name: "wet-bulb factor at 62 °F", Source: "makers' expanded tables: about 1.3 to 1.8 % a degree F of wet bulb, common practice, no source", Got: (1 - cool/rated) / 5, Want: 0.0155, Tolerance: 0.0025, Why: "the range remembered"})

	for _, f := range []float64{54, 76} {
		_, outside := thermal.WetBulbFactor(units.Fahrenheit(f))
		assert.True(t, outside)
	}
}

func TestCoil_Plausible(t *testing.T) {
	c := threeTons(t)
	house, err := c.Run(1200*units.CFM, wetBulbState(t, 75, 62.5))
	require.NoError(t, err)
	published.Check(t, published.Row{Name: "temperature split at 400 cfm a ton", Source: "16 to 22 °F across a coil at 75 °F and 50 %, common practice, no source", Got: 75 - units.ToFahrenheit(house.Leaving.Temperature), Want: 19, Tolerance: 3, Why: "the trade's range"})
	published.Check(t, published.Row{Name: "usual bypass factor", Source: "0.1 to 0.2 for a coil of three or four rows, handbooks of coil selection, from memory", Got: c.BypassFactor, Want: 0.15, Tolerance: 0.05, Why: "the range remembered"})

	// Enthalpy by the inch-pound formula of ASHRAE Fundamentals ch. 1.
	enthalpy := func(s air.State) float64 {
		f := units.ToFahrenheit(s.Temperature)
		return 0.240*f + s.HumidityRatio*(1061+0.444*f)
	}
	for _, wet := range []float64{60, 62.5, 65, 67, 70} {
		in := wetBulbState(t, 78, wet)
		r, err := c.Run(1200*units.CFM, in)
		require.NoError(t, err)
		poundsPerHour := 1200 * 60 / (in.SpecificVolume() / math.Pow(0.3048, 3) * 0.45359237)
		published.Check(t, published.Row{Name: "total by IP enthalpies", Source: "ASHRAE Handbook Fundamentals (IP) ch. 1: h = 0.240 t + W (1061 + 0.444 t), from memory", Got: r.Total.In(12000 * units.Capacity(units.BtuPerHour)), Want: poundsPerHour * (enthalpy(in) - enthalpy(r.Leaving)) / 12000, Tolerance: 0.002, Relative: true, Why: "IP and SI constants are rounded apart by 0.1 %"})
	}
}

func TestCoil_Identity(t *testing.T) {
	c := threeTons(t)
	r, err := c.Run(c.Airflow, c.Entering)
	require.NoError(t, err)
	assert.InDelta(t, 3, r.Total.In(units.Ton), 1e-12)
	assert.InDelta(t, thermal.UsualSensibleHeatRatio, r.SensibleHeatRatio(), 1e-9)
	assert.InDelta(t, c.BypassFactor, r.BypassFactor, 1e-12)
	assert.InDelta(t, c.ApparatusDewPoint.SI(), r.ApparatusDewPoint.SI(), 1e-9)
	assert.False(t, r.Frost || r.Dry || r.Extrapolated)
	assert.InDelta(t, r.Total.SI(), r.Sensible.SI()+r.Latent().SI(), 1e-9)

	for _, ratio := range []float64{0.65, 0.70, 0.78} {
		c, err := thermal.NewCoil(3*units.Ton, 1200*units.CFM, wetBulbState(t, 80, 67), ratio)
		require.NoError(t, err)
		r, err := c.Run(c.Airflow, c.Entering)
		require.NoError(t, err)
		assert.InDelta(t, ratio, r.SensibleHeatRatio(), 1e-9, "the rating comes back")
		assert.InDelta(t, 1, air.State{Temperature: r.ApparatusDewPoint, Pressure: c.Entering.Pressure, HumidityRatio: air.SaturationHumidityRatio(r.ApparatusDewPoint, c.Entering.Pressure)}.RelativeHumidity(), 1e-12)
		twice, err := c.Run(2*c.Airflow, c.Entering)
		require.NoError(t, err)
		assert.InDelta(t, math.Sqrt(c.BypassFactor), twice.BypassFactor, 1e-12, "BF = exp(-NTU0/f)")
	}
}

func TestCoilEnergy_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tons := rapid.Float64Range(1.5, 5).Draw(t, "tons")
		perTon := rapid.Float64Range(250, 550).Draw(t, "cfm per ton")
		c, err := thermal.NewCoil(units.Capacity(tons)*units.Ton, units.Flow(tons*perTon)*units.CFM, wetBulbState(t, 80, 67), 0)
		require.NoError(t, err)
		in, err := air.New(units.Length(rapid.Float64Range(0, 2500).Draw(t, "altitude")), units.Fahrenheit(rapid.Float64Range(60, 95).Draw(t, "dry bulb")), rapid.Float64Range(0, 1).Draw(t, "humidity"))
		require.NoError(t, err)
		f := rapid.Float64Range(0.2, 2).Draw(t, "flow fraction")
		q := units.Flow(f) * c.Airflow
		r, err := c.Run(q, in)
		require.NoError(t, err)

		for name, v := range map[string]float64{"total": r.Total.SI(), "sensible": r.Sensible.SI(), "leaving": r.Leaving.Temperature.SI(), "surface": r.ApparatusDewPoint.SI(), "bypass": r.BypassFactor} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), name)
			require.GreaterOrEqual(t, v, 0.0, name)
		}
		m := q.SI() / in.SpecificVolume()
		require.InEpsilon(t, r.Total.SI(), m*(in.Enthalpy()-r.Leaving.Enthalpy()), 1e-9, "enthalpy drop times mass flow is the total")
		require.LessOrEqual(t, r.Sensible.SI(), r.Total.SI()*(1+1e-9))
		require.LessOrEqual(t, r.Leaving.HumidityRatio, in.HumidityRatio+1e-12)
		require.LessOrEqual(t, r.Leaving.RelativeHumidity(), 1+1e-4)
		require.Less(t, r.ApparatusDewPoint, r.Leaving.Temperature+1e-3)
		require.Equal(t, r.ApparatusDewPoint <= units.Fahrenheit(32), r.Frost)
		if r.Dry {
			require.Equal(t, in.HumidityRatio, r.Leaving.HumidityRatio)
			require.Equal(t, r.Total, r.Sensible)
			require.GreaterOrEqual(t, r.ApparatusDewPoint.SI(), in.DewPoint().SI()-1e-6)
		}

		more, err := c.Run(q*1.05, in)
		require.NoError(t, err)
		require.GreaterOrEqual(t, more.Total.SI(), r.Total.SI()*(1-1e-9), "more air, more capacity")
		require.Greater(t, more.Leaving.Temperature.SI(), r.Leaving.Temperature.SI()-1e-6, "more air leaves warmer")
		require.Greater(t, more.ApparatusDewPoint.SI(), r.ApparatusDewPoint.SI()-1e-6, "more air warms the surface")

		near, err := c.Run(q*(1+1e-7), in)
		require.NoError(t, err)
		require.InEpsilon(t, r.Total.SI(), near.Total.SI(), 1e-5, "no jump between a wet and a dry coil")
		require.InDelta(t, r.Leaving.Temperature.SI(), near.Leaving.Temperature.SI(), 0.01)
	})
}

func TestDryCoil_Identity(t *testing.T) {
	c := threeTons(t)
	previous := thermal.CoilResult{}
	for i, humidity := range []float64{0, 0.05, 0.1, 0.15, 0.2} {
		in, err := air.New(0, units.Fahrenheit(80), humidity)
		require.NoError(t, err)
		r, err := c.Run(c.Airflow, in)
		require.NoError(t, err)
		require.True(t, r.Dry)
		if i > 0 {
			assert.InEpsilon(t, previous.Total.SI(), r.Total.SI(), 0.01, "a dry coil does not feel the humidity")
		}
		previous = r
	}
	// A coil rated dry comes back at its rating.
	in, err := air.New(0, units.Fahrenheit(80), 0.1)
	require.NoError(t, err)
	dry, err := thermal.NewCoil(3*units.Ton, 1200*units.CFM, in, 0)
	require.NoError(t, err)
	r, err := dry.Run(dry.Airflow, in)
	require.NoError(t, err)
	assert.True(t, r.Dry)
	assert.InDelta(t, 3, r.Total.In(units.Ton), 1e-6)
	assert.InDelta(t, dry.ApparatusDewPoint.SI(), r.ApparatusDewPoint.SI(), 1e-5)
}

func TestFrost_Identity(t *testing.T) {
	c := threeTons(t)
	in := wetBulbState(t, 70, 57)
	low, err := c.Run(c.Airflow*0.3, in)
	require.NoError(t, err)
	assert.True(t, low.Frost && low.Extrapolated)
	full, err := c.Run(c.Airflow, in)
	require.NoError(t, err)
	assert.False(t, full.Frost || full.Extrapolated)
	// Nearly no air: the surface is held, and the books still balance.
	trickle, err := c.Run(c.Airflow*0.01, in)
	require.NoError(t, err)
	assert.Equal(t, thermal.LowestSurface, trickle.ApparatusDewPoint)
	assert.True(t, trickle.Frost && trickle.Extrapolated)
	m := c.Airflow.SI() * 0.01 / in.SpecificVolume()
	assert.InEpsilon(t, trickle.Total.SI(), m*(in.Enthalpy()-trickle.Leaving.Enthalpy()), 1e-9)
}

func TestRefusals(t *testing.T) {
	in := wetBulbState(t, 80, 67)
	_, err := thermal.NewCoil(0, 1, in, 0)
	assert.ErrorContains(t, err, "capacity")
	_, err = thermal.NewCoil(3*units.Ton, 0, in, 0)
	assert.ErrorContains(t, err, "airflow")
	_, err = thermal.NewCoil(3*units.Ton, 100*units.CFM, in, 0)
	assert.ErrorContains(t, err, "too little")
	_, err = thermal.NewCoil(3*units.Ton, 1200*units.CFM, in, 1.2)
	assert.ErrorContains(t, err, "1.2")
	_, err = thermal.NewCoil(3*units.Ton, 1200*units.CFM, in, 0.9)
	assert.ErrorContains(t, err, "nearest possible is 0.8")
	_, err = thermal.NewCoil(3*units.Ton, 1200*units.CFM, in, 0.3)
	assert.ErrorContains(t, err, "nearest possible is 0.5")

	c := threeTons(t)
	_, err = c.Run(0, in)
	assert.ErrorContains(t, err, "airflow")
	_, err = c.Run(1, air.State{Temperature: units.Fahrenheit(20), Pressure: air.SeaLevel})
	assert.ErrorContains(t, err, "20.0 °F")
	_, err = c.Run(1, air.State{Temperature: units.Fahrenheit(80), Pressure: air.SeaLevel, HumidityRatio: 0.1})
	assert.ErrorContains(t, err, "more water")
	_, err = thermal.Coil{}.Run(1, in)
	assert.ErrorContains(t, err, "NewCoil")
}

func TestAltitude_Identity(t *testing.T) {
	c := threeTons(t)
	low, err := air.New(0, units.Fahrenheit(78), 0.5)
	require.NoError(t, err)
	high, err := air.New(5000*units.Foot, units.Fahrenheit(78), 0.5)
	require.NoError(t, err)
	atSea, err := c.Run(1200*units.CFM, low)
	require.NoError(t, err)
	upThere, err := c.Run(1200*units.CFM, high)
	require.NoError(t, err)
	assert.Less(t, upThere.Total, atSea.Total, "thin air carries less")
	assert.Less(t, upThere.ApparatusDewPoint, atSea.ApparatusDewPoint)
}

func BenchmarkCoilRunWet(b *testing.B) {
	c, in := threeTons(b), wetBulbState(b, 75, 63)
	for b.Loop() {
		_, _ = c.Run(1100*units.CFM, in)
	}
}

func BenchmarkCoilRunDry(b *testing.B) {
	c, in := threeTons(b), wetBulbState(b, 80, 54)
	for b.Loop() {
		_, _ = c.Run(1100*units.CFM, in)
	}
}

func BenchmarkNewCoil(b *testing.B) {
	in := wetBulbState(b, 80, 67)
	for b.Loop() {
		_, _ = thermal.NewCoil(3*units.Ton, 1200*units.CFM, in, 0.75)
	}
}
