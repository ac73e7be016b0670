package job

import (
	"slices"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// ReturnName names a return for a reader: as a person did, else by its number.
type ReturnName struct {
	Given  string
	Number int // from 1; zero: all returns together
}

// NameOf is the name of the i-th return of a list.
func NameOf(r Return, i int) ReturnName { return ReturnName{r.Name, i + 1} }

// FilteredReturns are the names of the returns whose grille holds a filter.
func (j *Job) FilteredReturns() message.List {
	var out message.List
	for i, r := range j.Returns {
		if r.Filter != "" {
			out = append(out, NameOf(r, i))
		}
	}
	return out
}

// Show writes the name for a reader.
func (n ReturnName) Show(l units.Locale) string {
	switch {
	case n.Given != "":
		return n.Given
	case n.Number == 0:
		return message.Text(l, "return")
	}
	return message.Text(l, "return {number}", "number", n.Number)
}

// String writes the name in English.
func (n ReturnName) String() string { return n.Show(units.IP) }

// MarshalText writes the name in English, for files.
func (n ReturnName) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// Replaced is the return of a house that the i-th return of an option replaces: that of
// its name, else that of its number. Nil: it is a new one.
func Replaced(today []Return, r Return, i int) *Return {
	if r.Name != "" {
		if k := slices.IndexFunc(today, func(t Return) bool { return t.Name == r.Name }); k >= 0 {
			return &today[k]
		}
		return nil
	}
	if i < len(today) && today[i].Name == "" {
		return &today[i]
	}
	return nil
}
