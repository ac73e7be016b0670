package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// DefaultFoldGap is the gap left inside a fold, and DefaultMediaThickness the
// thickness of the media, where the filter does not say.
const (
	DefaultFoldGap        = 1.5 * units.Millimetre
	DefaultMediaThickness = 0.8 * units.Millimetre
)

// PermeabilityDrop is the drop at which ASTM D737 reads a fabric's air
// permeability.
const PermeabilityDrop = 125 * units.Pascal

// ResistanceFromPermeability is R = 125 Pa / K: the media resistance in
// Pa/(m/s) of a fabric whose air permeability K (flow per area, m/s) was read at
// 125 Pa by ASTM D737. It takes the media as Darcian, drop in proportion to
// velocity, which holds for filter media at the velocities of a pleated pack
// (well under 1 m/s).
func ResistanceFromPermeability(k units.Permeability) units.MediaResistance {
	return units.MediaResistance(float64(PermeabilityDrop) / float64(k))
}

// Pack is a pleated pack as made.
type Pack struct {
	Width          units.Length          // across the pleats
	Pleats         int                   // in the width
	Depth          units.Length          // of a pleat, mouth to fold
	MediaThickness units.Length          // 0: DefaultMediaThickness
	FoldGap        units.Length          // 0: DefaultFoldGap
	Resistance     units.MediaResistance // drop over the velocity through the media, Pa s/m inside
	Equations      Equations             // zero: all terms
}

// PackResult is the answer for one face velocity.
type PackResult struct {
	Drop           units.Pressure // static, mouth of the upstream gap to mouth of the downstream one
	MediaAreaRatio float64        // media area per face area
	Slant          units.Length   // length of one media wall, mouth to fold
	MediaVelocity  units.Speed    // mean through the media
	Converged      bool           // the Newton steps and the grids settled
	Iterations     int            // Newton steps, all grids together
	GridError      float64        // relative, of the drop, from the last two grids
}

// pleatGeometry is one pitch of a pack in SI.
type pleatGeometry struct {
	pitch, depth, thickness, foldGap float64 // m
	resistance                       float64 // Pa s/m
	mouth, fold                      float64 // m: upstream gap at x = 0 and x = L
	slant                            float64 // m
}

// geometry is the layout of a pack whose media is known too.
func (p Pack) geometry() (pleatGeometry, error) {
	g, err := p.layout()
	if err != nil {
		return g, err
	}
	if !(p.Resistance > 0) || math.IsInf(float64(p.Resistance), 0) {
		return pleatGeometry{}, &FieldError{"media_resistance", float64(p.Resistance), message.New("more than zero")}
	}
	return g, nil
}

// layout checks the pack and lays out one pitch; the media's resistance has no
// part in it.
//
//	P = width/pleats   mouth = P - 2t - e   slant = sqrt(L^2 + ((P - 2t - 2e)/2)^2)
func (p Pack) layout() (pleatGeometry, error) {
	if p.Pleats < 2 || p.Pleats > 1000 {
		return pleatGeometry{}, &FieldError{"pleats", p.Pleats, message.New("2 to 1000")}
	}
	if p.MediaThickness == 0 {
		p.MediaThickness = DefaultMediaThickness
	}
	if p.FoldGap == 0 {
		p.FoldGap = DefaultFoldGap
	}
	for _, f := range []struct {
		name  string
		value float64
	}{
		{"width", float64(p.Width)}, {"pleat_depth", float64(p.Depth)}, {"media_thickness", float64(p.MediaThickness)},
		{"fold_gap", float64(p.FoldGap)},
	} {
		if !(f.value > 0) || math.IsInf(f.value, 0) {
			return pleatGeometry{}, &FieldError{f.name, f.value, message.New("more than zero")}
		}
	}
	g := pleatGeometry{
		pitch: float64(p.Width) / float64(p.Pleats), depth: float64(p.Depth),
		thickness: float64(p.MediaThickness), foldGap: float64(p.FoldGap), resistance: float64(p.Resistance),
	}
	g.mouth, g.fold = g.pitch-2*g.thickness-g.foldGap, g.foldGap
	if p.Equations.ConstantWidth {
		g.mouth = g.pitch/2 - g.thickness
		g.fold, g.slant = g.mouth, g.depth
		if !(g.mouth > 0) {
			return pleatGeometry{}, p.tooClose(g)
		}
		return g, nil
	}
	if !(g.mouth > g.fold) {
		return pleatGeometry{}, p.tooClose(g)
	}
	g.slant = math.Hypot(g.depth, (g.mouth-g.fold)/2)
	return g, nil
}

func (p Pack) tooClose(g pleatGeometry) error {
	most := int(math.Ceil(float64(p.Width)/(2*g.thickness+2*g.foldGap))) - 1
	return &FieldError{
		"pleats", message.New("{pleats} in {width}, a pitch of {pitch} mm", "pleats", p.Pleats, "width", metric(p.Width), "pitch", message.Fixed(1000*g.pitch, 2)),
		message.New("at most {most} with media {thick} mm thick and a fold gap of {gap} mm",
			"most", most, "thick", message.Fixed(1000*g.thickness, 2), "gap", message.Fixed(1000*g.foldGap, 2)),
	}
}

// Solve finds the drop of the pack at a face velocity.
//
// One pitch holds an upstream and a downstream gap with two media walls between.
// Per unit length of pleat, x from mouth (0) to fold (L):
//
//	dqu/dx = -2 s v     dqd/dx = +2 s v     v = (pu - pd)/R     s = slant/L
//	dpu/dx = -12 mu qu/hu^3 - (beta rho/hu) d(qu^2/hu)/dx,  likewise downstream
//	qu(0) = V P,  qu(L) = 0,  qd = V P - qu,  pd(L) = 0
//
// The upstream gap hu narrows from P - 2t - e to e, the downstream gap the other
// way. Friction and momentum factor are those of developed flow between walls
// that pass no air with Equations.Plain, as written here with beta 6/5; else they
// follow the flow through the walls, see Equations. PleatTrust is how far the full
// set may be off.
//
// Solved by finite volumes on two or more graded grids with damped Newton steps,
// the drop extrapolated to zero cell size; Converged reports whether the steps
// converged and GridError is below 0.1 %. Range: any pack whose gaps are open; very
// open media (under some 5 Pa s/m) in fast air may not converge, and report so
// with the drop of the grids that did: a solve ends at ten times the work of any
// usual pack. Laminar flow in the gaps is taken throughout, which holds for
// residential packs (gap Reynolds numbers up to some 2000). The drop is odd in
// the face velocity.
func (p Pack) Solve(face units.Speed, a air.Properties) (PackResult, error) {
	g, err := p.geometry()
	if err != nil {
		return PackResult{}, err
	}
	if err := checkAir(a); err != nil {
		return PackResult{}, err
	}
	v := float64(face)
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return PackResult{}, &FieldError{"face velocity", v, message.New("a finite speed")}
	}
	s := newPleatSolver(g, p.Equations, a)
	r := s.solve(math.Abs(v))
	if v < 0 {
		r.Drop, r.MediaVelocity = -r.Drop, -r.MediaVelocity
	}
	return r, nil
}

func checkAir(a air.Properties) error {
	if !(a.Density > 0) || !(a.Viscosity > 0) || math.IsInf(float64(a.Density), 0) || math.IsInf(a.Viscosity, 0) {
		return &FieldError{"air", message.New("density {density}, viscosity {viscosity} Pa s", "density", a.Density.String(), "viscosity", a.Viscosity), message.New("both above zero")}
	}
	return nil
}
