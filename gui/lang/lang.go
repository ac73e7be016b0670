// Package lang writes the texts of the windows in the language of the program, which
// is chosen before the first window opens.
package lang

import (
	"sync/atomic"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

var current atomic.Pointer[units.Locale]

// Set chooses the language and the decimal mark of all windows that open from now on.
func Set(l units.Locale) { current.Store(&l) }

// Locale is the language and the decimal mark of the windows, with inch-pound units:
// each window has units of its own.
func Locale() units.Locale {
	if l := current.Load(); l != nil {
		return l.With(units.InchPound)
	}
	return units.IP
}

// T writes a text that holds no quantities: a label, a heading, a sentence. What holds
// quantities is written by message.Text in the units of its window.
func T(id message.ID, args ...any) string { return message.Text(Locale(), id, args...) }
