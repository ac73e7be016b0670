package units

import (
	"cmp"
	"strings"
)

// System is a family of units.
type System int

const (
	InchPound System = iota // cfm, in. w.c., fpm
	Metric                  // L/s, Pa, m/s
)

// String is the short name of the system: "IP" or "SI".
func (s System) String() string {
	if s == Metric {
		return "SI"
	}
	return "IP"
}

// Unit is one way to write a quantity: SI value = number*Scale + Offset.
type Unit struct {
	Name    string  // as written to files and screens
	Scale   float64 // SI per unit
	Offset  float64 // SI value at zero of the unit
	aliases []string
	// readOnly units are read but never written as exact text.
	readOnly bool
	// most is the largest number that a person would write in the unit; above it
	// a larger unit is used where its number is no longer. Zero: any.
	most float64
	many string // what screens call it beside any number but one; empty: Name
	mark string // what screens call it beside any number: "°F"; empty: many or Name
}

// Label is the unit's name on a screen, without a number: "months" where a file
// writes "3 month", and "°F" where it writes "76 F".
func (u *Unit) Label() string { return cmp.Or(u.mark, u.many, u.Name) }

// ToSI turns a number of the unit into SI. The conversion rounds the product
// by itself, so that no processor fuses it with the sum and every machine
// reads a file to the same bits.
func (u *Unit) ToSI(v float64) float64 { return float64(v*u.Scale) + u.Offset }

// FromSI is a number in SI as a number of the unit.
func (u *Unit) FromSI(si float64) float64 { return (si - u.Offset) / u.Scale }

// Kind is a dimension: its name in words, its units, and how it is shown.
type Kind struct {
	Name  string // "airflow", for messages
	Units []Unit // in order of preference for exact text; one has scale 1
	ip    display
	si    display
	usual [2]*Unit         // by system
	index map[string]*Unit // by folded spelling
	// lower is index without regard to case; a spelling that would then mean
	// two units is not in it.
	lower map[string]*Unit
	// sign may come before the number; defaultUnit is the unit of a number without one.
	sign, defaultUnit string
	// Show writes lengths from long on in the units of far instead of in or mm.
	long float64 // SI; 0: nothing is
	far  [2]display
	// whole is the number in the usual unit from which no decimals are shown; 0:
	// none.
	whole float64
}

type display struct {
	unit     string
	decimals int
}

func newKind(name string, ip, si display, us ...Unit) *Kind {
	k := &Kind{Name: name, Units: us, ip: ip, si: si, index: map[string]*Unit{}, lower: map[string]*Unit{}}
	for i := range k.Units {
		u := &k.Units[i]
		for _, n := range append([]string{u.Name}, u.aliases...) {
			k.index[fold(n)] = u
		}
	}
	for n, u := range k.index {
		l := strings.ToLower(n)
		if other, ok := k.lower[l]; ok && other != u {
			u = nil
		}
		k.lower[l] = u
	}
	for s, d := range [...]display{InchPound: ip, Metric: si} {
		u, ok := k.index[fold(d.unit)]
		if !ok {
			panic("units: " + name + " has no unit " + d.unit)
		}
		k.usual[s] = u
	}
	return k
}

// signed allows the currency sign before the number; unit, if not empty,
// is the unit of a number without one.
func (k *Kind) signed(unit string) *Kind {
	k.sign, k.defaultUnit = "$", unit
	return k
}

// farther makes Show use other units from long on.
func (k *Kind) farther(long float64, ip, si display) *Kind {
	k.long, k.far = long, [2]display{ip, si}
	return k
}

// wholeFrom makes Show and Number leave out the decimals of numbers of at least
// v in the usual unit.
func (k *Kind) wholeFrom(v float64) *Kind {
	k.whole = v
	return k
}

// SIUnit is the unit whose number is the SI value itself.
func (k *Kind) SIUnit() *Unit {
	for i := range k.Units {
		if u := &k.Units[i]; u.Scale == 1 && u.Offset == 0 {
			return u
		}
	}
	panic("units: " + k.Name + " has no SI unit")
}

// Difference is the kind of a difference of two values: of temperatures it is
// another kind, since their units have offsets; of any other kind it is the kind
// itself.
func (k *Kind) Difference() *Kind {
	if k == temperatureKind {
		return temperatureDifferenceKind
	}
	return k
}

// fold maps the spellings of a unit onto one: case, blanks, dots, degree
// signs and superscripts do not count.
var fold = strings.NewReplacer(
	" ", "", "\u00a0", "", "\u202f", "", ".", "", "°", "", "²", "2", "³", "3", "·", "", "*", "", "^", "", "(", "", ")", "",
	"′", "'", "″", `"`, "“", `"`, "”", `"`, "µ", "u",
).Replace

// Unit finds a unit of the kind by any of its spellings, nil where there is none.
func (k *Kind) Unit(name string) *Unit {
	u, _ := k.unit(name)
	return u
}

func (k *Kind) unit(name string) (*Unit, bool) {
	f := fold(name)
	if u, ok := k.index[f]; ok {
		return u, true
	}
	// Case is ignored only where the exact case is not itself a unit.
	u := k.lower[strings.ToLower(f)]
	return u, u != nil
}
