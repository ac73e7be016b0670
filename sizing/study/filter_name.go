package study

import (
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// GenericFilter stands before the MERV in the name of a filter that no person named.
const GenericFilter = "generic MERV "

// FilterName is the name of a filter, to be read.
type FilterName string

// Show writes the name for a reader.
func (n FilterName) Show(l units.Locale) string {
	if merv, ok := strings.CutPrefix(string(n), GenericFilter); ok {
		return message.Text(l, "generic MERV {merv}", "merv", merv)
	}
	return string(n)
}
