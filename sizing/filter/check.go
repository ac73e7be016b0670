package filter

import (
	"fmt"
	"math"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// The range of depth of GenericDrop.
const (
	ThinnestGeneric = units.Inch / 2
	DeepestGeneric  = 12 * units.Inch
)

// leastPitch is smaller than the pitch of any pack; it bounds the count in
// every face.
const leastPitch = 2 * units.Millimetre

// IsEstimated reports whether the drop of a filter is known by its MERV and depth
// alone.
func (f Filter) IsEstimated() bool { return len(f.Rating) == 0 && !f.isMade() }

func (f Filter) isMade() bool {
	return f.Pleats > 0 || f.MediaResistance > 0 || f.MediaPermeability > 0 || f.MediaArea > 0 && f.Depth+f.PleatDepth > 0
}

// Usable finds at once every fault of the filter's own figures for which Law
// would fail in some face, each with its field.
func (f Filter) Usable() []*FieldError {
	if f.MERV == 0 && len(f.Efficiency) == 0 {
		return []*FieldError{{"merv", message.ID("nothing"), message.New("1 to 16, or the efficiencies by size")}}
	}
	switch {
	case len(f.Rating) > 0:
		return f.usableRating()
	case f.isMade():
		return f.usableMake()
	}
	return f.usableEstimate()
}

func (f Filter) usableRating() []*FieldError {
	if _, err := FitRating(f.Rating, f.face(), f.Exponent); err != nil {
		return []*FieldError{asField("rating", err)}
	}
	if _, _, err := f.areaRatio(); err != nil {
		return []*FieldError{asField("pleats", err)} // they decide the media area
	}
	if !f.isMade() {
		return nil
	}
	if _, _, err := f.areaRatio(); err != nil {
		return []*FieldError{asField("pleats", err)} // dust loads on the area of the pleats
	}
	// The rating decides the drop of the filter; its make, if it describes a
	// pack, still decides how other depths or sizes compare.
	if m, err := f.make(f.widthOr(usualFace), f.heightOr(usualFace)); err == nil {
		return f.pitch(m)
	}
	return nil
}

func (f Filter) usableEstimate() []*FieldError {
	var faults []*FieldError
	if f.MERV == 0 {
		faults = append(faults, &FieldError{"merv", message.ID("nothing"), message.New("a rating, a make (pleats and media), or a MERV to estimate by")})
	}
	if f.Depth != 0 && (f.Depth < ThinnestGeneric || f.Depth > DeepestGeneric) {
		faults = append(faults, &FieldError{"depth", f.Depth, message.New("{least} to {most} where the drop is estimated by MERV and depth; give a rating to use another depth", "least", ThinnestGeneric, "most", DeepestGeneric)})
	}
	return faults
}

func (f Filter) usableMake() []*FieldError {
	var faults []*FieldError
	_, deep := Allowance(f.Depth)
	if f.PleatDepth == 0 && f.Depth <= deep {
		faults = append(faults, &FieldError{"pleat_depth", message.ID("nothing"), message.New("the depth of the pleats, or a filter depth of more than its frame, to know the media")})
	}
	if f.MediaResistance == 0 && f.MediaPermeability == 0 && f.MERV == 0 {
		faults = append(faults, &FieldError{"media_resistance", message.ID("nothing"), message.New("a media resistance, a permeability, or a MERV of 1 to 16 to estimate it by")})
	}
	if faults != nil {
		return faults
	}
	m, err := f.make(f.widthOr(usualFace), f.heightOr(usualFace))
	if err != nil {
		return []*FieldError{asField("pleats", err)}
	}
	return f.pitch(m)
}

// pitch finds pleats closer than any pack's.
func (f Filter) pitch(m making) []*FieldError {
	width := f.widthOr(usualFace)
	if most := int(math.Floor(float64(width) / float64(leastPitch))); m.pack.Pleats > most {
		field := "pleats"
		if f.Pleats == 0 {
			field = "media_area"
		}
		return []*FieldError{{field, message.New("{pitch} a pleat", "pitch", metric(float64(width)/float64(m.pack.Pleats))), message.New("at least 2 mm a pleat")}}
	}
	return nil
}

// usualFace is the face assumed for a filter without a size.
const usualFace = 20 * units.Inch

func (f Filter) widthOr(usual units.Length) units.Length {
	if f.Width == 0 {
		return usual
	}
	return f.Width
}

func (f Filter) heightOr(usual units.Length) units.Length {
	if f.Height == 0 {
		return usual
	}
	return f.Height
}

func asField(field string, err error) *FieldError {
	if f, ok := err.(*FieldError); ok {
		return f
	}
	return &FieldError{field, message.ID("this"), message.OfError(err)}
}

// FieldError names a field that cannot be used, what was given and what is
// wanted.
type FieldError struct {
	Field string          // path in the job file's names: "rating[1].drop"
	Given any             // a quantity, a number, a word of a file or a message
	Want  message.Message // what would do, in words
}

func (e *FieldError) Error() string { return e.In(units.IP) }

// In writes the fault for a reader. A quantity is spelled as in a file.
func (e *FieldError) In(l units.Locale) string {
	given := e.Given
	if q, ok := given.(units.Quantity); ok {
		given = fmt.Sprint(q)
	}
	return message.Text(l, "{field}: {given} given; want {wanted}", "field", e.Field, "given", given, "wanted", e.Want)
}

// metric writes a length in SI for every reader: pleats and media are measured in
// SI.
type metric units.Length

func (m metric) Show(l units.Locale) string { return units.Length(m).Show(l.With(units.Metric)) }

// resistance is metric for that of media.
type resistance units.MediaResistance

func (r resistance) Show(l units.Locale) string {
	return units.MediaResistance(r).Show(l.With(units.Metric))
}
