package blower

import (
	"cmp"
	"math"
	"slices"

	"returnbench/sizing/units"
)

// WithUsualWatts fills the rows of a tap that give no watts, and reports whether
// there were any beyond the rows that do. Rows between two with watts stay open:
// a Curve reads across them.
//
// A tap without any watts gets those of the generic tap of its motor kind whose
// airflow is the nearest share of the strongest tap's: the efficacy is
// GenericEfficacy, at the rated static, and the shape is that of Generic. Rows
// beyond those with watts get the watts per airflow of the nearest row that has
// them.
func WithUsualWatts(m Motor, t Tap, strongest units.Flow, rated units.Pressure) (Tap, bool) {
	points := slices.Clone(t.Points)
	slices.SortStableFunc(points, func(a, b Point) int { return cmp.Compare(a.ExternalStatic, b.ExternalStatic) })
	t.Points = points
	first := slices.IndexFunc(points, func(p Point) bool { return p.Power > 0 })
	if first < 0 {
		usual := genericNear(m, t, strongest, rated)
		at := usual.watts(t.airflowAt(rated), rated)
		for i := range points {
			points[i].Power = units.Power(at * usual.wattsShare(points[i].ExternalStatic.In(rated)))
		}
		return t, true
	}
	last := first
	for i, p := range points {
		if p.Power > 0 {
			last = i
		}
	}
	filled := first > 0 || last < len(points)-1
	for i := range points {
		near := points[min(max(i, first), last)]
		if points[i].Power == 0 && (i < first || i > last) && near.Airflow > 0 {
			points[i].Power = units.Power(float64(near.Power) * points[i].Airflow.In(near.Airflow))
		}
	}
	return t, filled
}

// GenericEfficacy is the watts per airflow that WithUsualWatts takes for a tap at
// the rated static. Invented to be plausible, no source. The federal test of
// coil-only units takes 0.365 W/cfm, and the newer one 0.406 to 0.441 (10 CFR 430,
// appendixes M and M1, from memory).
func GenericEfficacy(m Motor, t Tap, strongest units.Flow, rated units.Pressure) units.FanEfficacy {
	s := genericNear(m, t, strongest, rated)
	q := t.airflowAt(rated)
	return units.FanEfficacy(s.watts(q, rated) / float64(q))
}

// airflowAt is the tap's airflow at a static, by straight lines between its rows and
// held at its ends.
func (t Tap) airflowAt(static units.Pressure) units.Flow {
	q, err := NewCurve(t.Points)
	if err != nil {
		return 0
	}
	return q.LinearAirflow(static)
}

// genericNear is the generic tap whose share of the design airflow is nearest to
// the tap's share of the strongest one.
func genericNear(m Motor, t Tap, strongest units.Flow, rated units.Pressure) shape {
	if m == "" {
		m = PSC
	}
	shapes := genericShapes(m)
	share := t.airflowAt(rated).In(strongest)
	best := shapes[0]
	for _, s := range shapes {
		if math.Abs(s.flowAtRating()-share) < math.Abs(best.flowAtRating()-share) {
			best = s
		}
	}
	return best
}

// StrongestAt is the largest airflow of the taps at a static.
func (t Table) StrongestAt(static units.Pressure) units.Flow {
	most := units.Flow(0)
	for _, tap := range t.Taps {
		most = max(most, tap.airflowAt(static))
	}
	return most
}

// watts are those at the rating, of a tap that moves q there; see Generic.
func (s shape) watts(q units.Flow, rated units.Pressure) float64 {
	const inside = UsualRatedStatic
	return s.efficacy.SI() * float64(q) * (rated + inside).In(UsualRatedStatic+inside)
}

// wattsShare is the share of the watts at the rating, by straight lines over the
// share of the rated static, held at its ends.
func (s shape) wattsShare(static float64) float64 {
	rows := s.rows
	i := slices.IndexFunc(rows, func(r share) bool { return r.static >= static })
	switch {
	case i < 0:
		return rows[len(rows)-1].watts
	case i == 0:
		return rows[0].watts
	}
	a, b := rows[i-1], rows[i]
	return a.watts + (b.watts-a.watts)*(static-a.static)/(b.static-a.static)
}
