package filter

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

func TestPlateBow_Published(t *testing.T) {
	checkPlate(t, "alpha", "Navier's double series by mpmath 1.2.1", 1e-6, "the series stops at 11 odd terms")
	checkPlate(t, "alpha_ccx", "linear finite elements by CalculiX 2.20", 0.01, "shell elements bend by shear too")
}

func TestPlateTable_Plausible(t *testing.T) {
	checkPlate(t, "alpha_timoshenko", "Timoshenko's table of the simply supported plate, from memory", 0.002, "three or four digits printed")
}

func checkPlate(t *testing.T, column, source string, tolerance float64, why string) {
	_, rows := published.Table(t, "plate_simply_supported.csv")
	for _, row := range rows {
		published.Check(t, published.Row{Name: column + " at " + row["b_over_a"], Source: source + " (testdata/plate_simply_supported.csv)",
			Got: PlateBow(row.Float(t, "b_over_a")), Want: row.Float(t, column), Tolerance: tolerance, Relative: true, Why: why})
	}
}

func TestHeldPlateBow_Published(t *testing.T) {
	source, rows := published.Table(t, "panel_large_deflection.csv")
	for _, row := range rows {
		a, thick := row.Float(t, "a_in")*0.0254, row.Float(t, "t_in")*0.0254
		stiffness := 200e9 * math.Pow(thick, 3) / (12 * (1 - 0.3*0.3))
		linear := PlateBow(row.Float(t, "b_in")/row.Float(t, "a_in")) * row.Float(t, "p_pa") * math.Pow(a, 4) / stiffness
		published.Check(t, published.Row{Name: "linear, mm", Source: source, Got: 1000 * linear, Want: row.Float(t, "w_linear_mm"),
			Tolerance: 1e-5, Relative: true, Why: "the same series"})
		published.Check(t, published.Row{Name: "held, mm", Source: source, Got: 1000 * HeldPlateBow(linear, thick), Want: row.Float(t, "w_nonlinear_ccx_mm"),
			Tolerance: 0.08, Relative: true, Why: "Berger's approximation drops the second strain invariant"})
	}
}

func TestHeldPlateBow_Identity(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		linear := rapid.Float64Range(1e-9, 1).Draw(t, "linear")
		thick := rapid.Float64Range(1e-4, 0.1).Draw(t, "t")
		w := HeldPlateBow(linear, thick)
		assert.InEpsilon(t, linear, w*(1+1.5*w*w/(thick*thick)), 1e-9)
		assert.LessOrEqual(t, w, linear*(1+1e-9))
	})
	assert.InEpsilon(t, 1e-8, HeldPlateBow(1e-8, 0.01), 1e-9)
	assert.Zero(t, HeldPlateBow(0, 1))
	assert.InEpsilon(t, PlateBow(2), PlateBow(0.5), 1e-12)
}

func TestPush_Identity(t *testing.T) {
	// 0.5 in. w.c. on 20 x 25 in.: 0.5 x 5.2023 lbf/ft2 x 3.472 ft2 = 9.03 lbf.
	got := Push(0.5*units.InchWater, units.Area(500)*units.SquareInch)
	assert.InDelta(t, 9.032, got.In(units.PoundForce), 0.001)
}

func TestBow_Identity(t *testing.T) {
	order := []Bracing{RigidBox, WireBacked, BothSides, OneSide, Unbraced}
	rapid.Check(t, func(t *rapid.T) {
		w, h := units.Length(rapid.Float64Range(0.2, 0.8).Draw(t, "w")), units.Length(rapid.Float64Range(0.2, 0.8).Draw(t, "h"))
		dp := units.Pressure(rapid.Float64Range(1, 400).Draw(t, "dp"))
		f := Filter{Depth: units.Length(rapid.Float64Range(0.02, 0.15).Draw(t, "depth"))}
		last := units.Length(0)
		for _, b := range order {
			f.Bracing = b
			bow, err := f.Bow(w, h, dp)
			require.NoError(t, err)
			assert.Greater(t, bow, last, "less bracing, more bow")
			last = bow
			turned, err := f.Bow(h, w, dp)
			require.NoError(t, err)
			assert.InEpsilon(t, float64(bow), float64(turned), 1e-12)
			back, err := f.Bow(w, h, -dp)
			require.NoError(t, err)
			assert.Equal(t, bow, -back)
			deeper := f
			deeper.Depth *= 2
			less, err := deeper.Bow(w, h, dp)
			require.NoError(t, err)
			assert.Less(t, less, bow)
		}
	})
	_, err := Filter{Bracing: "string"}.Bow(1, 1, 1)
	require.ErrorContains(t, err, "bracing")
	_, err = Filter{}.Bow(0, 1, 1)
	require.ErrorContains(t, err, "width")
}

func TestDrawIn_Identity(t *testing.T) {
	// A bow of 18 mm over 610 mm: 4/3 x 0.018^2 / 0.61 = 0.708 mm.
	assert.InDelta(t, 0.708, DrawIn(18*units.Millimetre, 610*units.Millimetre).In(units.Millimetre), 0.001)
	// The parabola w (1 - (2x/L)^2) is longer than its chord by (8/3) w^2/L, here
	// by adding up its pieces.
	const w, span, n = 0.02, 0.6, 200000
	long := 0.0
	y := func(x float64) float64 { return w * (1 - 4*x*x/(span*span)) }
	for i := range n {
		x := span * (float64(i)/n - 0.5)
		long += math.Hypot(span/n, y(x+span/n)-y(x))
	}
	assert.InEpsilon(t, (long-span)/2, float64(DrawIn(w, span)), 0.003, "the next term of the series is (w/L)^2 of it")
}

func TestSeat_Identity(t *testing.T) {
	f := made()
	f.Bracing = Unbraced
	law, err := f.Law(f.Width, f.Height, standard)
	require.NoError(t, err)
	dirty, err := f.Loaded(law, 0.04, f.face(), standard)
	require.NoError(t, err)
	rapid.Check(t, func(t *rapid.T) {
		total := units.Flow(rapid.Float64Range(0.05, 0.8).Draw(t, "total"))
		seat := Seat{
			Crack: FrameCrack(f.Width, f.Height, f.Depth, units.Length(rapid.Float64Range(0, 0.005).Draw(t, "gap")), rapid.IntRange(0, 2).Draw(t, "bends")),
			Cover: units.Length(rapid.Float64Range(0.005, 0.02).Draw(t, "cover")),
		}
		seated, err := f.Seat(dirty, f.Width, f.Height, seat, standard)
		require.NoError(t, err)
		s := seated.At(total)
		bow, err := f.Bow(f.Width, f.Height, s.Drop)
		require.NoError(t, err)
		assert.InDelta(t, float64(bow), float64(s.Bow), 1e-12)
		assert.InEpsilon(t, float64(total), float64(s.Media+s.Leak), 1e-12)
		assert.InEpsilon(t, float64(s.Drop), float64(seated.Drop(total)), 1e-12)
		assert.Equal(t, -seated.Drop(total), seated.Drop(-total))
		assert.InEpsilon(t, float64(dirty.Drop(units.Speed(float64(s.Media)/float64(f.face())))), float64(s.Drop), 1e-9)
		// Seated, the gap is that at rest and the path is shorter by the draw-in.
		if s.CoverUsed < 1 {
			crack := seat.Crack
			crack.Path -= DrawIn(bow, min(f.Width, f.Height))
			assert.InDelta(t, float64(crack.Flow(s.Drop, standard)), float64(s.Leak), 1e-9*float64(total))
		}
		left := seat
		left.Left = true
		out, err := f.Seat(dirty, f.Width, f.Height, left, standard)
		require.NoError(t, err)
		assert.Greater(t, out.At(total).Share, s.Share, "out of its seat it leaks more")
		assert.Less(t, out.At(total).Drop, s.Drop)
		braced := f
		braced.Bracing = RigidBox
		stiff, err := braced.Seat(dirty, f.Width, f.Height, seat, standard)
		require.NoError(t, err)
		assert.LessOrEqual(t, stiff.At(total).Share, s.Share+1e-12, "a stiffer filter leaks no more")
		assert.LessOrEqual(t, stiff.At(total).CoverUsed, s.CoverUsed+1e-12)
	})
	_, err = f.Seat(dirty, f.Width, f.Height, Seat{Cover: -1}, standard)
	require.ErrorContains(t, err, "edge_cover")
}

func BenchmarkSeat(b *testing.B) {
	f := made()
	f.Bracing = Unbraced
	law, err := f.Law(f.Width, f.Height, standard)
	require.NoError(b, err)
	seat := Seat{Crack: FrameCrack(f.Width, f.Height, f.Depth, units.Millimetre, 1), Cover: 2 * units.Millimetre}
	s, err := f.Seat(law.Curve, f.Width, f.Height, seat, standard)
	require.NoError(b, err)
	for b.Loop() {
		s.Drop(0.5)
	}
}
