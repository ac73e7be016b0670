package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

const (
	coarsestGrid = 20   // cells
	finestGrid   = 2560 // cells
	gridLimit    = 1e-3 // relative error of the drop, above which it has not converged
	gridTarget   = 2e-5 // below which no finer grid is tried; extrapolation then holds 1e-5
	endGrading   = 0.8  // cells at mouth and fold are 1 - endGrading of the mean
	newtonSteps  = 40
	newtonLimit  = 2e-5 // of the mean step in flow share; the next is of the order of its square
	// mostWork, in cells assembled, is ten times what any usual pack takes and a few
	// milliseconds. Media that is next to open would take a hundred times as much on
	// the finest grids, mostly in vain: near the fold u falls within less than a cell.
	mostWork = 30000
)

// pleatSolver solves the two-channel equations of one pack; u is the share
// qu/(V P) of the flow still in the upstream gap.
type pleatSolver struct {
	pleatGeometry
	terms   Equations
	rho, mu float64
	steps   int
	work    int          // cells assembled in a solve
	limit   int          // of work, mostWork
	grids   []*pleatGrid // by fineness; each keeps its last answer
}

// pleatGrid is one grid: n cells, n+1 points.
type pleatGrid struct {
	n         int
	points    []pleatPoint
	cells     []pleatCell
	u         []float64 // flow share at the points
	step      []float64
	upper     []float64 // Thomas elimination
	converged bool      // u is an answer for some flow
}

// pleatPoint holds integrals over the control volume of a point, which reaches
// from the middle of the cell before to the middle of the cell after.
type pleatPoint struct {
	x                    float64
	perHu, perHd         float64 // 1/h, 1/m
	frictionU, frictionD float64 // 12 mu * integral of h^-3, Pa s/m2 per m2/s
	residual             float64
	below, at, above     float64 // row of the Jacobian
}

type pleatCell struct {
	width, x       float64
	media          float64 // R/(2 s width)
	inertU, inertD float64 // rho/h, to be multiplied by beta
	hu, hd         float64
	wallU          float64 // wall Reynolds number over the flow through the cell, s/m2
	wallD          float64 // the same over the flow blown in up to the cell
	wedge          wedge
	jet            float64 // axial momentum through the media over the square of that flow
}

func newPleatSolver(g pleatGeometry, e Equations, a air.Properties) *pleatSolver {
	return &pleatSolver{pleatGeometry: g, terms: e, rho: float64(a.Density), mu: a.Viscosity, limit: mostWork}
}

// solve refines until the drop extrapolated from two grids is good.
func (s *pleatSolver) solve(face float64) PackResult {
	r := PackResult{
		MediaAreaRatio: 2 * s.slant / s.pitch,
		Slant:          units.Length(s.slant),
		MediaVelocity:  units.Speed(face * s.pitch / (2 * s.slant)),
	}
	if face == 0 {
		r.Converged = true
		return r
	}
	s.steps, s.work = 0, 0
	flow := face * s.pitch // m2/s per unit length of pleat
	var previous *pleatGrid
	var coarse float64
	for level, n := 0, coarsestGrid; n <= finestGrid; level, n = level+1, 2*n {
		g := s.grid(level, n)
		if !s.converge(g, previous, flow) {
			r.Converged = false // with the drop of the coarser grids
			break
		}
		fine := s.drop(g, flow)
		r.Drop = units.Pressure(fine)
		if previous != nil {
			// Central differences: the error falls fourfold a grid.
			r.Drop = units.Pressure(fine + (fine-coarse)/3)
			r.GridError = math.Abs(fine-coarse) / 3 / math.Abs(fine)
			r.Converged = r.GridError < gridLimit && r.Drop > 0
			if r.GridError < gridTarget {
				break
			}
		}
		previous, coarse = g, fine
	}
	r.Iterations = s.steps
	return r
}

// grid is the grid of a level, laid when first asked for.
func (s *pleatSolver) grid(level, n int) *pleatGrid {
	if level == len(s.grids) {
		s.grids = append(s.grids, s.newGrid(n))
	}
	return s.grids[level]
}

// newGrid lays n cells, finer towards mouth and fold where the flow turns:
// x/L = (1-k) z + k z^2 (3 - 2z), z uniform, k endGrading.
func (s *pleatSolver) newGrid(n int) *pleatGrid {
	numbers := make([]float64, 3*(n+1))
	g := &pleatGrid{
		n: n, points: make([]pleatPoint, n+1), cells: make([]pleatCell, n),
		u: numbers[:n+1], step: numbers[n+1 : 2*(n+1)], upper: numbers[2*(n+1):],
	}
	place := func(z float64) float64 { return s.depth * z * (1 - endGrading + endGrading*z*(3-2*z)) }
	both := s.mouth + s.fold // hu + hd
	taper := (s.fold - s.mouth) / s.depth
	stretch := s.slant / s.depth
	for i := range g.points {
		p := &g.points[i]
		p.x = place(float64(i) / float64(n))
		hu := s.mouth + taper*p.x
		p.perHu, p.perHd = 1/hu, 1/(both-hu)
	}
	for i := range g.cells {
		c := &g.cells[i]
		c.width = g.points[i+1].x - g.points[i].x
		c.x = (g.points[i].x + g.points[i+1].x) / 2
		c.hu = s.mouth + taper*c.x
		c.hd = both - c.hu
		c.media = s.resistance / (2 * stretch * c.width)
		c.inertU, c.inertD = s.rho/c.hu, s.rho/c.hd
		// Media velocity is flow * through/(2 stretch width).
		wall := 2 * stretch * c.width
		c.wallU = s.rho * c.hu / (2 * s.mu * wall)
		c.wallD = s.rho * c.hd / (4 * s.mu * stretch * c.x)
		c.wedge = newWedge(-taper * c.x / c.hd)
		c.jet = s.rho * (s.mouth - s.fold) / 2 / s.slant / wall
	}
	for i := 1; i < n; i++ {
		l, r := &g.cells[i-1], &g.cells[i]
		w := 12 * s.mu * (r.x - l.x)
		g.points[i].frictionU = w * meanInverseCube(l.hu, r.hu)
		g.points[i].frictionD = w * meanInverseCube(l.hd, r.hd)
	}
	return g
}

// meanInverseCube is the exact mean of h^-3 where h runs straight from a to b:
// (a + b)/(2 a^2 b^2).
func meanInverseCube(a, b float64) float64 {
	ab := a * b
	return (a + b) / (2 * ab * ab)
}

// converge finds u on g by damped Newton steps, starting from the coarser grid's
// answer, from the answer for another flow, or from the answer without inertia.
// Where that does not converge, the inertia is increased in steps.
func (s *pleatSolver) converge(g, previous *pleatGrid, flow float64) bool {
	if previous != nil {
		g.startFrom(previous)
	}
	if (previous != nil || g.converged) && s.newton(g, flow, 1) {
		return true
	}
	g.startLinear()
	g.converged = false
	if !s.newton(g, flow, 0) {
		return false
	}
	g.converged = s.newton(g, flow, 1) || s.continueInertia(g, flow)
	return g.converged
}

// continueInertia raises the inertia terms from zero to full, with a step that
// halves on failure and grows on success.
func (s *pleatSolver) continueInertia(g *pleatGrid, flow float64) bool {
	g.startLinear()
	if !s.newton(g, flow, 0) {
		return false
	}
	good := append([]float64(nil), g.u...)
	for share, step := 0.0, 0.25; share < 1; {
		next := math.Min(1, share+step)
		if s.newton(g, flow, next) {
			share, step = next, 2*step
			copy(good, g.u)
			continue
		}
		copy(g.u, good)
		if step /= 2; step < 1.0/64 {
			return false
		}
	}
	return true
}

func (g *pleatGrid) startLinear() {
	for i := range g.u {
		g.u[i] = 1 - g.points[i].x/g.points[g.n].x
	}
}

// startFrom takes over the answer of a grid with half as many cells, by cubic
// interpolation midway between its points.
func (g *pleatGrid) startFrom(coarse *pleatGrid) {
	c := coarse.u
	for i := range c {
		g.u[2*i] = c[i]
	}
	last := len(c) - 1
	for i := 0; i < last; i++ {
		mid := (c[i] + c[i+1]) / 2
		if i > 0 && i+2 <= last {
			mid = (9*(c[i]+c[i+1]) - c[i-1] - c[i+2]) / 16
		}
		g.u[2*i+1] = mid
	}
}

// newton reduces the residual of g to zero with the given share of the inertia,
// halving a step that does not lower it. It gives up at the solver's limit of
// work.
func (s *pleatSolver) newton(g *pleatGrid, flow, inertia float64) bool {
	norm := s.assemble(g, flow, inertia)
	for k := 0; k < newtonSteps && s.work <= s.limit; k++ {
		s.steps++
		size := g.eliminate()
		if math.IsNaN(size) {
			return false
		}
		if size < newtonLimit {
			g.move(1)
			return true
		}
		fraction, applied := 1.0, 0.0
		for {
			g.move(fraction - applied)
			applied = fraction
			if next := s.assemble(g, flow, inertia); next <= norm*(1-fraction/10) {
				norm = next
				break
			}
			if fraction /= 2; fraction < 1e-3 || s.work > s.limit {
				return false
			}
		}
	}
	return false
}

// move takes a share of the Newton step.
func (g *pleatGrid) move(share float64) {
	for i := range g.u {
		g.u[i] += share * g.step[i]
	}
}

// assemble writes each point's balance of pressure difference and its Jacobian,
// and gives the largest scaled residual.
//
//	(pu - pd) after - (pu - pd) before = - upstream loss + downstream loss
//
// divided by the pitch's flow; the left side is -R/(2 s) du/dx at the cells.
func (s *pleatSolver) assemble(g *pleatGrid, flow, inertia float64) float64 {
	s.work += g.n
	worst := 0.0
	u := g.u
	l := s.gap(&g.cells[0], u[0], u[1], flow, inertia)
	for i := 1; i < g.n; i++ {
		p := &g.points[i]
		r := s.gap(&g.cells[i], u[i], u[i+1], flow, inertia)
		before, after := g.cells[i-1].media, g.cells[i].media
		here, rest := u[i], 1-u[i]
		fU, fD := p.frictionU/2, p.frictionD/2
		frictionU, frictionD := fU*(l.frictionU+r.frictionU), fD*(l.frictionD+r.frictionD)
		jet, slopeL, slopeR := (p.perHu+p.perHd)/2*(l.jet+r.jet), (p.perHu+p.perHd)/2*l.jetSlope, (p.perHu+p.perHd)/2*r.jetSlope
		betaU, change := p.perHu*(l.betaU+r.betaU)/2, p.perHu*(r.fluxU-l.fluxU)
		betaL, betaR := change*l.betaSlope/2, change*r.betaSlope/2
		p.residual = after*(u[i+1]-here) - before*(here-u[i-1]) - jet -
			frictionU*here - betaU*(r.fluxU-l.fluxU) +
			frictionD*rest + p.perHd*(r.momentumD-l.momentumD)
		fU, fD = fU*here, fD*rest
		p.below = before - fU*l.frictionU1 + fD*l.frictionD1 + betaU*l.fluxSlope - betaL - p.perHd*l.momentumD1 - slopeL
		p.above = after - fU*r.frictionU2 + fD*r.frictionD2 - betaU*r.fluxSlope + betaR + p.perHd*r.momentumD2 + slopeR
		p.at = -before - after - frictionU - frictionD -
			fU*(l.frictionU2+r.frictionU1) + fD*(l.frictionD2+r.frictionD1) -
			betaU*(r.fluxSlope-l.fluxSlope) + betaL - betaR +
			p.perHd*(r.momentumD1-l.momentumD2) + slopeL - slopeR
		worst = max(worst, math.Abs(p.residual)/(before+after+frictionU+frictionD))
		l = r
	}
	if math.IsNaN(worst) {
		return math.Inf(1)
	}
	return worst
}

// eliminate solves the tridiagonal rows for the Newton step (Thomas) and gives
// its largest entry; mouth and fold are fixed.
func (g *pleatGrid) eliminate() float64 {
	g.step[0], g.step[g.n], g.upper[0] = 0, 0, 0
	for i := 1; i < g.n; i++ {
		p := &g.points[i]
		d := 1 / (p.at - p.below*g.upper[i-1])
		g.upper[i] = p.above * d
		g.step[i] = (-p.residual - p.below*g.step[i-1]) * d
	}
	size := 0.0
	for i := g.n - 1; i > 0; i-- {
		g.step[i] -= g.upper[i] * g.step[i+1]
		size += math.Abs(g.step[i])
	}
	return size / float64(g.n)
}
