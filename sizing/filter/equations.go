package filter

// Equations chooses the terms of the two-channel equations. The zero value is
// the full set.
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

// gapTerms is what one cell brings to its two points: friction multiples and
// momentum fluxes of both gaps, each momentum with its slopes by u at the cell's
// first and second point; slopeU and slopeD are the friction multiples' slopes
// by the second point's u (the first point's is the opposite).
type gapTerms struct {
	frictionU, frictionD              float64
	slopeU, slopeD                    float64
	momentumU, momentumU1, momentumU2 float64
	momentumD, momentumD1, momentumD2 float64
}

// gap evaluates a cell between flow shares u1 and u2. Momentum flux over the
// pitch's flow: beta rho u^2 flow/h.
func (s *pleatSolver) gap(c *pleatCell, u1, u2, flow, inertia float64) gapTerms {
	t := gapTerms{frictionU: 1, frictionD: 1}
	if s.terms.NoInertia {
		return t
	}
	up := (u1 + u2) / 2
	down := 1 - up
	mU := developedMomentum * inertia * c.inertU * flow * up
	mD := developedMomentum * inertia * c.inertD * flow * down
	t.momentumU, t.momentumU1, t.momentumU2 = mU*up, mU, mU
	t.momentumD, t.momentumD1, t.momentumD2 = mD*down, -mD, -mD
	return t
}

// drop is the static drop from mouth to mouth, by way of the first cell's media:
// half a cell of upstream gap, the media, and the whole downstream gap.
func (s *pleatSolver) drop(g *pleatGrid, flow float64) float64 {
	last := g.n - 1
	first, end := &g.cells[0], &g.cells[last]
	l := s.gap(first, g.u[0], g.u[1], flow, 1)
	across := first.media * (g.u[0] - g.u[1])
	mouthU := s.mouthMomentum(first.inertU * first.hu * g.points[0].perHu * flow)
	up := s.halfFriction(g.points[0].perHu, first.hu, first.width)*l.frictionU*(1+(g.u[0]+g.u[1])/2)/2 +
		(l.momentumU-mouthU)*2/(1/g.points[0].perHu+first.hu)
	down := 0.0
	for i := 1; i < g.n; i++ {
		p := &g.points[i]
		r := s.gap(&g.cells[i], g.u[i], g.u[i+1], flow, 1)
		down += p.frictionD/2*(l.frictionD+r.frictionD)*(1-g.u[i]) + p.perHd*(r.momentumD-l.momentumD)
		l = r
	}
	mouthD := s.mouthMomentum(end.inertD * end.hd * g.points[g.n].perHd * flow)
	down += s.halfFriction(g.points[g.n].perHd, end.hd, end.width)*l.frictionD*(1-(g.u[last]/4)) +
		(mouthD-l.momentumD)*2/(1/g.points[g.n].perHd+end.hd)
	return flow * (up + across + down)
}

// halfFriction is 12 mu times the integral of h^-3 over the half cell at a mouth.
func (s *pleatSolver) halfFriction(perMouth, h, width float64) float64 {
	return 12 * s.mu * width / 2 * meanInverseCube(1/perMouth, h)
}

func (s *pleatSolver) mouthMomentum(m float64) float64 {
	if s.terms.NoInertia {
		return 0
	}
	return developedMomentum * m
}
