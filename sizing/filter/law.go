package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Sources of a Law.
const (
	FromRating = "rating"
	FromMake   = "make"
	Generic    = "generic"
)

// Law is the clean drop of a filter in a face of one nominal size, against
// the velocity on that nominal face.
type Law struct {
	Curve                  // drop by the velocity on the nominal face
	MediaAreaRatio float64 // media area per nominal face area
	AreaAssumed    bool    // MediaAreaRatio is typical of the depth, neither printed nor of pleats
	Source         string  // FromRating, FromMake or Generic
	// Printed is the clean drop at PrintedAt, the highest face velocity of a rating
	// or RatedFace, in the air that printed figures are for.
	Printed    units.Pressure
	PrintedAt  units.Speed
	Fit        *Fit        // of a rating
	Pack       *Pack       // of a make: the pack as solved
	PackResult *PackResult // of that pack at PrintedAt
	Converged  bool        // false only where a pack could not be solved
	// Low and High bound the face velocities for which the law was found;
	// outside them it extrapolates, and a finding should report that.
	Low, High units.Speed
	// Assumed lists in words what was not given, and the value used instead.
	Assumed []message.Message
}

// Scale is the law with every drop k times as large.
func (l Law) Scale(k float64) Law {
	l.Curve, l.Printed = l.Curve.Scale(k), units.Pressure(k)*l.Printed
	return l
}

// Allowance is how much smaller than its nominal size a filter is made: off
// width and height, and off depth.
//
//	depth    width and height   depth
//	1 in     - 1/2 in           - 1/4 in
//	2 in     - 1/2 in           - 1/4 in
//	deeper   - 3/8 in           - 1/4 in (4 in), - 5/8 in (5 in and more)
//
// Common practice, no source: makes differ by 1/4 in, so measure the filter at
// hand before cutting.
func Allowance(depth units.Length) (side, deep units.Length) {
	side, deep = units.Inch/2, units.Inch/4
	if depth > 2.5*units.Inch {
		side = 3 * units.Inch / 8
	}
	if depth > 4.5*units.Inch {
		deep = 5 * units.Inch / 8
	}
	return side, deep
}

// Law is the filter's clean law in a face of a nominal size. Printed points
// come before the make, the make before the generic estimate. A rating applies
// to another size by face velocity, a make by pleat pitch.
func (f Filter) Law(width, height units.Length, a air.Properties) (Law, error) {
	if !(width > 0) {
		return Law{}, &FieldError{"width", width, message.New("more than zero")}
	}
	if !(height > 0) {
		return Law{}, &FieldError{"height", height, message.New("more than zero")}
	}
	if err := checkAir(a); err != nil {
		return Law{}, err
	}
	switch {
	case len(f.Rating) > 0:
		return f.ratedLaw(a)
	case f.HasMake():
		return f.madeLaw(width, height, a)
	}
	return f.genericLaw(a)
}

// HasMake reports whether the law is that of a make, and so another in a face of
// another size; any other goes by face velocity alone.
func (f *Filter) HasMake() bool {
	return len(f.Rating) == 0 && (f.Pleats > 0 || f.MediaResistance > 0 || f.MediaPermeability > 0 || f.MediaArea > 0 && f.Depth+f.PleatDepth > 0)
}

func (f Filter) face() units.Area {
	return units.Area(float64(f.Width) * float64(f.Height))
}

func (f Filter) ratedLaw(a air.Properties) (Law, error) {
	fit, err := FitRating(f.Rating, f.face(), f.Exponent)
	if err != nil {
		return Law{}, err
	}
	law := Law{
		Curve: fit.Curve.In(a, air.Standard()), Source: FromRating, Fit: &fit, Converged: true,
		Low: fit.Low, High: fit.High, Printed: fit.Drop(fit.High), PrintedAt: fit.High,
	}
	if fit.AssumedExponent {
		law.Assumed = append(law.Assumed, message.New("exponent {exponent} of the drop in flow", "exponent", message.Fixed(DefaultExponent, 2)))
	}
	err = f.spread(&law)
	return law, err
}

// spread gives a law the filter's media area.
func (f Filter) spread(law *Law) (err error) {
	law.MediaAreaRatio, law.AreaAssumed, err = f.areaRatio()
	return err
}

// areaRatio is the media area per nominal face area: as printed, else of the
// pleats, whose count and depth suffice, else typical of the depth.
func (f Filter) areaRatio() (ratio float64, assumed bool, err error) {
	if f.MediaArea > 0 && f.face() > 0 {
		return float64(f.MediaArea) / float64(f.face()), false, nil
	}
	if p := f.pack(); f.Pleats > 0 && p.Width > 0 && p.Depth > 0 {
		g, err := p.layout()
		if err != nil {
			return 0, false, err
		}
		w, h := f.actual(f.Width, f.Height)
		return 2 * g.slant / g.pitch * float64(w) * float64(h) / float64(f.face()), false, nil
	}
	return TypicalAreaRatio(f.Depth), true, nil
}

// typicalAreas are invented media areas per nominal face area of a filter of
// pleats, by nominal depth in inches.
var typicalAreas = [...]struct{ depth, ratio float64 }{{0, 1}, {1, 2.3}, {2, 4}, {4, 7.5}, {5, 9}}

// TypicalAreaRatio is the media area per face area of a filter whose area and
// pleats are not given: straight lines between invented figures for filters 1,
// 2, 4 and 5 in. deep, 1 (a flat sheet) at no depth, and constant above 5 in. A
// depth of zero is taken as 1 in.
func TypicalAreaRatio(depth units.Length) float64 {
	inches := depth.In(units.Inch)
	if inches == 0 {
		inches = 1
	}
	for i, high := range typicalAreas[1:] {
		if low := typicalAreas[i]; inches <= high.depth {
			return low.ratio + (high.ratio-low.ratio)*(inches-low.depth)/(high.depth-low.depth)
		}
	}
	return typicalAreas[len(typicalAreas)-1].ratio
}

// actual gives the size across and along the pleats of a face of the nominal
// size: the filter's own allowance where its actual size is printed.
func (f Filter) actual(width, height units.Length) (w, h units.Length) {
	across, _ := Allowance(f.Depth)
	along := across
	if f.ActualWidth > 0 && f.Width > 0 {
		across = f.Width - f.ActualWidth
	}
	if f.ActualHeight > 0 && f.Height > 0 {
		along = f.Height - f.ActualHeight
	}
	return width - across, height - along
}

// pack is the pack in the filter's own nominal width, with what is not given
// left at zero.
func (f Filter) pack() Pack {
	depth := f.PleatDepth
	if _, deep := Allowance(f.Depth); depth == 0 && f.Depth > deep {
		depth = f.Depth - deep
	}
	r := f.MediaResistance
	if r == 0 && f.MediaPermeability > 0 {
		r = ResistanceFromPermeability(f.MediaPermeability)
	}
	width, _ := f.actual(f.Width, f.Height)
	return Pack{
		Width: width, Pleats: f.Pleats, Depth: depth, MediaThickness: f.MediaThickness,
		FoldGap: f.FoldGap, Resistance: r,
	}
}

// typicalPitch is the pleat pitch taken where neither pleats nor media area
// are given: 1 in., an assumption of this project.
const typicalPitch = 1 * units.Inch

// making is a make in a face of one nominal size, ready to solve.
type making struct {
	pack    Pack
	filled  float64           // share of the nominal face that holds the pack
	screen  float64           // loss coefficient of the grid, on the pack's own face
	assumed []message.Message // what was not given
}

// make lays the pleats out. The pleat pitch stays that of the filter's own
// width; the count is the nearest whole one in the width asked for.
func (f Filter) make(width, height units.Length) (making, error) {
	var m making
	p := f.pack()
	if f.Width == 0 {
		p.Width, _ = f.actual(width, height)
	}
	if p.Pleats == 0 {
		p.Pleats = f.assumedPleats(p)
		m.assumed = append(m.assumed, message.New("{count} pleats", "count", p.Pleats))
	}
	if p.Resistance == 0 {
		r, err := TypicalMediaResistance(f.MERV)
		if err != nil {
			return m, &FieldError{"media_resistance", message.ID("nothing"), message.New("a media resistance, a permeability, or a MERV of 1 to 16 to estimate it by")}
		}
		p.Resistance = r
		m.assumed = append(m.assumed, message.New("media resistance {resistance}, an estimate for MERV {merv}", "resistance", resistance(r), "merv", f.MERV))
	}
	if f.MediaThickness == 0 {
		m.assumed = append(m.assumed, message.New("media thickness {thickness}", "thickness", DefaultMediaThickness))
	}
	if f.FoldGap == 0 {
		m.assumed = append(m.assumed, message.New("fold gap {gap}", "gap", DefaultFoldGap))
	}
	if _, err := p.geometry(); err != nil {
		return m, err
	}
	pitch := float64(p.Width) / float64(p.Pleats)
	w, h := f.actual(width, height)
	if !(w > 0 && h > 0) {
		return m, &FieldError{"width", message.New("{width} x {height} nominal", "width", width.String(), "height", height.String()), message.New("a size larger than the frame's allowance")}
	}
	p.Width, p.Pleats = w, max(2, int(math.Round(float64(w)/pitch)))
	m.pack, m.filled = p, float64(w)*float64(h)/(float64(width)*float64(height))
	var err error
	m.screen, err = f.screen()
	return m, err
}

// madeLaw solves the pleats over the whole range of face velocity.
func (f Filter) madeLaw(width, height units.Length, a air.Properties) (Law, error) {
	m, err := f.make(width, height)
	if err != nil {
		return Law{}, err
	}
	curve, result, err := m.pack.Curve(a)
	if err != nil {
		return Law{}, err
	}
	law := Law{
		Curve:          curve.ScaleVelocity(1/m.filled).Plus(0, m.screen*float64(a.Density)/2/(m.filled*m.filled)),
		MediaAreaRatio: result.MediaAreaRatio * m.filled,
		Source:         FromMake, Low: SlowestFace, High: FastestFace, Assumed: m.assumed,
		Pack: &m.pack, PackResult: &result, Converged: result.Converged, PrintedAt: RatedFace,
	}
	if law.Printed, _, err = m.at(RatedFace, air.Standard()); err != nil {
		return Law{}, err
	}
	if !(law.Printed > 0) || !law.Converged {
		law.Printed = law.Drop(RatedFace)
	}
	if f.MediaArea > 0 && f.Pleats > 0 && f.face() > 0 {
		law.MediaAreaRatio = float64(f.MediaArea) / float64(f.face()) // printed beside pleats
	}
	return law, nil
}

// MadeDrop is the clean drop, at one face velocity alone, of a filter known by
// its make in a face of a nominal size, and its media area per face area: what
// Law gives, at a tenth of its cost, and without the curve's own error. For media
// too open for Pack.Solve to converge it is an estimate from thicker media.
func (f Filter) MadeDrop(width, height units.Length, face units.Speed, a air.Properties) (drop units.Pressure, mediaAreaRatio float64, err error) {
	m, err := f.make(width, height)
	if err != nil {
		return 0, 0, err
	}
	return m.at(face, a)
}

// at is the drop at a face velocity, and the media area per face area.
func (m making) at(face units.Speed, a air.Properties) (drop units.Pressure, mediaAreaRatio float64, err error) {
	v := face / units.Speed(m.filled)
	r, err := m.pack.Solve(v, a)
	if err != nil {
		return 0, 0, err
	}
	if !r.Converged {
		if drop, ok := m.pack.dropOfOpenMedia(v, a); ok {
			r.Drop = drop
		}
	}
	screen := m.screen * float64(a.Density) / 2 * float64(v) * math.Abs(float64(v))
	return r.Drop + units.Pressure(screen), r.MediaAreaRatio * m.filled, nil
}

// InFace converts the law of a make from its own size to a face of another
// size: the pitch stays, and the frame takes its allowance off every size, so
// that a smaller face holds a smaller share of pack. Other laws depend on face
// velocity alone.
func (f Filter) InFace(l Law, width, height units.Length) Law {
	if l.Source != FromMake || f.face() == 0 {
		return l
	}
	k := f.filled(f.Width, f.Height) / f.filled(width, height)
	if !(k > 0) || math.IsInf(k, 0) {
		return l // smaller than its frame
	}
	l.Curve, l.MediaAreaRatio = l.Curve.ScaleVelocity(k), l.MediaAreaRatio/k
	return l
}

// filled is the share of a nominal face that holds the pack.
func (f Filter) filled(width, height units.Length) float64 {
	w, h := f.actual(width, height)
	return max(0, float64(w)) * max(0, float64(h)) / (float64(width) * float64(height))
}

// assumedPleats is the count that gives the printed media area, else the
// typical pitch.
func (f Filter) assumedPleats(p Pack) int {
	n := float64(p.Width) / float64(typicalPitch)
	if _, h := f.actual(f.Width, f.Height); f.MediaArea > 0 && h > 0 && p.Depth > 0 {
		n = float64(f.MediaArea) / (2 * float64(p.Depth) * float64(h))
	}
	return max(2, int(math.Round(n)))
}

// screen is the loss coefficient, on the face velocity, of the grid that holds
// the pack: a thin perforated screen of open share s,
//
//	zeta = (0.707 sqrt(1-s) + 1 - s)^2 / s^2
//
// Source: Idelchik, Handbook of Hydraulic Resistance, diagram 8-1 (from
// memory). 0 when no grid is given.
func (f Filter) screen() (float64, error) {
	s := f.GridOpenShare
	if s == 0 {
		return 0, nil
	}
	if !(s >= 0.05 && s <= 1) {
		return 0, &FieldError{"grid_open_share", s, message.New("0.05 to 1, or nothing for no grid")}
	}
	k := (math.Sqrt2/2*math.Sqrt(1-s) + 1 - s) / s
	return k * k, nil
}

// Generic clean drops at RatedFace of a pleated filter 1 in. deep, in. w.c., by
// MERV 1 to 16: invented for this project, rising with the rating and lying
// within what the trade prints. Low ratings are flat panels.
var genericDrop = [17]float64{
	0, 0.05, 0.055, 0.06, 0.065, 0.08, 0.09, 0.11, 0.14, 0.16, 0.18, 0.20, 0.23, 0.27, 0.33, 0.40, 0.48,
}

// GenericDrop is an invented estimate of a pleated filter's clean drop at
// RatedFace, from no more than its MERV and nominal depth:
//
//	dp = dp1(MERV) / sqrt(depth / 1 in.)
//
// A deeper pack has more media, so that drop falls with depth, but less than in
// proportion: a deeper pack is also pleated wider, and its channels drop more.
// Range: MERV 1 to 16, depth 1/2 to 12 in.; outside it is an error. Not from
// any maker; a printed figure replaces it.
func GenericDrop(merv int, depth units.Length) (units.Pressure, error) {
	if err := checkMERV(merv); err != nil {
		return 0, err
	}
	inches := depth.In(units.Inch)
	if !(inches >= 0.5 && inches <= 12) {
		return 0, &FieldError{"depth", depth, message.New("{least} to {most} for an estimate by MERV and depth", "least", ThinnestGeneric, "most", DeepestGeneric)}
	}
	return units.Pressure(genericDrop[merv]/math.Sqrt(inches)) * units.InchWater, nil
}

// typicalMediaVelocity is that of a pack 1 in. deep with 15 pleats in 20 in.
// at RatedFace, by its geometry.
const typicalMediaVelocity = 1.08 // m/s

// TypicalMediaResistance is an invented estimate of the media's resistance by
// MERV: the one with which a pack 1 in. deep has GenericDrop. MERV 1 to 16;
// outside it is an error.
func TypicalMediaResistance(merv int) (units.MediaResistance, error) {
	drop, err := GenericDrop(merv, units.Inch)
	if err != nil {
		return 0, err
	}
	return units.MediaResistance(float64(drop) / typicalMediaVelocity), nil
}

func (f Filter) genericLaw(a air.Properties) (Law, error) {
	depth := f.Depth
	law := Law{Source: Generic, Converged: true, Low: SlowestFace, High: FastestFace}
	if f.MERV == 0 {
		return Law{}, &FieldError{"merv", message.ID("nothing"), message.New("a rating, a make (pleats and media), or a MERV to estimate by")}
	}
	if depth == 0 {
		depth = units.Inch
		law.Assumed = append(law.Assumed, message.New("1 in (25 mm) deep"))
	}
	drop, err := GenericDrop(f.MERV, depth)
	if err != nil {
		return Law{}, err
	}
	n := f.Exponent
	if n == 0 {
		n = DefaultExponent
	}
	if !(n >= 1 && n <= 2) {
		return Law{}, &FieldError{"exponent", n, message.New("1 to 2, or nothing")}
	}
	c := Curve{C: float64(drop) / math.Pow(float64(RatedFace), n), Exponent: n}
	law.Curve, law.Printed, law.PrintedAt = c.In(a, air.Standard()), drop, RatedFace
	law.Assumed = append(law.Assumed, message.New(
		"clean drop {drop} at {velocity}, an estimate for MERV {merv} and {depth} depth", "drop", drop, "velocity", RatedFace, "merv", f.MERV, "depth", depth))
	err = f.spread(&law)
	return law, err
}
