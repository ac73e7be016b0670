package study

import (
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// OptionName is the name of an option, to be shown. The house as it is and the house
// with no filter are options too; their names are the program's, and no option of a
// job may have them.
type OptionName string

// Show writes the name for a reader.
func (n OptionName) Show(l units.Locale) string {
	switch n {
	case job.TodayName:
		return message.Text(l, "today")
	case job.NoFilterName:
		return message.Text(l, "no filter")
	}
	return string(n)
}
