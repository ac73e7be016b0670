package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// LoadingExponent is n of R(W) = R0 + r W^n: an engineering estimate between a
// cake that grows on a flat sheet (1) and media that clog in depth (2 and more),
// where the drop rises slowly at first.
const LoadingExponent = 1.5

// GenericCapacity is the dust that doubles a filter's clean drop at its rated
// face velocity, and the most that it holds, per media area, for filters that print no
// capacity: an invented estimate, which lets filters 1 in. deep last one to three
// months in an ordinary house and filters 4 and 5 in. deep six to twelve (common
// practice, no source).
const GenericCapacity = 0.032 // kg/m2

// changeOnly is how many times the clean drop at the rated face velocity a
// printed final drop must be to be used for the effect of dust; below that it
// is a change limit only.
const changeOnly = 1.5

// Loading is how a filter's media gains resistance with dust:
//
//	R(W) = R0 + Slope W^Exponent
//
// W the dust per media area in kg/m2, R in Pa s/m on the media velocity.
type Loading struct {
	Slope     float64 // r, Pa s/m per (kg/m2)^Exponent
	Exponent  float64 // n
	AreaRatio float64 // media area per nominal face area
	Capacity  float64 // most dust per media area, kg/m2
	Assumed   bool    // Capacity is GenericCapacity, not printed
}

// Loading fits the growth of resistance to printed figures, which are all for
// standard air wherever the house stands. With a printed dust capacity: the drop
// at the highest rated face velocity (RatedFace when there is no rating) rises
// from clean to the final drop printed, else to the final resistance of the MERV
// test, when the capacity is held. Without, and where that final drop lies within
// changeOnly times the clean one: GenericCapacity, or the printed one where that
// is less, doubles the clean drop.
func (f Filter) Loading(law Law) (Loading, error) {
	l := Loading{Exponent: LoadingExponent, AreaRatio: law.MediaAreaRatio, Capacity: GenericCapacity, Assumed: f.DustCapacity == 0}
	if !(l.AreaRatio > 0) {
		return Loading{}, &FieldError{"media_area", law.MediaAreaRatio, message.New("more than zero")}
	}
	if f.DustCapacity < 0 {
		return Loading{}, &FieldError{"dust_capacity", f.DustCapacity, message.New("more than zero, or nothing")}
	}
	if l.Assumed {
		l.Slope = l.rise(float64(law.Printed), law.PrintedAt, GenericCapacity)
		return l, nil
	}
	if !(f.face() > 0) {
		return Loading{}, &FieldError{"dust_capacity", message.New("{dust} with no face size", "dust", f.DustCapacity.String()), message.New("the filter's width and height")}
	}
	l.Capacity = float64(f.DustCapacity) / (float64(f.face()) * l.AreaRatio)
	clean, v, final := law.Printed, law.PrintedAt, f.FinalDrop
	if final == 0 {
		final, _ = FinalResistance(f.MERV)
	}
	if final > changeOnly*clean {
		l.Slope = l.rise(float64(final-clean), v, l.Capacity)
	} else {
		l.Slope = l.rise(float64(clean), v, min(GenericCapacity, l.Capacity))
	}
	return l, nil
}

// rise is the slope with which the dust held adds a drop at a face velocity.
func (l Loading) rise(drop float64, face units.Speed, held float64) float64 {
	return drop / (float64(face) / l.AreaRatio) / l.grown(held)
}

// grown is W^n, by a root where n is LoadingExponent: it is asked for at every step of
// a filter's life.
func (l Loading) grown(w float64) float64 {
	if l.Exponent == LoadingExponent {
		return w * math.Sqrt(w)
	}
	return math.Pow(w, l.Exponent)
}

// Holds is the most dust, kg, on a face of the given area.
func (l Loading) Holds(face units.Area) units.Mass {
	return units.Mass(l.Capacity * l.AreaRatio * float64(face))
}

// On is a clean law with dust on a face of the given area: the drop that dust
// adds is proportional to velocity,
//
//	dp(v) = dp_clean(v) + r W^n v/ratio,   W = dust/(face ratio)
//
// with the dust spread evenly over the media. Dust is Darcian, so its part
// scales with the air's viscosity.
func (l Loading) On(clean Curve, dust units.Mass, face units.Area, a air.Properties) Curve {
	w := float64(dust) / (float64(face) * l.AreaRatio)
	r := l.Slope * l.grown(w) * a.Viscosity / air.Standard().Viscosity
	return clean.Plus(r/l.AreaRatio, 0)
}

// Loaded is the filter's law with dust on a face of the given area.
func (f Filter) Loaded(law Law, dust units.Mass, face units.Area, a air.Properties) (Curve, error) {
	l, err := f.Loading(law)
	if err != nil {
		return Curve{}, err
	}
	if !(face > 0) {
		return Curve{}, &FieldError{"face", face, message.New("more than zero")}
	}
	if !(dust >= 0) || math.IsInf(float64(dust), 0) {
		return Curve{}, &FieldError{"dust", dust, message.New("zero or more")}
	}
	if err := checkAir(a); err != nil {
		return Curve{}, err
	}
	return l.On(law.Curve, dust, face, a), nil
}
