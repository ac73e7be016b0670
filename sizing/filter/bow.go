package filter

import (
	"math"

	"returnbench/sizing/air"
	"returnbench/sizing/root"
	"returnbench/sizing/units"
)

// Push is the force of the air on a face: drop times area.
func Push(drop units.Pressure, face units.Area) units.Force {
	return units.Force(float64(drop) * float64(face)) // Pa m2 = N
}

// plateTerms is how many odd terms each way the double series of PlateBow
// keeps: the terms fall as the sixth power.
const plateTerms = 11

// PlateBow is alpha of w = alpha q a^4/D: the middle of a thin rectangular plate
// with simply supported edges under even pressure q, short side a, long side
// b = ratio a (Navier's double series):
//
//	alpha = 16/pi^6 sum over odd m, n of sin(m pi/2) sin(n pi/2)/(m n (m^2 + n^2/ratio^2)^2)
//
// Source: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, table 8
// (from memory). Range: ratio 1 and over; a ratio under 1 is turned round.
func PlateBow(ratio float64) float64 {
	if ratio < 1 {
		ratio = 1 / ratio
	}
	sum := 0.0
	for m := 0; m < plateTerms; m++ {
		// A long plate needs more terms along its length.
		for n := 0; n < plateTerms*int(math.Ceil(ratio)); n++ {
			i, j := float64(2*m+1), float64(2*n+1)
			d := i*i + j*j/(ratio*ratio)
			sign := float64(1 - 2*((m+n)%2))
			sum += sign / (i * j * d * d)
		}
	}
	return 16 / math.Pow(math.Pi, 6) * sum
}

// HeldPlateBow is the bow of a plate whose edges cannot draw in, so that it
// stretches as it bows:
//
//	w (1 + 1.5 (w/t)^2) = alpha q a^4/D
//
// t the thickness, linear the right side, all in m. Berger's approximation
// (1955, J. Appl. Mech. 22), which drops the second invariant of the membrane
// strain and holds for any side ratio; within some 8 % of the full equations,
// on the high side under moderate load. For w much under t it is the linear bow.
func HeldPlateBow(linear, t float64) float64 {
	if !(linear > 0) {
		return 0
	}
	// Cardano for w^3 + p w = q, p > 0, in the form that loses no digits.
	p, q := t*t/1.5, linear*t*t/1.5
	s := 2 * math.Sqrt(p/3)
	return s * math.Sinh(math.Asinh(3*q/(p*s))/3)
}

// braceStiffness is the flexural stiffness of a pleated pack 1 in. deep, in N m,
// by how it is braced: an engineering estimate of this project, from none (soft
// media in a card frame) to a rigid box.
var braceStiffness = map[Bracing]float64{
	Unbraced: 1, OneSide: 3, BothSides: 8, WireBacked: 25, RigidBox: 150,
}

// inchPack is the depth of the pack in a filter 1 in. deep.
const inchPack = 0.75 * units.Inch

// Bow estimates how far the middle of the filter bows under a drop: the pack as
// a plate of its nominal face, its edges held by the slot, with a stiffness by
// bracing that goes with the square of depth (a corrugation's stiffness goes with
// the square of its height) and a stretch that sets in as the bow nears the
// depth. An estimate, to rank bracings and to warn; not a structural check.
func (f Filter) Bow(width, height units.Length, drop units.Pressure) (units.Length, error) {
	bow, err := f.bowing(width, height)
	if err != nil {
		return 0, err
	}
	return bow(drop), nil
}

// bowing is Bow over the drop, with all that does not depend on it worked out.
func (f Filter) bowing(width, height units.Length) (func(units.Pressure) units.Length, error) {
	if !(width > 0 && height > 0) {
		return nil, &FieldError{"width", width.String() + " x " + height.String(), "both more than zero"}
	}
	class := f.Bracing
	if class == "" {
		class = OneSide
	}
	stiffness, ok := braceStiffness[class]
	if !ok {
		return nil, &FieldError{"bracing", string(class), "none, one_side, both_sides, wire_backed or rigid_box"}
	}
	depth := float64(f.pack().Depth)
	if depth <= 0 {
		depth = float64(inchPack)
	}
	inches := depth / float64(inchPack)
	a, b := float64(min(width, height)), float64(max(width, height))
	linear := PlateBow(b/a) * math.Pow(a, 4) / (stiffness * inches * inches)
	return func(drop units.Pressure) units.Length {
		return units.Length(math.Copysign(HeldPlateBow(linear*math.Abs(float64(drop)), depth), float64(drop)))
	}, nil
}

// Seat is the slot a filter sits in.
type Seat struct {
	Crack              // with the filter at rest
	Cover units.Length // how far the slot's edge overlaps the frame
}

// Seated is a filter in its seat at one airflow.
type Seated struct {
	Bypass
	Push units.Force
	Bow  units.Length
	Gap  units.Length // with the filter bowed
}

// Seat finds where push, bow, gap and leak settle at an airflow: a bow beyond
// the slot's cover opens the gap by as much,
//
//	gap = gap at rest + max(0, bow(dp) - cover),
//
// a wider gap lets more air by, and the drop that bows the filter falls. As the
// drop falls with the gap there is one answer, found by bisection.
func (f Filter) Seat(law Curve, width, height units.Length, seat Seat, total units.Flow, a air.Properties) (Seated, error) {
	face := units.Area(float64(width) * float64(height))
	if _, err := NewBypass(law, face, seat.Crack, total, a); err != nil {
		return Seated{}, err
	}
	if !(seat.Cover >= 0) {
		return Seated{}, &FieldError{"edge_cover", seat.Cover.String(), "zero or more"}
	}
	bowing, err := f.bowing(width, height)
	if err != nil {
		return Seated{}, err
	}
	at := func(gap float64) (Bypass, float64) {
		crack := seat.Crack
		crack.Gap = units.Length(gap)
		b := law.bypass(float64(face), crack, float64(total), a)
		return b, float64(bowing(b.Drop))
	}
	rest := float64(seat.Gap)
	_, bow := at(rest)
	gap := rest
	if widest := rest + bow - float64(seat.Cover); widest > rest {
		gap = root.Rising(func(g float64) float64 {
			_, bow := at(g)
			return g - rest - max(0, bow-float64(seat.Cover))
		}, rest, widest, 0)
	}
	b, bow := at(gap)
	return Seated{Bypass: b, Push: Push(b.Drop, face), Bow: units.Length(bow), Gap: units.Length(gap)}, nil
}
