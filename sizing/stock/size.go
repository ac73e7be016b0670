package stock

import (
	"math"
	"strconv"

	"returnbench/sizing/filter"
	"returnbench/sizing/units"
)

// Size is a nominal size. Depth is zero for grilles and ducts, which have none.
type Size struct {
	Width, Height, Depth units.Length // nominal, m inside; the depth is along the air
	System               units.System // of the nominal sizes: inches or millimeters
}

// Face is the nominal face, width x height, m2 inside.
func (s Size) Face() units.Area {
	return units.Area(s.Width.SI() * s.Height.SI()) // m x m
}

// Actual is the measured size of the filter's frame: an inch filter is smaller
// than its nominal size by filter.Allowance (common practice, no source). A
// size without depth, and a metric one, is its own actual size.
func (s Size) Actual() Size {
	if s.Depth == 0 || s.System == units.Metric {
		return s
	}
	side, deep := filter.Allowance(s.Depth)
	s.Width -= side
	s.Height -= side
	s.Depth -= deep
	return s
}

// Casing is how much larger the sheet metal around filters is than the filters:
// in width and in height, for tracks and door, and along the air, for collars.
type Casing struct {
	Face  units.Length `json:"face"`  // added to the width and to the height, m inside
	Depth units.Length `json:"depth"` // added along the air, m inside
}

// UsualCasing is 1 1/2 in (40 mm) across and 3 in (75 mm) along the air. An
// estimate (common practice, no source); the dimensions of the real cabinet
// replace it.
func UsualCasing(sys units.System) Casing {
	if sys == units.Metric {
		return Casing{40 * units.Millimetre, 75 * units.Millimetre}
	}
	return Casing{1.5 * units.Inch, 3 * units.Inch}
}

// Assembly is filters of one size in one casing.
type Assembly struct {
	Filter  Size // of each
	Count   int  // filters; 0: one
	Stacked bool // one above the other; else side by side
}

// Faces is the opening that the filters fill together, by their nominal faces.
// The track between two of them takes the space by which each frame is smaller
// than nominal.
func (a Assembly) Faces() Size {
	s, n := a.Filter, units.Length(max(a.Count, 1))
	if a.Stacked {
		s.Height *= n
	} else {
		s.Width *= n
	}
	return s
}

// Outside is the outer size of the assembly's casing.
func (a Assembly) Outside(c Casing) Size {
	s := a.Faces()
	return Size{s.Width + c.Face, s.Height + c.Face, s.Depth + c.Depth, s.System}
}

// String is the size's name: "20x25x4", "20x25", "592x592x48 mm".
func (s Size) String() string {
	unit, suffix := units.Inch, ""
	if s.System == units.Metric {
		unit, suffix = units.Millimetre, " mm"
	}
	name := side(s.Width.In(unit)) + "x" + side(s.Height.In(unit))
	if s.Depth != 0 {
		name += "x" + side(s.Depth.In(unit))
	}
	return name + suffix
}

// Millimetres writes an inch size in whole millimeters: "508x635x25 mm".
func (s Size) Millimetres() string {
	for _, side := range []*units.Length{&s.Width, &s.Height, &s.Depth} {
		*side = units.Length(math.Round(side.In(units.Millimetre))) * units.Millimetre
	}
	s.System = units.Metric
	return s.String()
}

// Inches writes a length in inches and sixteenths: "21 1/2".
func Inches(l units.Length) string {
	const parts = 16
	n := int(math.Round(l.In(units.Inch) * parts))
	whole, rest, of := n/parts, n%parts, parts
	for rest > 0 && rest%2 == 0 {
		rest, of = rest/2, of/2
	}
	switch {
	case rest == 0:
		return strconv.Itoa(whole)
	case whole == 0:
		return strconv.Itoa(rest) + "/" + strconv.Itoa(of)
	}
	return strconv.Itoa(whole) + " " + strconv.Itoa(rest) + "/" + strconv.Itoa(of)
}

// side drops what is under a thousandth of the unit.
func side(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}

// slip is the difference under which two lengths count as equal.
const slip = 1e-6 * units.Metre

// Fits reports whether s fits an opening, upright or turned. A filter fits by
// its actual frame; a grille or duct needs its nominal opening.
func Fits(s Size, openingW, openingH units.Length) bool {
	a := s.Actual()
	within := func(w, h units.Length) bool { return w <= openingW+slip && h <= openingH+slip }
	return within(a.Width, a.Height) || within(a.Height, a.Width)
}

// SameFace reports whether two sizes have one nominal face, upright or turned.
func (s Size) SameFace(other Size) bool {
	same := func(w, h units.Length) bool {
		return math.Abs((s.Width-w).SI()) <= slip.SI() && math.Abs((s.Height-h).SI()) <= slip.SI()
	}
	return same(other.Width, other.Height) || same(other.Height, other.Width)
}

// SameDepth reports whether two sizes have one nominal depth.
func SameDepth(a, b Size) bool { return math.Abs((a.Depth - b.Depth).SI()) <= slip.SI() }

// Nearest is the filter whose nominal or actual size comes nearest to the one
// given, upright or turned, so that a filter may be named or measured. The
// measure is the largest of the differences in width, height and depth. A depth
// of zero is ignored and gives the shallowest. near is true when no side is off
// by more than 1/2 in.
func Nearest(width, height, depth units.Length) (size Size, near bool) {
	return NearestIn(Filters(), width, height, depth)
}

// NearestIn is Nearest among the sizes given.
func NearestIn(sizes []Size, width, height, depth units.Length) (size Size, near bool) {
	best := math.Inf(1)
	for _, s := range sizes {
		if d := s.distance(width, height, depth); d < best-slip.SI() {
			size, best = s, d
		}
	}
	return size, best <= (units.Inch/2 + slip).SI()
}

// distance is the measure of Nearest in m, the least of nominal and actual,
// upright and turned.
func (s Size) distance(width, height, depth units.Length) float64 {
	least := math.Inf(1)
	for _, c := range []Size{s, s.Actual()} {
		off := 0.0
		if depth != 0 {
			off = math.Abs((c.Depth - depth).SI())
		}
		upright := max(math.Abs((c.Width - width).SI()), math.Abs((c.Height - height).SI()))
		turned := max(math.Abs((c.Height - width).SI()), math.Abs((c.Width - height).SI()))
		least = min(least, max(off, min(upright, turned)))
	}
	return least
}
