package plots

import (
	"returnbench/sizing"
	"returnbench/sizing/message"
)

// say writes a message for the reader of the chart.
func (l Look) say(id message.ID, args ...any) string { return message.Text(l.Units, id, args...) }

func (l Look) part(name sizing.PartName) string { return name.Show(l.Units) }

// name is an option's name on one line.
func (l Look) name(option string) string { return l.oneLine(sizing.OptionName(option).Show(l.Units)) }

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
