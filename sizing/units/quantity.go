package units

import (
	"fmt"
	"math"
)

// Of is a quantity of dimension D, held in SI. The aliases below (Flow,
// Pressure, ...) are the names to use.
type Of[D dimension] float64

type dimension interface{ kind() *Kind }

// Quantity is any Of, for code that treats all quantities alike (a form field,
// a JSON writer).
type Quantity interface {
	// Kind describes the dimension and its units.
	Kind() *Kind
	// SI is the number in the kind's SI unit.
	SI() float64
}

// In returns q as a number of u: q.In(units.CFM).
func (q Of[D]) In(u Of[D]) float64 { return float64(q) / float64(u) }

// SI returns the number in SI.
func (q Of[D]) SI() float64 { return float64(q) }

// Kind is the dimension of q.
func (q Of[D]) Kind() *Kind {
	var d D
	return d.kind()
}

// String is the exact text of q, as MarshalText gives it.
func (q Of[D]) String() string { return q.Kind().Text(float64(q)) }

// Show rounds q for a screen in the usual unit of the system: "1200 cfm".
func (q Of[D]) Show(l Locale) string { return q.Kind().Show(float64(q), l) }

// MarshalText writes a number and a unit that parse back to exactly q. What is
// not a finite number has no text and is an error.
func (q Of[D]) MarshalText() ([]byte, error) {
	if v := float64(q); math.IsNaN(v) || math.IsInf(v, 0) {
		return nil, fmt.Errorf("units: %s is %v, which no file can hold", q.Kind().Name, v)
	}
	return []byte(q.String()), nil
}

// UnmarshalText reads a number with any unit of the kind. The error is a
// *ParseError with the text given and what is wanted.
func (q *Of[D]) UnmarshalText(text []byte) error {
	v, err := q.Kind().Parse(string(text), "")
	if err != nil {
		return err
	}
	*q = Of[D](v)
	return nil
}

// Parse reads a quantity with its unit: Parse[units.Flow]("1200 cfm").
func Parse[Q Of[D], D dimension](text string) (Q, error) {
	v, err := Of[D](0).Kind().Parse(text, "")
	return Q(v), err
}
