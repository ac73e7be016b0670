package study

import (
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// GenericFilter comes before the MERV in the name of a filter that the program
// added.
const GenericFilter = "generic MERV "

// FilterName is the name of a filter, to be shown.
type FilterName string

// Show writes the name for a reader.
func (n FilterName) Show(l units.Locale) string {
	if merv, ok := strings.CutPrefix(string(n), GenericFilter); ok {
		return message.Text(l, "generic MERV {merv}", "merv", merv)
	}
	return string(n)
}
