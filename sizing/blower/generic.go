package blower

import (
	"slices"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// GenericSource is the source of a generic table, shown wherever its numbers
// are.
const GenericSource message.ID = "generic blower, invented for this program: plausible for its motor kind, no maker's data"

// UsualRatedStatic is the rated external static taken where none is known:
// 0.5 in. w.c., the usual nameplate figure (common practice, no source).
const UsualRatedStatic = 0.5 * units.InchWater

// Names of the taps of a generic table.
const (
	LowTap    = "low"
	MediumTap = "medium"
	HighTap   = "high"
)

var genericTaps = map[string]message.ID{LowTap: "tap low", MediumTap: "tap medium", HighTap: "tap high"}

// GenericTap names a tap of a generic table in a sentence: nobody gave it a name.
func GenericTap(name string) message.Message {
	if id, ok := genericTaps[name]; ok {
		return message.New(id)
	}
	return message.Verbatim(name)
}

// Motors are the motor kinds, in order of age.
func Motors() []Motor { return []Motor{PSC, ConstantTorque, ConstantAirflow} }

// Generic is an invented table for when the blower's own is not at hand. At
// the rated static its cooling tap (high) moves the design airflow, exactly;
// the heating tap (medium) and the low tap move less. It includes no coil and
// no filter. A rated static of zero is taken as UsualRatedStatic, and a motor
// left open as PSC; a motor of another name gives a table without taps.
//
// The shapes are shares of the design airflow and of the watts at the rating,
// over shares of the rated static. Watts at a tap's rating are
//
//	P = w q (pr + pi) / (pu + pi)
//
// w the tap's efficacy where rated at pu = UsualRatedStatic, q its airflow at
// the rated static pr, pi = 0.5 in. w.c. the drop inside the cabinet: a blower
// rated for more static draws more. Shapes, efficacies and pi are invented to
// be plausible; no source.
func Generic(m Motor, design units.Flow, ratedStatic units.Pressure) Table {
	if m == "" {
		m = PSC
	}
	if ratedStatic == 0 {
		ratedStatic = UsualRatedStatic
	}
	t := Table{Motor: m, CoolingTap: HighTap, HeatingTap: MediumTap}
	for _, s := range genericShapes(m) {
		t.Taps = append(t.Taps, s.tap(design, ratedStatic))
	}
	return t
}

// shape is one tap in shares.
type shape struct {
	name     string
	efficacy units.FanEfficacy // of the tap at a rated static of 0.5 in. w.c.
	rows     []share
}

// share is one row: shares of the rated static, of the design airflow, and of
// the watts at the tap's rating.
type share struct{ static, flow, watts float64 }

func (s shape) tap(design units.Flow, rated units.Pressure) Tap {
	watts := s.watts(units.Flow(s.flowAtRating()*design.SI()), rated)
	t := Tap{Name: s.name}
	for _, r := range s.rows {
		t.Points = append(t.Points, Point{
			ExternalStatic: rated * units.Pressure(r.static),
			Airflow:        design * units.Flow(r.flow),
			Power:          units.Power(watts * r.watts),
		})
	}
	return t
}

func (s shape) flowAtRating() float64 {
	i := slices.IndexFunc(s.rows, func(r share) bool { return r.static == 1 })
	return s.rows[i].flow
}

func genericShapes(m Motor) []shape {
	switch m {
	case PSC:
		return pscShapes()
	case ConstantTorque:
		return constantTorqueShapes()
	case ConstantAirflow:
		return constantAirflowShapes()
	}
	return nil
}

// pscShapes: airflow falls, faster and faster; the unloaded motor draws less.
func pscShapes() []shape {
	return []shape{
		{LowTap, 0.43 * units.WattPerCFM, []share{
			{0, 0.825, 1.13}, {0.2, 0.814, 1.115}, {0.4, 0.799, 1.093}, {0.6, 0.781, 1.067}, {0.8, 0.759, 1.036},
			{1, 0.73, 1}, {1.2, 0.692, 0.955}, {1.4, 0.638, 0.9}, {1.6, 0.562, 0.83}, {1.8, 0.455, 0.745},
		}},
		{MediumTap, 0.44 * units.WattPerCFM, []share{
			{0, 0.99, 1.14}, {0.2, 0.973, 1.122}, {0.4, 0.951, 1.098}, {0.6, 0.926, 1.07}, {0.8, 0.897, 1.038},
			{1, 0.862, 1}, {1.2, 0.817, 0.955}, {1.4, 0.757, 0.902}, {1.6, 0.678, 0.838}, {1.8, 0.577, 0.763}, {2, 0.45, 0.67},
		}},
		{HighTap, 0.46 * units.WattPerCFM, []share{
			{0, 1.17, 1.15}, {0.2, 1.145, 1.13}, {0.4, 1.115, 1.105}, {0.6, 1.081, 1.075}, {0.8, 1.043, 1.04},
			{1, 1, 1}, {1.2, 0.947, 0.955}, {1.4, 0.88, 0.905}, {1.6, 0.795, 0.845}, {1.8, 0.69, 0.775}, {2, 0.56, 0.69},
		}},
	}
}

// constantTorqueShapes: the motor speeds up under load, so airflow falls less
// and watts stay near level.
func constantTorqueShapes() []shape {
	return []shape{
		{LowTap, 0.27 * units.WattPerCFM, []share{
			{0, 0.835, 0.94}, {0.2, 0.816, 0.955}, {0.4, 0.796, 0.97}, {0.6, 0.775, 0.98}, {0.8, 0.753, 0.99},
			{1, 0.73, 1}, {1.2, 0.704, 1.005}, {1.4, 0.675, 1.01}, {1.6, 0.641, 1.01}, {1.8, 0.601, 1.005}, {2, 0.552, 0.995},
		}},
		{MediumTap, 0.31 * units.WattPerCFM, []share{
			{0, 0.975, 0.94}, {0.2, 0.955, 0.955}, {0.4, 0.934, 0.97}, {0.6, 0.912, 0.98}, {0.8, 0.89, 0.99},
			{1, 0.866, 1}, {1.2, 0.84, 1.005}, {1.4, 0.811, 1.01}, {1.6, 0.778, 1.01}, {1.8, 0.739, 1.005}, {2, 0.692, 0.995},
		}},
		{HighTap, 0.36 * units.WattPerCFM, []share{
			{0, 1.115, 0.94}, {0.2, 1.094, 0.955}, {0.4, 1.072, 0.97}, {0.6, 1.049, 0.98}, {0.8, 1.025, 0.99},
			{1, 1, 1}, {1.2, 0.973, 1.005}, {1.4, 0.943, 1.01}, {1.6, 0.909, 1.01}, {1.8, 0.869, 1.005}, {2, 0.82, 0.995}, {2.4, 0.7, 0.965},
		}},
	}
}

// constantAirflowShapes: airflow holds to 1.6 times the rated static (0.8 in.
// w.c. at the usual rating) while watts climb with flow x (static + inside
// drop); from there the motor is at its limit.
func constantAirflowShapes() []shape {
	return []shape{
		{LowTap, 0.2 * units.WattPerCFM, []share{
			{0, 0.737, 0.505}, {0.4, 0.734, 0.704}, {0.8, 0.731, 0.901}, {1, 0.73, 1}, {1.2, 0.729, 1.099},
			{1.6, 0.726, 1.293}, {2, 0.72, 1.479}, {2.4, 0.68, 1.58},
		}},
		{MediumTap, 0.26 * units.WattPerCFM, []share{
			{0, 0.873, 0.505}, {0.4, 0.87, 0.704}, {0.8, 0.867, 0.901}, {1, 0.865, 1}, {1.2, 0.863, 1.098},
			{1.6, 0.858, 1.29}, {1.8, 0.85, 1.376}, {2, 0.825, 1.43}, {2.4, 0.73, 1.4},
		}},
		{HighTap, 0.32 * units.WattPerCFM, []share{
			{0, 1.01, 0.505}, {0.2, 1.008, 0.605}, {0.4, 1.006, 0.704}, {0.6, 1.004, 0.803}, {0.8, 1.002, 0.902},
			{1, 1, 1}, {1.2, 0.998, 1.098}, {1.4, 0.995, 1.194}, {1.6, 0.99, 1.287}, {1.8, 0.94, 1.315}, {2, 0.87, 1.3}, {2.4, 0.74, 1.25},
		}},
	}
}
