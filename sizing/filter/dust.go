package filter

import (
	"fmt"
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

// LoadingExponent is n of R(m) = R0 + r m^n: an engineering estimate between a
// cake that grows on a flat sheet (1) and media that clog in depth (2 and over),
// where the drop rises slowly at first.
const LoadingExponent = 1.5

// GenericCapacity is the dust that doubles a filter's clean drop at RatedFace,
// per media area: an invented estimate, for filters that print no capacity.
const GenericCapacity = 0.060 // kg/m2

// Loading is how a filter's media gains resistance with dust:
//
//	R(m) = R0 + Slope m^Exponent
//
// m the dust per media area in kg/m2, R in Pa s/m on the media velocity.
type Loading struct {
	Slope    float64
	Exponent float64
	// AreaRatio is the media area per face area that m is counted on; 1, so that
	// m is dust per face area, where the media area is not known.
	AreaRatio float64
	Assumed   bool // from GenericCapacity, not from a printed capacity
}

// Loading fits the growth of resistance. With a printed dust capacity: the drop
// at the highest rated face velocity (RatedFace when there is no rating) rises
// from clean to the final drop printed, else to the final resistance of the MERV
// test, when the capacity is held. Without: GenericCapacity doubles the clean
// drop at RatedFace. A final drop that is not above clean is taken as a change
// limit, and the capacity to double the clean drop.
func (f Filter) Loading(law Law) (Loading, error) {
	l := Loading{Exponent: LoadingExponent, AreaRatio: law.MediaAreaRatio}
	if l.AreaRatio <= 0 {
		l.AreaRatio = 1
	}
	if f.DustCapacity < 0 {
		return Loading{}, &FieldError{"dust_capacity", f.DustCapacity.String(), "more than zero, or nothing"}
	}
	v := RatedFace
	rise := float64(law.Drop(v))
	held := float64(GenericCapacity)
	l.Assumed = f.DustCapacity == 0
	if !l.Assumed {
		if !(f.face() > 0) {
			return Loading{}, &FieldError{"dust_capacity", f.DustCapacity.String() + " with no face size", "the filter's width and height"}
		}
		held = float64(f.DustCapacity) / (float64(f.face()) * l.AreaRatio)
		if law.Fit != nil {
			v = law.Fit.High
		}
		clean := law.Drop(v)
		final := f.FinalDrop
		if final == 0 {
			final, _ = FinalResistance(f.MERV)
		}
		if rise = float64(final - clean); rise <= 0 {
			rise = float64(clean)
		}
	}
	l.Slope = rise / (float64(v) / l.AreaRatio) / math.Pow(held, l.Exponent)
	return l, nil
}

// Loaded is the filter's law with dust on a face of the given area: the
// clean law and, in proportion to velocity, what the dust on the media adds,
//
//	dp(v) = dp_clean(v) + r m^n v/ratio,   m = dust/(face ratio)
//
// with the dust spread evenly over the media. Dust is Darcian, so its part goes
// with the air's viscosity.
func (f Filter) Loaded(law Law, dust units.Mass, face units.Area, a air.Properties) (Curve, error) {
	l, err := f.Loading(law)
	if err != nil {
		return Curve{}, err
	}
	if !(face > 0) {
		return Curve{}, &FieldError{"face", face.String(), "more than zero"}
	}
	if !(dust >= 0) || math.IsInf(float64(dust), 0) {
		return Curve{}, &FieldError{"dust", dust.String(), "zero or more"}
	}
	if err := checkAir(a); err != nil {
		return Curve{}, err
	}
	m := float64(dust) / (float64(face) * l.AreaRatio)
	r := l.Slope * math.Pow(m, l.Exponent) * a.Viscosity / RatingAir().Viscosity
	return law.Plus(r/l.AreaRatio, 0), nil
}

// ChangeLimit is the drop at which to change the filter, and where that limit is
// from: the filter's own final drop wins; else twice the clean drop at the face
// velocity of use (common practice, no source), but no more than the final
// resistance of the MERV test.
func (f Filter) ChangeLimit(law Law, use units.Speed) (limit units.Pressure, source string) {
	if f.FinalDrop > 0 {
		return f.FinalDrop, "the filter's final drop"
	}
	limit, source = 2*law.Drop(use), "twice the clean drop (common practice)"
	// A filter that takes as much when clean, but for rounding, is not held to it.
	if most, err := FinalResistance(f.MERV); err == nil && most < limit && most > law.Drop(use)*1.0001 {
		return most, "final resistance of the MERV test, ASHRAE 52.2-2017 table 12-1"
	}
	return limit, source
}

// Caught is the dust a filter holds back in a time: rate x share of the time
// the blower runs x share of the dust caught.
func Caught(rate units.MassRate, run, caught float64, during units.Duration) units.Mass {
	return units.Mass(float64(rate) * run * caught * float64(during)) // kg/s * s
}

// End is why a march ended.
type End string

const (
	AtDropLimit    End = "drop_limit"
	AtAirflowLimit End = "airflow_limit"
	AtTimeLimit    End = "time_limit"
	AtError        End = "error"
)

// MarchInput says how dust gathers and when the filter is to be changed.
type MarchInput struct {
	Loaded   func(units.Mass) (Curve, error) // law with dust on it, as Filter.Loaded
	Airflow  func(Curve) (units.Flow, error) // where the blower runs with that law
	Face     units.Area
	DustRate units.MassRate // reaching the filter while the blower runs
	RunShare float64        // of the time, 0 to 1; 0 means 1
	Caught   float64        // share of that dust the filter holds, 0 to 1
	Step     units.Duration // 0: one month
	Longest  units.Duration // 0: two years

	DropLimit    units.Pressure // at the airflow of the moment; 0: none
	AirflowLimit float64        // share of the clean airflow that may be lost; 0: none
}

// MarchPoint is the filter at one time.
type MarchPoint struct {
	Time    units.Duration
	Dust    units.Mass
	Airflow units.Flow
	Face    units.Speed
	Drop    units.Pressure
	Curve   Curve
}

// MarchResult is the filter's life. Points begin clean and end at the change.
type MarchResult struct {
	Points []MarchPoint
	Life   units.Duration
	End    End
	Err    error // of a callback, with End AtError; Points hold what came before
}

// lifeSplit is how often the step that crosses a limit is halved: a month to
// under three hours.
const lifeSplit = 8

// March loads the filter step by step, asking for the airflow with each law,
// until the first of the limits. The last step is halved until the time of the
// limit is known, so Life does not come in whole steps.
func March(in MarchInput) MarchResult {
	in = in.withDefaults()
	var out MarchResult
	if err := in.check(); err != nil {
		return MarchResult{End: AtError, Err: err}
	}
	clean, err := in.at(0)
	if err != nil {
		return MarchResult{End: AtError, Err: err}
	}
	out.Points = append(out.Points, clean)
	if out.End = in.over(clean, clean); out.End != "" {
		return out
	}
	for k := 1; ; k++ {
		time := min(units.Duration(k)*in.Step, in.Longest)
		next, err := in.at(time)
		if err != nil {
			out.End, out.Err = AtError, err
			return out
		}
		if end := in.over(next, clean); end != "" {
			next, out.End, out.Err = in.crossing(out.Points[len(out.Points)-1].Time, next, clean, end)
			if out.Err != nil {
				out.End = AtError
				return out
			}
		}
		out.Points, out.Life = append(out.Points, next), next.Time
		if out.End != "" {
			return out
		}
		if time >= in.Longest {
			out.End = AtTimeLimit
			return out
		}
	}
}

func (in MarchInput) withDefaults() MarchInput {
	if in.RunShare == 0 {
		in.RunShare = 1
	}
	if in.Step == 0 {
		in.Step = units.Month
	}
	if in.Longest == 0 {
		in.Longest = 2 * units.Year
	}
	return in
}

func (in MarchInput) check() error {
	for _, f := range []struct {
		name      string
		value     float64
		low, high float64
	}{
		{"face", float64(in.Face), math.SmallestNonzeroFloat64, math.MaxFloat64},
		{"dust_rate", float64(in.DustRate), 0, math.MaxFloat64},
		{"run share", in.RunShare, 0, 1},
		{"caught share", in.Caught, 0, 1},
		{"step", float64(in.Step), float64(units.Day), math.MaxFloat64},
		{"longest", float64(in.Longest), float64(units.Day), 100 * float64(units.Year)},
		{"drop limit", float64(in.DropLimit), 0, math.MaxFloat64},
		{"airflow limit", in.AirflowLimit, 0, 1},
	} {
		if !(f.value >= f.low && f.value <= f.high) {
			return &FieldError{f.name, fmt.Sprint(f.value), fmt.Sprintf("%.3g to %.3g (SI)", f.low, f.high)}
		}
	}
	return nil
}

// at is the filter after a time.
func (in MarchInput) at(time units.Duration) (MarchPoint, error) {
	p := MarchPoint{Time: time, Dust: Caught(in.DustRate, in.RunShare, in.Caught, time)}
	var err error
	if p.Curve, err = in.Loaded(p.Dust); err != nil {
		return p, err
	}
	if p.Airflow, err = in.Airflow(p.Curve); err != nil {
		return p, err
	}
	p.Face = units.Speed(float64(p.Airflow) / float64(in.Face))
	p.Drop = p.Curve.Drop(p.Face)
	return p, nil
}

// over says which limit a point is at or past.
func (in MarchInput) over(p, clean MarchPoint) End {
	switch {
	case in.DropLimit > 0 && p.Drop >= in.DropLimit:
		return AtDropLimit
	case in.AirflowLimit > 0 && p.Airflow <= units.Flow(1-in.AirflowLimit)*clean.Airflow:
		return AtAirflowLimit
	}
	return ""
}

// crossing halves the step between a time within the limits and a point past
// one, down to the point where the first limit is passed.
func (in MarchInput) crossing(within units.Duration, past, clean MarchPoint, end End) (MarchPoint, End, error) {
	for range lifeSplit {
		mid, err := in.at((within + past.Time) / 2)
		if err != nil {
			return past, end, err
		}
		if e := in.over(mid, clean); e != "" {
			past, end = mid, e
		} else {
			within = mid.Time
		}
	}
	return past, end, nil
}
