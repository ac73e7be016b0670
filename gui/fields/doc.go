// Package fields holds the inputs of a form: a quantity in any unit, a text, a
// whole number, a percentage, a nominal size, a choice. A field keeps no model of
// its own: it reads its value through a function and hands a typed change to
// another. A text that cannot be read stays in the entry with the reason below
// it, and every fault and every assumed value is shown in words, never by color
// alone.
package fields
