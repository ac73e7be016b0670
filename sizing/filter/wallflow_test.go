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

// similarity integrates Berman's equation from the wall inwards, the direction
// in which the thin layer of suction dies away, and gives f(0), f”(0) and the
// integral of f'^2 for a trial wall slope f”(1) and constant.
func similarity(re, wall, constant float64) (f0, f2, beta float64) {
	const n = 1500
	grading := math.Asinh(math.Max(re, 0)/5 + 1)
	z := func(i int) float64 { return math.Sinh(grading*float64(i)/n) / math.Sinh(grading) }
	slopes := func(y [3]float64) [3]float64 {
		return [3]float64{-y[1], -y[2], constant + re*(y[1]*y[1]-y[0]*y[2])}
	}
	y := [3]float64{1, 0, wall}
	for i := range n {
		h := z(i+1) - z(i)
		add := func(k [3]float64, f float64) (out [3]float64) {
			for j := range out {
				out[j] = y[j] + f*k[j]
			}
			return out
		}
		k1 := slopes(y)
		k2 := slopes(add(k1, h/2))
		middle := add(k2, h/2)
		k3 := slopes(middle)
		k4 := slopes(add(k3, h))
		next := y
		for j := range y {
			next[j] += h / 6 * (k1[j] + 2*k2[j] + 2*k3[j] + k4[j])
		}
		beta += h / 6 * (y[1]*y[1] + 4*middle[1]*middle[1] + next[1]*next[1])
		y = next
	}
	return y[0], y[2], beta
}

// berman follows the branch from developed flow to re by Newton's method.
func berman(t *testing.T, re float64) (friction, beta float64) {
	wall, constant := -3.0, 3.0
	was := [2]float64{wall, constant}
	at, before := 0.0, 0.0
	for at != re {
		step := math.Copysign(math.Min(0.5, math.Abs(re-at)), re)
		guess := [2]float64{wall, constant}
		if at != before {
			k := step / (at - before)
			guess[0] += (wall - was[0]) * k
			guess[1] += (constant - was[1]) * k
		}
		was, before = [2]float64{wall, constant}, at
		at += step
		wall, constant = guess[0], guess[1]
		for range 50 {
			f0, f2, b := similarity(at, wall, constant)
			friction, beta = -wall/3, b
			if math.Max(math.Abs(f0), math.Abs(f2)) < 1e-9 {
				break
			}
			dw, dc := 1e-6*math.Max(1, math.Abs(wall)), 1e-6*math.Max(1, math.Abs(constant))
			w0, w2, _ := similarity(at, wall+dw, constant)
			c0, c2, _ := similarity(at, wall, constant+dc)
			a, b2, c, d := (w0-f0)/dw, (c0-f0)/dc, (w2-f2)/dw, (c2-f2)/dc
			det := a*d - b2*c
			wall -= (f0*d - f2*b2) / det
			constant -= (a*f2 - c*f0) / det
		}
	}
	return friction, beta
}

func TestProfiles_Identity(t *testing.T) {
	for _, re := range []float64{0.5, 1, 3, 5, 8, 12, 18, 25, 40} {
		friction, beta := berman(t, re)
		p := suction(re)
		assert.InEpsilon(t, friction, p.friction, 0.003, "suction at %g", re)
		assert.InEpsilon(t, beta, p.beta, 0.001, "suction at %g", re)
		if re <= 12 { // more blowing makes this direction of integration unstable
			friction, beta = berman(t, -re)
			p = blowing(re)
			assert.InEpsilon(t, friction, p.friction, 0.0005, "blowing at %g", re)
			assert.InEpsilon(t, beta, p.beta, 0.0005, "blowing at %g", re)
		}
	}
	still := profile{friction: 1, beta: developedMomentum}
	for _, p := range []profile{suction(0), blowing(0), newWedge(1).in(blowing(0))} {
		assert.InDelta(t, still.friction, p.friction, 1e-12)
		assert.InDelta(t, still.beta, p.beta, 1e-12)
	}
}

func TestProfiles_Plausible(t *testing.T) {
	const far = 1e7
	published.Check(t, published.Row{Name: "strong blowing, beta", Source: "Taylor 1956, Proc. R. Soc. A 234:456: cosine profile (from memory)",
		Got: blowing(far).beta, Want: math.Pi * math.Pi / 8, Tolerance: 1e-5, Why: "a limit, tried at a wall Reynolds number of 1e7"})
	published.Check(t, published.Row{Name: "strong suction, wall shear over rho v U", Source: "asymptotic suction layer, Schlichting, Boundary-Layer Theory (from memory)",
		Got: suction(far).friction / (far / 3), Want: 1, Tolerance: 1e-5, Why: "a limit, tried at a wall Reynolds number of 1e7"})
	published.Check(t, published.Row{Name: "weak suction, friction", Source: "Berman 1953, J. Appl. Phys. 24:1232: u/U = 1.5 (1 - y^2) (1 - Re/420 (2 - 7 y^2 - 7 y^4)), so friction 1 + Re/35 (from memory)",
		Got: suction(0.05).friction, Want: 1 + 0.05/35, Tolerance: 5e-5, Why: "second-order terms and the table's spline"})
}

// The wedge's momentum factor against the beta function it stands for.
func TestWedge_Identity(t *testing.T) {
	for m := 0.0; m < 0.999; m += 0.05 {
		k := 2 * (1 - m)
		i := math.Gamma(1/k) * math.Gamma(0.5) / math.Gamma(1/k+0.5) / k
		beta := (1 - m) / (2 - m) * i * i
		p := newWedge(m).in(profile{friction: math.Pi * math.Pi / 12, beta: math.Pi * math.Pi / 8})
		assert.InEpsilon(t, beta, p.beta, 0.004)
		assert.InEpsilon(t, beta*(2-m)/3, p.friction, 0.006)
	}
	p := newWedge(1).in(profile{friction: math.Pi * math.Pi / 12, beta: math.Pi * math.Pi / 8})
	assert.InEpsilon(t, math.Pi/2, p.beta, 1e-7)
	assert.InEpsilon(t, math.Pi/6, p.friction, 1e-7)
}

func TestProfiles_Slopes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := rapid.Float64Range(0.01, 500).Draw(t, "re")
		h := 1e-5 * (1 + re)
		for _, f := range []func(float64) profile{suction, blowing, func(x float64) profile { return newWedge(0.7).in(blowing(x)) }} {
			a, p, b := f(re-h), f(re), f(re+h)
			assert.InDelta(t, (b.friction-a.friction)/(2*h), p.frictionSlope, 1e-5)
			assert.InDelta(t, (b.beta-a.beta)/(2*h), p.betaSlope, 1e-5)
		}
	})
}

// The Newton rows are the slopes of the residual.
func TestAssemble_Slopes(t *testing.T) {
	g, err := demoPack.geometry()
	require.NoError(t, err)
	s := newPleatSolver(g, Equations{}, standard)
	grid := s.newGrid(20)
	rapid.Check(t, func(t *rapid.T) {
		flow := rapid.Float64Range(0.01, 0.2).Draw(t, "flow")
		u := make([]float64, len(grid.u))
		for i := range u {
			u[i] = 1 - grid.points[i].x/g.depth + rapid.Float64Range(-0.1, 0.1).Draw(t, "off")
		}
		residual := func(j int, by float64) float64 {
			copy(grid.u, u)
			grid.u[j] += by
			s.assemble(grid, flow, 1)
			return grid.points[10].residual
		}
		s.assemble(grid, flow, 1)
		const h = 1e-6
		for j, pick := range map[int]func(*pleatPoint) float64{
			9: func(p *pleatPoint) float64 { return p.below }, 10: func(p *pleatPoint) float64 { return p.at }, 11: func(p *pleatPoint) float64 { return p.above },
		} {
			slope := (residual(j, h) - residual(j, -h)) / (2 * h)
			residual(j, 0)
			scale := math.Abs(grid.points[10].at)
			assert.InDelta(t, slope/scale, pick(&grid.points[10])/scale, 1e-4, "by u[%d]", j)
		}
	})
}

func TestPackSolve_AllTerms_Published(t *testing.T) {
	source, rows := published.Table(t, "pleat_cfd.csv")
	for _, row := range rows {
		p, v := cfdPack(t, row)
		r, err := p.Solve(v, standard)
		require.NoError(t, err)
		assert.True(t, r.Converged)
		trust, _ := p.PleatTrust(v, r.Drop, standard)
		published.Check(t, published.Row{Name: row["pleats"] + " pleats, all terms", Source: source, Got: float64(r.Drop), Want: row.Float(t, "dp_extrapolated_pa"),
			Tolerance: trust, Relative: true, Why: "two channels in one dimension against a plane flow that is itself good to some 2 %"})
	}
}

// With the same flow evenly drawn off, a loss-free upstream gap keeps its total
// pressure: the terms of strong suction add up to Bernoulli's equation.
func TestSuction_Bernoulli_Identity(t *testing.T) {
	// beta d(q^2/h)/h + friction 12 mu q/h^3 with friction Re/3, Re = rho v h/(2 mu),
	// -dq = 2 s v dx: rho (2 q q'/h^2 - q^2 h'/h^3) - rho q q'/h^2 = rho U U'.
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.Float64Range(0.1, 3)
		q, dq, h, dh, rho := f.Draw(t, "q"), -f.Draw(t, "dq"), f.Draw(t, "h"), -f.Draw(t, "dh"), f.Draw(t, "rho")
		mu := 1e-12
		re := rho * (-dq / 2) * h / (2 * mu)
		p := suction(re)
		loss := p.beta*rho*(2*q*dq/(h*h)-q*q*dh/(h*h*h)) + p.friction*12*mu*q/(h*h*h)
		u, du := q/h, dq/h-q*dh/(h*h)
		assert.InDelta(t, rho*u*du, loss, 1e-6*(1+math.Abs(loss))*1e2)
	})
}

func TestPackSolve_Golden(t *testing.T) {
	for _, c := range []struct {
		pleats int
		depth  units.Length
		want   float64 // Pa
	}{{15, 0.019, 68.49}, {40, 0.019, 35.47}, {80, 0.019, 25.445}, {32, 0.09, 14.077}} {
		p := Pack{Width: 0.508, Pleats: c.pleats, Depth: c.depth, Resistance: 60}
		r, err := p.Solve(1.524, standard)
		require.NoError(t, err)
		assert.InDelta(t, c.want, float64(r.Drop), 0.01, "%d pleats", c.pleats)
	}
}

// 24 pleats over 0.508 m: a pitch of 21.167 mm and a mouth 2 x 0.8 + 1.5 mm narrower,
// 18.067 mm; air of 2.54 m/s is 2.976 m/s in it, and 1.2014 x 2.976^2/2 = 5.32 Pa is
// 0.45 x 5.32/26 = 9.2 % of a drop of 26 Pa. At 1.524 m/s it is 1.915 Pa: under 5 % of
// a drop of 18 Pa. A law of no pack has the least.
func TestPleatTrust(t *testing.T) {
	p := Pack{Width: 0.508, Pleats: 24, Depth: 0.112, MediaThickness: 0.0008, FoldGap: 0.0015, Resistance: 40}
	a := standard
	a.Density = 1.2014
	k, head := p.PleatTrust(2.54, 26, a)
	assert.InEpsilon(t, 5.32, float64(head), 1e-3)
	assert.InEpsilon(t, 0.0921, k, 2e-3)
	k, _ = p.PleatTrust(1.524, 18, a)
	assert.Equal(t, LeastPleatTrust, k)
	assert.Equal(t, LeastPleatTrust, Law{}.PleatTrust(2.54, a))
	assert.Equal(t, LeastPleatTrust, Law{Pack: &p}.PleatTrust(0, a))
}
