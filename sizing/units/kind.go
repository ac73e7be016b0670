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

func (s System) String() string {
	if s == Metric {
		return "SI"
	}
	return "IP"
}

// Unit is one way to write a quantity: SI value = number*Scale + Offset.
type Unit struct {
	Name    string // as written to files and screens
	Scale   float64
	Offset  float64
	aliases []string
	// readOnly units are understood but never chosen for exact text.
	readOnly bool
	// most is the largest number that a person would write in the unit; past it a
	// larger unit is taken where its number is no longer. Zero: any.
	most float64
	many string // what screens call it beside any number but one; empty: Name
}

// Label is the unit's name on a screen, where it stands for no certain number:
// "months" where a file writes "3 month".
func (u *Unit) Label() string { return cmp.Or(u.many, u.Name) }

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
	// Show writes what is at least long in the units of far instead of in or mm.
	long float64 // SI; 0: nothing is
	far  [2]display
	// whole numbers alone are shown from here on, in the usual unit; 0: nowhere.
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

// farther lets Show take other units from long on.
func (k *Kind) farther(long float64, ip, si display) *Kind {
	k.long, k.far = long, [2]display{ip, si}
	return k
}

// wholeFrom lets Show and Number leave out the decimals of what is at least so
// large in its usual unit.
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

// Difference is the kind of a difference of two values: that of a temperature is
// another one, since its units have offsets; that of any other kind is itself.
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
