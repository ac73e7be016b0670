// Package units holds the quantities of the bench: airflow, pressure, length
// and so on, each a named float type in SI with constants for the units of the
// trade, used like time.Duration:
//
//	q := 1200 * units.CFM
//	fmt.Println(q.In(units.LitrePerSecond)) // 566.3...
//
// A quantity marshals to text with its unit and parses every usual spelling.
// Text round trips exactly: the unit is chosen so that a typed quantity ("566
// L/s") comes back as it was typed. Rounding happens only in Show, which is for
// screens and paper.
//
// Formulas unwrap to float64 in SI, compute, and wrap the result; two
// quantities are never multiplied into the wrong type. Absolute temperature
// and temperature difference are two types.
package units
