package duct

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/leastsquares"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// GrilleLossCoefficient is zeta on the face velocity of a thin perforated or
// stamped face of free-area ratio f:
//
//	zeta = (0.707 sqrt(1 - f) + 1 - f)^2/f^2
//
// Source: Idelchik, diagram 8-1 (thin sharp-edged grid in a straight duct, Re
// through the holes above 1e5). f is above 0 and up to 1; zeta is +Inf at 0 and
// below, and 0 above 1. A grille that draws from a room, and a bar grille with
// straight blades, drop less than this; blades at an angle drop more.
func GrilleLossCoefficient(freeArea float64) float64 {
	if !(freeArea > 0) {
		return math.Inf(1)
	}
	closed := max(1-freeArea, 0)
	root := 0.707*math.Sqrt(closed) + closed
	return root * root / (freeArea * freeArea)
}

// GrossArea is the nominal opening, width x height, m2 inside.
func (g Grille) GrossArea() units.Area { return units.Area(float64(g.Width) * float64(g.Height)) }

// FreeAreaShare is net free area over gross area, 0 to 1: as entered, else a
// usual one for the style (from memory or common practice; source names which),
// and then assumed is true.
func (g Grille) FreeAreaShare() (share float64, assumed bool, source message.ID) {
	switch {
	case g.FreeArea > 0:
		return g.FreeArea, false, "as entered"
	case g.Style == Bar:
		return 0.75, true, "bar grille, usual 0.70 to 0.80, common practice, no source"
	case g.Style == Perforated:
		return 0.50, true, "perforated face, usual 0.40 to 0.60, common practice, no source"
	}
	return 0.65, true, "stamped face, usual 0.60 to 0.70, common practice, no source"
}

// NetFreeArea is the open part of the gross area: GrossArea times
// FreeAreaShare.
func (g Grille) NetFreeArea() units.Area {
	share, _, _ := g.FreeAreaShare()
	return g.GrossArea() * units.Area(share)
}

// FaceVelocity is airflow over gross area, m/s inside; Inf without an area.
func (g Grille) FaceVelocity(q units.Flow) units.Speed {
	return units.Speed(float64(q) / float64(g.GrossArea()))
}

// FreeAreaVelocity is airflow over net free area, m/s inside; Inf without an
// area.
func (g Grille) FreeAreaVelocity(q units.Flow) units.Speed {
	return units.Speed(float64(q) / float64(g.NetFreeArea()))
}

// GrilleLaw is the drop of a grille in standard air: dp = A q + B q^2.
type GrilleLaw struct {
	Linear    float64 // A, Pa per m3/s
	Quadratic float64 // B, Pa per (m3/s)^2
	// Assumed is true where a usual free area is used for an unknown one.
	Assumed bool
	Source  message.Message
	// Residual is the largest miss of the law at a rating point.
	Residual units.Pressure
}

// Law is the grille's drop from its rating where it has one, else from its free
// area. Two or more rating points are fitted by non-negative least squares in
// drop; one point is extended by the square of the airflow, and Source states
// that.
func (g Grille) Law() (GrilleLaw, error) {
	if len(g.Rating) > 0 {
		return g.ratedLaw()
	}
	law, share, source, err := g.unrated()
	if err == nil {
		law.Source = message.New("Idelchik, diagram 8-1, at a free area of {share} ({source})", "share", message.Fixed(share, 2), "source", source)
	}
	return law, err
}

// Coefficients are A and B of Law in some air.
func (g Grille) Coefficients(a air.Properties) (linear, quadratic float64, err error) {
	law := GrilleLaw{}
	if len(g.Rating) > 0 {
		law, err = g.ratedLaw()
	} else {
		law, _, _, err = g.unrated()
	}
	linear, quadratic = law.Coefficients(a)
	return linear, quadratic, err
}

// unrated is the law by the free area, but for its source.
func (g Grille) unrated() (law GrilleLaw, share float64, source message.ID, err error) {
	if !(g.Width > 0 && g.Height > 0) {
		return law, 0, "", message.Errorf("grille {width} x {height}: want a width and a height above zero", "width", g.Width, "height", g.Height)
	}
	share, law.Assumed, source = g.FreeAreaShare()
	if !(share > 0 && share <= 1) {
		return law, 0, "", message.Errorf("grille free area {share}: want a share above 0 and at most 1", "share", share)
	}
	area := float64(g.GrossArea())
	law.Quadratic = GrilleLossCoefficient(share) * float64(air.StandardDensity) / (2 * area * area)
	return law, share, source, nil
}

func (g Grille) ratedLaw() (GrilleLaw, error) {
	for i, p := range g.Rating {
		if !(p.Airflow > 0 && p.Drop > 0) || math.IsInf(float64(p.Airflow), 0) || math.IsInf(float64(p.Drop), 0) {
			return GrilleLaw{}, message.Errorf("grille rating point {point} ({airflow}, {drop}): want an airflow and a drop above zero", "point", i+1, "airflow", p.Airflow, "drop", p.Drop)
		}
	}
	law := GrilleLaw{Source: message.New("fitted to {points} rating points", "points", len(g.Rating))}
	if len(g.Rating) == 1 {
		p := g.Rating[0]
		law.Source = message.New("one rating point, carried by the square of the airflow")
		law.Quadratic = float64(p.Drop) / (float64(p.Airflow) * float64(p.Airflow))
		return law, nil
	}
	flows, drops := make([]float64, len(g.Rating)), make([]float64, len(g.Rating))
	for i, p := range g.Rating {
		flows[i], drops[i] = float64(p.Airflow), float64(p.Drop)
	}
	law.Linear, law.Quadratic = leastsquares.Quadratic(flows, drops)
	for _, p := range g.Rating {
		miss := law.Drop(p.Airflow, air.Standard()) - p.Drop
		law.Residual = max(law.Residual, units.Pressure(math.Abs(float64(miss))))
	}
	return law, nil
}

// Drop is the law in other air, with the sign of q: the linear part goes with
// viscosity and the square part with density.
func (l GrilleLaw) Drop(q units.Flow, a air.Properties) units.Pressure {
	linear, quadratic := l.Coefficients(a)
	v := float64(q)
	return units.Pressure(linear*v + quadratic*v*math.Abs(v))
}

// Coefficients are A, Pa per m3/s, and B, Pa per (m3/s)^2, in other air; see
// Drop.
func (l GrilleLaw) Coefficients(a air.Properties) (linear, quadratic float64) {
	standard := air.Standard()
	return l.Linear * a.Viscosity / standard.Viscosity, l.Quadratic * float64(a.Density/standard.Density)
}
