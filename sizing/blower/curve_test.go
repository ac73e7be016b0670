package blower_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"returnbench/sizing/blower"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

// syntheticTable is the table the reference CSVs were made from, as their
// headers give it.
func syntheticTable() []blower.Point {
	var points []blower.Point
	for _, r := range []struct{ static, cfm float64 }{
		{0.1, 1385}, {0.2, 1350}, {0.3, 1310}, {0.5, 1210}, {0.6, 1150}, {0.8, 980}, {0.9, 840},
	} {
		points = append(points, blower.Point{
			ExternalStatic: units.Pressure(r.static) * units.InchWater,
			Airflow:        units.Flow(r.cfm) * units.CFM,
		})
	}
	return points
}

func curve(t require.TestingT, points []blower.Point) blower.Curve {
	c, err := blower.NewCurve(points)
	require.NoError(t, err)
	return c
}

func TestCurve_Published(t *testing.T) {
	source, rows := published.Table(t, "monotone_interpolation.csv")
	c := curve(t, syntheticTable())
	for _, r := range rows {
		static := units.Pressure(r.Float(t, "esp_inwc")) * units.InchWater
		q, inside := c.Airflow(static)
		assert.True(t, inside, r["esp_inwc"])
		published.Check(t, published.Row{
			Name: "airflow at " + r["esp_inwc"], Source: source,
			Got: q.In(units.CFM), Want: r.Float(t, "cfm_pchip_mp"), Tolerance: 1e-12, Relative: true,
			Why: "printed to 15 digits; scaling to SI rounds a few times",
		})
		published.Check(t, published.Row{
			Name: "straight-line airflow at " + r["esp_inwc"], Source: source,
			Got: c.LinearAirflow(static).In(units.CFM), Want: r.Float(t, "cfm_linear"), Tolerance: 1e-12, Relative: true,
			Why: "printed to 15 digits; scaling to SI rounds a few times",
		})
		published.Check(t, published.Row{
			Name: "reading spread at " + r["esp_inwc"], Source: source,
			Got:       c.ReadingSpread(static).In(units.CFM),
			Want:      math.Abs(r.Float(t, "cfm_pchip_mp") - r.Float(t, "cfm_linear")),
			Tolerance: 1e-9, Why: "difference of two figures printed to 12 decimals",
		})
	}
}

func TestOperatingPoint_Published(t *testing.T) {
	source, rows := published.Table(t, "operating_point.csv")
	c := curve(t, syntheticTable())
	lowStatic, highStatic, _, _ := c.Range()
	for _, r := range rows {
		coefficient, exponent := r.Float(t, "C"), r.Float(t, "n")
		low, high := lowStatic.SI(), highStatic.SI()
		for range 100 {
			p := (low + high) / 2
			cfm := units.Flow(c.Extended(p)).In(units.CFM)
			if coefficient*math.Pow(cfm, exponent) > units.Pressure(p).In(units.InchWater) {
				low = p
			} else {
				high = p
			}
		}
		name := r["case"] + " n=" + r["n"]
		published.Check(t, published.Row{
			Name: name + " static", Source: source,
			Got: units.Pressure(low).In(units.InchWater), Want: r.Float(t, "esp_inwc"), Tolerance: 1e-12, Relative: true,
			Why: "printed to 15 digits, as is the coefficient",
		})
		q, _ := c.Airflow(units.Pressure(low))
		published.Check(t, published.Row{
			Name: name + " airflow", Source: source,
			Got: q.In(units.CFM), Want: r.Float(t, "cfm"), Tolerance: 1e-12, Relative: true,
			Why: "printed to 15 digits, as is the coefficient",
		})
	}
}

// A falling table with rows in some order, watts and speeds in part.
func drawTable(t *rapid.T) []blower.Point {
	n := rapid.IntRange(2, 12).Draw(t, "rows")
	static, flow := rapid.Float64Range(0, 50).Draw(t, "first static"), 1.0
	var points []blower.Point
	for range n {
		points = append(points, blower.Point{ExternalStatic: units.Pressure(static), Airflow: units.Flow(flow), Power: 300, Speed: 15})
		static += rapid.Float64Range(1, 60).Draw(t, "step")
		flow *= 1 - rapid.SampledFrom([]float64{0, 0, 1e-4, 0.01, 0.05, 0.3}).Draw(t, "fall")
	}
	return rapid.Permutation(points).Draw(t, "order")
}

func TestCurve_Identity(t *testing.T) {
	t.Run("passes through its rows", rapid.MakeCheck(func(t *rapid.T) {
		points := drawTable(t)
		c := curve(t, points)
		for _, p := range points {
			q, inside := c.Airflow(p.ExternalStatic)
			assert.True(t, inside)
			assert.InDelta(t, p.Airflow.SI(), q.SI(), 1e-14)
			assert.InDelta(t, 0, c.ReadingSpread(p.ExternalStatic).SI(), 1e-14)
		}
	}))
	t.Run("is the cubic of gonum", rapid.MakeCheck(func(t *rapid.T) {
		c := curve(t, syntheticTable())
		var xs, ys []float64
		for _, p := range syntheticTable() {
			xs, ys = append(xs, p.ExternalStatic.SI()), append(ys, p.Airflow.SI())
		}
		var fb interp.FritschButland
		require.NoError(t, fb.Fit(xs, ys))
		x := rapid.Float64Range(xs[0], xs[len(xs)-1]).Draw(t, "static")
		q, _ := c.Airflow(units.Pressure(x))
		assert.InEpsilon(t, fb.Predict(x), q.SI(), 1e-13)
	}))
	t.Run("never rises", rapid.MakeCheck(func(t *rapid.T) {
		c := curve(t, drawTable(t))
		a := rapid.Float64Range(-100, 1000).Draw(t, "static")
		b := a + rapid.Float64Range(0, 200).Draw(t, "more")
		assert.LessOrEqual(t, c.Extended(b), c.Extended(a)+1e-14)
		qa, _ := c.Airflow(units.Pressure(a))
		qb, _ := c.Airflow(units.Pressure(b))
		assert.LessOrEqual(t, qb.SI(), qa.SI()+1e-14)
	}))
	t.Run("both directions agree", rapid.MakeCheck(func(t *rapid.T) {
		c := curve(t, drawTable(t))
		_, _, lowFlow, highFlow := c.Range()
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		q := lowFlow + units.Flow(share)*(highFlow-lowFlow)
		p, inside := c.Static(q)
		assert.True(t, inside)
		back, inside := c.Airflow(p)
		assert.True(t, inside)
		assert.InEpsilon(t, q.SI(), back.SI(), 1e-12)
	}))
	t.Run("extended is the table inside it", rapid.MakeCheck(func(t *rapid.T) {
		c := curve(t, drawTable(t))
		low, high, _, _ := c.Range()
		p := units.Pressure(rapid.Float64Range(low.SI(), high.SI()).Draw(t, "static"))
		q, _ := c.Airflow(p)
		assert.Equal(t, q.SI(), c.Extended(p.SI()))
	}))
}

func TestCurveBothDirections_Identity(t *testing.T) {
	c := curve(t, syntheticTable())
	for static := 0.1; static <= 0.9; static += 0.0037 {
		p := units.Pressure(static) * units.InchWater
		q, _ := c.Airflow(p)
		back, inside := c.Static(q)
		assert.True(t, inside)
		assert.InEpsilon(t, p.SI(), back.SI(), 1e-10)
	}
}

func TestCurveOffTable(t *testing.T) {
	c := curve(t, syntheticTable())
	low, high, lowFlow, highFlow := c.Range()
	assert.Equal(t, "0.1 in. w.c.", low.String())
	assert.Equal(t, "0.9 in. w.c.", high.String())
	assert.Equal(t, "840 cfm", lowFlow.String())
	assert.Equal(t, "1385 cfm", highFlow.String())

	q, inside := c.Airflow(high + 1)
	assert.Equal(t, lowFlow, q)
	assert.False(t, inside)
	q, inside = c.Airflow(low - 1)
	assert.Equal(t, highFlow, q)
	assert.False(t, inside)
	_, inside = c.Airflow(units.Pressure(math.NaN()))
	assert.False(t, inside)

	p, inside := c.Static(lowFlow * 0.99)
	assert.Equal(t, high, p)
	assert.False(t, inside)
	p, inside = c.Static(highFlow * 1.01)
	assert.Equal(t, low, p)
	assert.False(t, inside)
	_, inside = c.Static(units.Flow(math.NaN()))
	assert.False(t, inside)

	assert.Less(t, c.Extended(high.SI()+1), lowFlow.SI())
	assert.Greater(t, c.Extended(low.SI()-1), highFlow.SI())
	assert.Zero(t, c.Extended(1e6), "a blower does not run backwards")
}

func TestCurvePlateau(t *testing.T) {
	points := []blower.Point{
		{ExternalStatic: 25, Airflow: 0.5}, {ExternalStatic: 75, Airflow: 0.5}, {ExternalStatic: 125, Airflow: 0.5},
		{ExternalStatic: 200, Airflow: 0.5}, {ExternalStatic: 250, Airflow: 0.4},
	}
	c := curve(t, points)
	for p := units.Pressure(25); p <= 200; p += 7 {
		q, inside := c.Airflow(p)
		assert.True(t, inside)
		assert.Equal(t, units.Flow(0.5), q)
	}
	p, inside := c.Static(0.5)
	assert.True(t, inside)
	assert.Equal(t, units.Pressure(200), p, "the highest static that still moves the flow")
	p, _ = c.Static(0.45)
	q, _ := c.Airflow(p)
	assert.InEpsilon(t, 0.45, q.SI(), 1e-12)

	level := curve(t, points[:3])
	p, inside = level.Static(0.5)
	assert.True(t, inside)
	assert.Equal(t, units.Pressure(125), p)
	// Past its table a level blower falls too, to nothing at twice the highest
	// static, 250 Pa, so that it meets any system.
	assert.InEpsilon(t, 0.25, level.Extended(187.5), 1e-12)
	assert.Zero(t, level.Extended(500))
	steep := curve(t, []blower.Point{{ExternalStatic: 50, Airflow: 0.5}, {ExternalStatic: 60, Airflow: 0.1}})
	assert.InEpsilon(t, 1, steep.Extended(-1e6), 1e-12, "below it at most twice the highest airflow")
}

func TestCurveWattsAndSpeed(t *testing.T) {
	points := syntheticTable()
	for i := range points {
		points[i].Power = units.Power(600 - 20*i)
	}
	points[1].Speed, points[4].Speed = 15, 18
	c := curve(t, points)

	w, known := c.Power(0.2 * units.InchWater)
	assert.True(t, known)
	assert.InDelta(t, 580, w.SI(), 1e-9)
	w, known = c.Power(5 * units.InchWater)
	assert.True(t, known, "off the table: the watts of its end")
	assert.InDelta(t, 480, w.SI(), 1e-9)

	n, known := c.Speed(0.4 * units.InchWater)
	assert.True(t, known)
	assert.InDelta(t, 16.5, n.SI(), 1e-9, "two rows make a straight line")
	_, known = c.Speed(0.7 * units.InchWater)
	assert.False(t, known, "no speed given from there on")

	_, known = curve(t, syntheticTable()).Power(0.2 * units.InchWater)
	assert.False(t, known)
	var zero blower.Curve
	_, known = zero.Power(1)
	assert.False(t, known)
	_, inside := zero.Airflow(1)
	assert.False(t, inside)
	_, inside = zero.Static(1)
	assert.False(t, inside)
}

func TestNewCurveFaults(t *testing.T) {
	point := func(inches, cfm float64) blower.Point {
		return blower.Point{ExternalStatic: units.Pressure(inches) * units.InchWater, Airflow: units.Flow(cfm) * units.CFM}
	}
	for name, c := range map[string]struct {
		points []blower.Point
		rows   []int
		text   string
	}{
		"airflow rises": {[]blower.Point{point(0.3, 1000), point(0.1, 990), point(0.5, 900)}, []int{0},
			"row 1: airflow rises from 990 cfm at 0.100 in. w.c. (row 2) to 1000 cfm at 0.300 in. w.c.; want airflow that falls or stays as static rises"},
		"static twice": {[]blower.Point{point(0.1, 1000), point(0.3, 900), point(0.1, 950)}, []int{2},
			"row 3: external static 0.100 in. w.c. is also in row 1; want each static once"},
		"negative": {[]blower.Point{point(-0.1, 1000), point(0.3, -900)}, []int{0, 1},
			"row 1: external static is -0.100 in. w.c.; want a number at or over zero\nrow 2: airflow is -900 cfm; want a number at or over zero"},
		"no number": {[]blower.Point{point(0.1, math.NaN()), point(0.3, math.Inf(1))}, []int{0, 1},
			"row 1: airflow is – cfm; want a number at or over zero\nrow 2: airflow is ∞ cfm; want a number at or over zero"},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := blower.NewCurve(c.points)
			require.EqualError(t, err, c.text)
			joined, ok := err.(interface{ Unwrap() []error })
			require.True(t, ok)
			for i, e := range joined.Unwrap() {
				var fault *blower.PointError
				require.True(t, errors.As(e, &fault))
				assert.Equal(t, c.rows[i], fault.Row)
			}
		})
	}
	_, err := blower.Tap{Name: "high", Points: []blower.Point{point(0.1, 1)}}.Curve()
	require.ErrorIs(t, err, blower.ErrTooFewPoints)
	assert.EqualError(t, err, `tap "high": a blower tap needs at least two points, 1 given`)
}

func TestCurveDoesNotAllocate(t *testing.T) {
	c := curve(t, syntheticTable())
	assert.Zero(t, testing.AllocsPerRun(100, func() {
		q, _ := c.Airflow(100)
		p, _ := c.Static(q)
		c.Extended(p.SI())
	}))
}

func BenchmarkAirflow(b *testing.B) {
	c := curve(b, syntheticTable())
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		c.Airflow(units.Pressure(30 + i%190))
	}
}

func BenchmarkStatic(b *testing.B) {
	c := curve(b, syntheticTable())
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		c.Static(units.Flow(850+i%500) * units.CFM)
	}
}

func TestStraightened_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := curve(t, drawTable(t))
		low, high, _, _ := c.Range()
		p := units.Pressure(rapid.Float64Range(low.SI(), high.SI()).Draw(t, "static"))
		share := rapid.Float64Range(0, 1).Draw(t, "share")
		cubic, _ := c.Airflow(p)
		line := c.LinearAirflow(p)
		bent := c.BlendLinear(share)
		got, inside := bent.Airflow(p)
		assert.True(t, inside)
		assert.InDelta(t, (1-share)*cubic.SI()+share*line.SI(), got.SI(), 1e-12)
		back, _ := bent.Static(got)
		again, _ := bent.Airflow(back)
		assert.InDelta(t, got.SI(), again.SI(), 1e-9)
		thin, _ := bent.AtDensity(0.8).Airflow(0.8 * p)
		assert.InDelta(t, got.SI(), thin.SI(), 1e-12, "the reading stays through a change of air")
	})
}
