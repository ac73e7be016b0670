package homes

import (
	"fmt"
	"strings"
)

// Fault is why a row was not solved.
type Fault struct {
	Line   int    // of the list, the heading being line 1
	Column string // empty: the row as a whole
	Reason string
}

func (f Fault) String() string {
	at := fmt.Sprintf("line %d", f.Line)
	if f.Column != "" {
		at += ", " + f.Column
	}
	return at + ": " + f.Reason
}

// join writes the faults of a row into one cell.
func join(faults []Fault) string {
	texts := make([]string, len(faults))
	for i, f := range faults {
		texts[i] = f.String()
	}
	return strings.Join(texts, "; ")
}
