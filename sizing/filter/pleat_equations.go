package filter

// Equations chooses the terms of the two-channel equations. The zero value is
// the full set, which adds to the plain one what air passing through the gaps'
// walls does to the flow along them; none of it is fitted to a filter:
//
//   - upstream, air drawn off at the wall keeps the profile flat (beta falls from
//     6/5 to 1) and is slowed by the wall before it enters the media, so that the
//     friction grows by rho v U: at a high wall Reynolds number rho v h/(2 mu) the
//     two together are Bernoulli's equation along the gap (suction);
//   - downstream, air starts from rest at the wall, so that the profile is peaked
//     and the more so where the gap widens: beta rises from 6/5 to as much as
//     pi/2, and friction falls (blowing, newWedge);
//   - the air enters the upstream gap with an even profile (beta 1) and leaves
//     the downstream one with the profile it has;
//   - through slanting media it carries rho v^2 sin(slant) of axial momentum from
//     one gap to the other.
//
// So the equations contain friction and momentum that depend on the flow through
// the walls, the development of the profiles along the gaps, and the momentum of
// the air at the mouths. Not counted, and sized by Pack.LeftOut: the contraction
// before the mouths and the mixing of the jets behind the pack, which gives back
// part of the drop; and the folds, taken as closed, with what glue and creases
// close beside them or what an open fold lets through. Both depend on how a fold
// is pressed, which no label gives.
type Equations struct {
	// Plain takes friction and momentum factor of developed flow between walls
	// that pass no air: 12 mu q/h^3 and beta = 6/5.
	Plain bool
	// NoInertia leaves the momentum terms out; it implies Plain.
	NoInertia bool
	// ConstantWidth gives both gaps the width P/2 - t from mouth to fold, for
	// which the equations without inertia have a closed form.
	ConstantWidth bool
}

// developedMomentum is the momentum factor of a parabolic profile.
const developedMomentum = 6.0 / 5

// gapTerms is what one cell brings to its two points, over the pitch's flow.
// Each friction multiple and momentum flux comes with its slopes by u at the
// cell's first and second point.
type gapTerms struct {
	frictionU, frictionU1, frictionU2 float64
	frictionD, frictionD1, frictionD2 float64
	fluxU, fluxSlope                  float64 // momentum flux upstream over beta; slope by either u
	betaU, betaSlope                  float64 // slope by u at the first point
	momentumD, momentumD1, momentumD2 float64
	jet, jetSlope                     float64 // slope by u at the first point
}

// gap evaluates a cell between flow shares u1 and u2: momentum flux beta rho
// u^2 flow/h, and the axial momentum the air carries through the slanting media.
func (s *pleatSolver) gap(c *pleatCell, u1, u2, flow, inertia float64) (t gapTerms) {
	t.frictionU, t.frictionD = 1, 1
	if s.terms.NoInertia || inertia == 0 {
		return t
	}
	up := (u1 + u2) / 2
	mU, mD := inertia*c.inertU*flow*up, inertia*c.inertD*flow*(1-up)
	if s.terms.Plain {
		t.fluxU, t.fluxSlope, t.betaU = mU*up, mU, developedMomentum
		t.momentumD, t.momentumD1 = developedMomentum*mD*(1-up), -developedMomentum*mD
		t.momentumD2 = t.momentumD1
		return t
	}
	through := u1 - u2 // share of the flow through the cell's media
	t.fluxU, t.fluxSlope = mU*up, mU
	s.upstream(&t, c, through, flow, inertia)
	s.downstream(&t, c, 1-up, mD, flow, inertia)
	t.jet = c.jet * inertia * flow * through * through
	t.jetSlope = 2 * c.jet * inertia * flow * through
	return t
}

// upstream sets the suction profile of the upstream gap; where air flows back
// through the media, the blowing one.
func (s *pleatSolver) upstream(t *gapTerms, c *pleatCell, through, flow, inertia float64) {
	perThrough := inertia * c.wallU * flow
	re := perThrough * through
	var p profile
	if re >= 0 {
		p = suction(re)
	} else {
		p = blowing(-re)
		p.frictionSlope, p.betaSlope = -p.frictionSlope, -p.betaSlope
	}
	slope := p.frictionSlope * perThrough
	t.frictionU, t.frictionU1, t.frictionU2 = p.friction, slope, -slope
	t.betaU, t.betaSlope = p.beta, p.betaSlope*perThrough
}

// downstream sets the blowing profile of the widening downstream gap. A profile
// there is made of all the air blown in since the closed end, so its wall
// Reynolds number is of the mean blowing from there on.
func (s *pleatSolver) downstream(t *gapTerms, c *pleatCell, down, m, flow, inertia float64) {
	perFlow := inertia * c.wallD * flow
	var p profile
	if re := perFlow * down; re >= 0 {
		p = c.wedge.in(blowing(re))
	} else {
		p = suction(-re)
		p.frictionSlope, p.beta, p.betaSlope = -p.frictionSlope, developedMomentum, 0
	}
	// down falls by half of a rise of either u.
	t.frictionD = p.friction
	t.frictionD1 = -p.frictionSlope * perFlow / 2
	t.frictionD2 = t.frictionD1
	t.momentumD = p.beta * m * down
	t.momentumD1 = -p.beta*m - p.betaSlope*perFlow*m*down/2
	t.momentumD2 = t.momentumD1
}

// drop is the static drop from mouth to mouth, by way of the first cell's media:
// half a cell of upstream gap, the media, and the whole downstream gap.
func (s *pleatSolver) drop(g *pleatGrid, flow float64) float64 {
	last := g.n - 1
	first, end := &g.cells[0], &g.cells[last]
	l := s.gap(first, g.u[0], g.u[1], flow, 1)
	across := first.media * (g.u[0] - g.u[1])
	mouthU := s.mouthMomentum(1, first.inertU*first.hu*g.points[0].perHu*flow)
	up := s.halfFriction(g.points[0].perHu, first.hu, first.width)*l.frictionU*(1+(g.u[0]+g.u[1])/2)/2 +
		(l.betaU*l.fluxU-mouthU+l.jet/2)*2/(1/g.points[0].perHu+first.hu)
	down := 0.0
	for i := 1; i < g.n; i++ {
		p := &g.points[i]
		r := s.gap(&g.cells[i], g.u[i], g.u[i+1], flow, 1)
		down += p.frictionD/2*(l.frictionD+r.frictionD)*(1-g.u[i]) + p.perHd*(r.momentumD-l.momentumD-(l.jet+r.jet)/2)
		l = r
	}
	mouthD := s.mouthMomentum(s.exitFactor(l, end, g.u[last], flow), end.inertD*end.hd*g.points[g.n].perHd*flow)
	down += s.halfFriction(g.points[g.n].perHd, end.hd, end.width)*l.frictionD*(1-(g.u[last]/4)) +
		(mouthD-l.momentumD-l.jet/2)*2/(1/g.points[g.n].perHd+end.hd)
	return flow * (up + across + down)
}

// halfFriction is 12 mu times the integral of h^-3 over the half cell at a mouth.
func (s *pleatSolver) halfFriction(perMouth, h, width float64) float64 {
	return 12 * s.mu * width / 2 * meanInverseCube(1/perMouth, h)
}

// mouthMomentum is the momentum flux at a mouth: the air enters evenly (factor
// 1) unless the equations are plain.
func (s *pleatSolver) mouthMomentum(factor, m float64) float64 {
	switch {
	case s.terms.NoInertia:
		return 0
	case s.terms.Plain:
		return developedMomentum * m
	}
	return factor * m
}

// exitFactor is the momentum factor of the last cell, which the air keeps as it
// leaves.
func (s *pleatSolver) exitFactor(l gapTerms, end *pleatCell, u, flow float64) float64 {
	down := 1 - u/2
	if m := end.inertD * flow * down * down; m > 0 && l.momentumD > 0 {
		return l.momentumD / m
	}
	return developedMomentum
}
