package filter

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing/air"
	"returnbench/sizing/processor"
	"returnbench/sizing/published"
	"returnbench/sizing/units"
)

var standard = air.Properties{Density: 1.2014, Viscosity: 1.81e-5}

// demoPack is a usual pleated pack 20 in. wide and 1 in. deep.
var demoPack = Pack{Width: 20 * units.Inch, Pleats: 19, Depth: 19 * units.Millimetre, Resistance: 60}

// constantWidthDrop is the closed form for gaps of constant width without
// inertia: dp = (k Q/l) coth(l L/2) + k Q L/2, k = 12 mu/h^3, l = sqrt(4 k/R).
func constantWidthDrop(p Pack, v, mu float64) float64 {
	pitch := float64(p.Width) / float64(p.Pleats)
	k := 12 * mu / math.Pow(pitch/2-float64(p.MediaThickness), 3)
	l := math.Sqrt(4 * k / float64(p.Resistance))
	q, depth := v*pitch, float64(p.Depth)
	return k*q/l/math.Tanh(l*depth/2) + k*q*depth/2
}

func TestPackSolve_Identity(t *testing.T) {
	t.Run("closed form of constant width", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) {
			p := Pack{
				Width: 20 * units.Inch, Pleats: rapid.IntRange(2, 200).Draw(t, "pleats"),
				Depth:          units.Length(rapid.Float64Range(0.01, 0.3).Draw(t, "depth")),
				MediaThickness: units.Length(rapid.Float64Range(0.0002, 0.0009).Draw(t, "thickness")),
				Resistance:     units.MediaResistance(rapid.Float64Range(10, 500).Draw(t, "resistance")),
				Equations:      Equations{ConstantWidth: true, NoInertia: true},
			}
			v := rapid.Float64Range(0.1, 5).Draw(t, "v")
			r, err := p.Solve(units.Speed(v), standard)
			require.NoError(t, err)
			assert.True(t, r.Converged)
			assert.InEpsilon(t, constantWidthDrop(p, v, standard.Viscosity), float64(r.Drop), 1e-5)
		})
	})
	t.Run("media alone when the gaps cost nothing", func(t *testing.T) {
		p := demoPack
		p.Equations.Plain = true
		r, err := p.Solve(1, air.Properties{Density: 1e-9, Viscosity: 1e-12})
		require.NoError(t, err)
		assert.InEpsilon(t, float64(p.Resistance)*float64(r.MediaVelocity), float64(r.Drop), 1e-6)
	})
	t.Run("flow and area", func(t *testing.T) {
		r, err := demoPack.Solve(1.5, standard)
		require.NoError(t, err)
		assert.InEpsilon(t, 1.5, float64(r.MediaVelocity)*r.MediaAreaRatio, 1e-13)
		assert.InEpsilon(t, 2*19*float64(r.Slant)/0.508, r.MediaAreaRatio, 1e-13)
		back, err := demoPack.Solve(-1.5, standard)
		require.NoError(t, err)
		assert.Equal(t, r.Drop, -back.Drop)
		still, err := demoPack.Solve(0, standard)
		require.NoError(t, err)
		assert.True(t, still.Converged)
		assert.Zero(t, still.Drop)
	})
}

// rungeKuttaDrop solves the plain equations another way: shooting for the
// pressure difference at the mouth, with the classical Runge-Kutta rule and
// bisection.
func rungeKuttaDrop(p Pack, v float64, a air.Properties) float64 {
	g, _ := p.geometry()
	flow, taper, stretch := v*g.pitch, (g.fold-g.mouth)/g.depth, g.slant/g.depth
	beta, rho := 1.2, float64(a.Density)
	slopes := func(x float64, y [3]float64) [3]float64 {
		hu := g.mouth + taper*x
		hd := g.mouth + g.fold - hu
		q, r := y[0], flow-y[0]
		dq := -2 * stretch * y[1] / g.resistance
		pu := -12*a.Viscosity*q/(hu*hu*hu) - beta*rho*(2*q*dq/(hu*hu)-q*q*taper/(hu*hu*hu))
		pd := -12*a.Viscosity*r/(hd*hd*hd) - beta*rho*(-2*r*dq/(hd*hd)+r*r*taper/(hd*hd*hd))
		return [3]float64{dq, pu - pd, pd}
	}
	const n = 1500
	shoot := func(across float64) (end [3]float64, over bool) {
		y, h := [3]float64{flow, across, 0}, g.depth/n
		add := func(y, k [3]float64, f float64) [3]float64 {
			return [3]float64{y[0] + f*k[0], y[1] + f*k[1], y[2] + f*k[2]}
		}
		for i := range n {
			x := float64(i) * h
			k1 := slopes(x, y)
			k2 := slopes(x+h/2, add(y, k1, h/2))
			k3 := slopes(x+h/2, add(y, k2, h/2))
			k4 := slopes(x+h, add(y, k3, h))
			for j := range y {
				y[j] += h / 6 * (k1[j] + 2*k2[j] + 2*k3[j] + k4[j])
			}
			if math.Abs(y[0]) > 50*flow {
				return y, y[0] < 0
			}
		}
		return y, y[0] < 0
	}
	low, high := -5*g.resistance*v, 10*g.resistance*v
	var end [3]float64
	for range 80 {
		mid := (low + high) / 2
		var over bool
		if end, over = shoot(mid); over {
			high = mid
		} else {
			low = mid
		}
	}
	return (low+high)/2 - end[2]
}

func TestPackSolve_Plain_Identity(t *testing.T) {
	for _, c := range []struct {
		pleats           int
		depth, r, v, tol float64
	}{{15, 0.019, 60, 1.524, 1e-5}, {40, 0.019, 60, 1.524, 1e-5}, {80, 0.019, 60, 1.524, 1e-4}, {100, 0.019, 60, 1.524, 1e-4}, {32, 0.09, 86, 2.54, 1e-4}, {64, 0.09, 86, 2.54, 1e-4}} {
		p := Pack{Width: 0.508, Pleats: c.pleats, Depth: units.Length(c.depth), Resistance: units.MediaResistance(c.r), Equations: Equations{Plain: true}}
		r, err := p.Solve(units.Speed(c.v), standard)
		require.NoError(t, err)
		assert.InEpsilon(t, rungeKuttaDrop(p, c.v, standard), float64(r.Drop), c.tol, "%d pleats", c.pleats)
	}
}

func TestPackSolve_Published(t *testing.T) {
	const source = "plain two-channel equations worked by a separate program"
	plain := func(pleats int, depth, r, v float64) float64 {
		p := Pack{Width: 0.508, Pleats: pleats, Depth: units.Length(depth), Resistance: units.MediaResistance(r), Equations: Equations{Plain: true}}
		got, err := p.Solve(units.Speed(v), standard)
		require.NoError(t, err)
		assert.True(t, got.Converged)
		return float64(got.Drop)
	}
	for _, c := range []struct {
		pleats     int
		want, tol  float64
		why        string
		depth      float64
		resistance float64
		v          float64
	}{
		{15, 0.260, 0.01, "three digits printed", 0.019, 60, 1.524},
		{19, 0.224, 0.01, "three digits printed", 0.019, 60, 1.524},
		{40, 0.124, 0.01, "three digits printed", 0.019, 60, 1.524},
		{60, 0.091, 0.02, "two digits printed", 0.019, 60, 1.524},
		{80, 0.086, 0.02, "two digits printed", 0.019, 60, 1.524},
		{100, 0.107, 0.02, "that program's grid is coarse for narrow gaps", 0.019, 60, 1.524},
	} {
		published.Check(t, published.Row{Name: "in. w.c.", Source: source, Got: plain(c.pleats, c.depth, c.resistance, c.v) / float64(units.InchWater),
			Want: c.want, Tolerance: c.tol, Relative: true, Why: c.why})
	}
	cfd, rows := published.Table(t, "pleat_cfd.csv")
	for _, row := range rows {
		p, v := cfdPack(t, row)
		published.Check(t, published.Row{Name: row["pleats"] + " pleats, plain", Source: cfd,
			Got: plain(p.Pleats, float64(p.Depth), float64(p.Resistance), float64(v)), Want: row.Float(t, "dp_plain_model_pa"),
			Tolerance: 0.004, Relative: true, Why: "the same equations on a coarser grid; most off where the gaps are narrowest"})
	}
}

func cfdPack(t testing.TB, row published.TableRow) (Pack, units.Speed) {
	return Pack{
		Width: units.Length(row.Float(t, "width_m")), Pleats: int(row.Float(t, "pleats")), Depth: units.Length(row.Float(t, "depth_m")),
		MediaThickness: units.Length(row.Float(t, "media_thickness_m")), FoldGap: units.Length(row.Float(t, "fold_gap_m")),
		Resistance: units.MediaResistance(row.Float(t, "media_resistance_pa_s_m")),
	}, units.Speed(row.Float(t, "face_speed_m_s"))
}

func drawPack(t *rapid.T) Pack {
	return Pack{
		Width: units.Length(rapid.Float64Range(0.2, 0.8).Draw(t, "width")), Pleats: rapid.IntRange(2, 200).Draw(t, "pleats"),
		Depth:          units.Length(rapid.Float64Range(0.008, 0.3).Draw(t, "depth")),
		MediaThickness: units.Length(rapid.Float64Range(0.0002, 0.003).Draw(t, "thickness")),
		FoldGap:        units.Length(rapid.Float64Range(0.0002, 0.003).Draw(t, "fold gap")),
		Resistance:     units.MediaResistance(rapid.Float64Range(5, 1000).Draw(t, "resistance")),
		Equations:      Equations{Plain: rapid.Bool().Draw(t, "plain")},
	}
}

func TestPackSolve_AnyPack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawPack(t)
		v := units.Speed(rapid.Float64Range(0.1, 5).Draw(t, "v"))
		r, err := p.Solve(v, standard)
		if err != nil {
			var fault *FieldError
			require.ErrorAs(t, err, &fault)
			assert.Equal(t, "pleats", fault.Field)
			return
		}
		require.False(t, math.IsNaN(float64(r.Drop)) || math.IsInf(float64(r.Drop), 0))
		if !r.Converged {
			return
		}
		assert.Positive(t, r.Drop)
		assert.Less(t, r.GridError, 1e-3)
		if faster, err := p.Solve(v*1.05, standard); err == nil && faster.Converged {
			assert.Greater(t, faster.Drop, r.Drop, "drop rises with velocity")
		}
	})
}

// The optimum of pleat count: more pleats first lower the drop, then raise it.
func TestPackSolve_Optimum(t *testing.T) {
	for _, plain := range []bool{true, false} {
		var drops []float64
		for n := 10; n <= 105; n += 5 {
			p := demoPack
			p.Pleats, p.Equations.Plain = n, plain
			r, err := p.Solve(1.524, standard)
			require.NoError(t, err)
			drops = append(drops, float64(r.Drop))
		}
		best := 0
		for i := range drops {
			if drops[i] < drops[best] {
				best = i
			}
		}
		assert.Greater(t, best, 5)
		assert.Less(t, best, len(drops)-2)
		for i := 1; i < len(drops); i++ {
			assert.Equal(t, i <= best, drops[i] < drops[i-1], "one optimum only")
		}
	}
}

func TestPackSolve_Faults(t *testing.T) {
	for field, change := range map[string]func(*Pack){
		"pleats":           func(p *Pack) { p.Pleats = 130 },
		"width":            func(p *Pack) { p.Width = -1 },
		"pleat_depth":      func(p *Pack) { p.Depth = 0 },
		"media_thickness":  func(p *Pack) { p.MediaThickness = -1 },
		"fold_gap":         func(p *Pack) { p.FoldGap = units.Length(math.NaN()) },
		"media_resistance": func(p *Pack) { p.Resistance = 0 },
	} {
		p := demoPack
		change(&p)
		_, err := p.Solve(1, standard)
		var fault *FieldError
		require.ErrorAs(t, err, &fault, field)
		assert.Equal(t, field, fault.Field)
		_, _, err = p.Curve(standard)
		require.ErrorAs(t, err, &fault, field)
	}
	_, err := demoPack.Solve(units.Speed(math.NaN()), standard)
	require.Error(t, err)
	_, err = demoPack.Solve(1, air.Properties{})
	require.ErrorContains(t, err, "air")
	p := demoPack
	p.Pleats = 130
	_, err = p.Solve(1, standard)
	require.ErrorContains(t, err, "at most 110")
	p.Pleats = 110
	_, err = p.Solve(1, standard)
	require.NoError(t, err)
}

// drawUsualPack is a pack as sold for homes.
func drawUsualPack(t *rapid.T) Pack {
	p := Pack{
		Width: units.Length(rapid.Float64Range(0.3, 0.65).Draw(t, "width")), Depth: units.Length(rapid.Float64Range(0.012, 0.11).Draw(t, "depth")),
		MediaThickness: units.Length(rapid.Float64Range(0.0003, 0.0012).Draw(t, "thickness")),
		FoldGap:        units.Length(rapid.Float64Range(0.0005, 0.0015).Draw(t, "fold gap")),
		Resistance:     units.MediaResistance(rapid.Float64Range(40, 400).Draw(t, "resistance")),
		Equations:      Equations{Plain: rapid.Bool().Draw(t, "plain")},
	}
	p.Pleats = int(float64(p.Width) / rapid.Float64Range(0.006, 0.05).Draw(t, "pitch"))
	return p
}

func TestPackCurve_Identity(t *testing.T) {
	check := func(t *rapid.T, p Pack, tolerance float64) {
		c, rated, err := p.Curve(standard)
		if err != nil || !rated.Converged {
			return
		}
		previous := units.Pressure(0)
		for v := 0.1; v <= 5; v *= 1.2 {
			r, err := p.Solve(units.Speed(v), standard)
			require.NoError(t, err)
			got := c.Drop(units.Speed(v))
			assert.InEpsilon(t, float64(r.Drop), float64(got), tolerance, "at %g m/s", v)
			assert.Greater(t, got, previous)
			previous = got
		}
		h := c.bend.high
		below, above := float64(c.Drop(units.Speed(h-1e-6))), float64(c.Drop(units.Speed(h+1e-6)))
		assert.InEpsilon(t, below, above, 1e-5, "no step past the last knot")
		assert.Greater(t, c.Drop(units.Speed(2*h)), c.Drop(units.Speed(h)))
	}
	t.Run("usual", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) { check(t, drawUsualPack(t), 0.002) })
	})
	t.Run("any", func(t *testing.T) {
		rapid.Check(t, func(t *rapid.T) { check(t, drawPack(t), 0.01) })
	})
}

// Usual packs always converge, and on the first try of grids or the next.
func TestPackSolve_UsualConverges(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r, err := drawUsualPack(t).Solve(units.Speed(rapid.Float64Range(0.1, 5).Draw(t, "v")), standard)
		require.NoError(t, err)
		assert.True(t, r.Converged)
	})
}

func TestResistanceFromPermeability_Identity(t *testing.T) {
	assert.InEpsilon(t, 125, float64(ResistanceFromPermeability(1)), 1e-15)
	// 300 cfm/ft2 is 1.524 m/s.
	assert.InEpsilon(t, 125/1.524, float64(ResistanceFromPermeability(300*units.PermeabilityCFMPerSquare)), 1e-12)
}

func BenchmarkPleats(b *testing.B) {
	for name, plain := range map[string]bool{"all terms": false, "plain": true} {
		b.Run(name, func(b *testing.B) {
			p := demoPack
			p.Equations.Plain = plain
			defer processor.Report(b)()
			for b.Loop() {
				if _, err := p.Solve(1.524, standard); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// One pack at one speed after another, as a curve or a sweep asks: the grids stay
// laid, and each answer starts from the one before.
func BenchmarkPleatsKept(b *testing.B) {
	g, err := demoPack.geometry()
	require.NoError(b, err)
	s := newPleatSolver(g, Equations{}, standard)
	faces := make([]float64, 50) // 0.5 to 2.5 m/s, far apart in turn
	for i := range faces {
		faces[i] = 0.5 + 2*float64(i*19%len(faces))/float64(len(faces)-1)
		require.True(b, s.solve(faces[i]).Converged)
	}
	b.ReportAllocs()
	defer processor.Report(b)()
	for i := 0; b.Loop(); i++ {
		s.solve(faces[i%len(faces)])
	}
}

func BenchmarkPackCurve(b *testing.B) {
	for b.Loop() {
		if _, _, err := demoPack.Curve(standard); err != nil {
			b.Fatal(err)
		}
	}
}
