package plots

import (
	"strings"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// say writes a message for the reader of the chart.
func (l Look) say(id message.ID, args ...any) string { return message.Text(l.Units, id, args...) }

// OptionName is what a reader calls an option: the engine names the house as it is
// and the house with no filter, a person names all others.
func OptionName(l units.Locale, name string) string {
	switch name {
	case sizing.TodayName:
		return message.Text(l, "today")
	case sizing.NoFilterName:
		return message.Text(l, "no filter")
	}
	return name
}

// TapName is what a reader calls a tap: "tap 3".
func TapName(l units.Locale, name string) string {
	if strings.HasPrefix(strings.ToLower(name), "tap") {
		return name
	}
	return message.Text(l, "tap {name}", "name", name)
}

// partWords are the parts of the air path. A part that is not here has the name
// that the Study gives it.
var partWords = map[sizing.PartName]message.ID{
	sizing.PartReturn:    "return",
	sizing.PartFilter:    "filter",
	sizing.PartSlotEntry: "slot entry",
	sizing.PartCoil:      "coil",
	sizing.PartSupply:    "supply",
	sizing.PartInTable:   "in the blower table",
	"return and filter":  "return and filter",
	"unexplained loss":   "unexplained loss",
}

// PartName is what a reader calls a part of the air path.
func PartName(l units.Locale, name sizing.PartName) string {
	if id, ok := partWords[name]; ok {
		return message.Text(l, id)
	}
	return string(name)
}

func (l Look) part(name sizing.PartName) string { return PartName(l.Units, name) }

// name is an option's name on one line.
func (l Look) name(option string) string { return l.oneLine(OptionName(l.Units, option)) }

// state is a state of a filter behind the name of an option.
func (l Look) state(option string, state message.ID) string {
	if state == "" {
		return option
	}
	return l.say("{option}, {state}", "option", option, "state", state)
}

// The states of a filter.
const (
	cleanState  message.ID = "clean"
	loadedState message.ID = "loaded"
)
