package homes

import (
	"fmt"
	"regexp"
	"strings"

	"returnbench/sizing/fieldpath"
)

// use is a column as a list has it: its place and the unit of its plain
// numbers, from the heading.
type use struct {
	column *column
	unit   string
}

// heading is the first row of a list, understood.
type heading struct {
	cells []string
	uses  []use
}

// HeadingError is every fault of the first row of a list.
type HeadingError []string

func (e HeadingError) Error() string {
	const most = 20
	if more := len(e) - most; more > 0 {
		return strings.Join(e[:most], "\n") + fmt.Sprintf("\nheading: %d more faults", more)
	}
	return strings.Join(e, "\n")
}

// "design_airflow", "design_airflow [cfm]", "design_airflow (cfm)" or
// "design_airflow, cfm".
var headed = regexp.MustCompile(`^([^\[\](),]+?)\s*(?:\[\s*(.+?)\s*\]|\(\s*(.+?)\s*\)|,\s*(.+?))?$`)

// readHeading finds the columns of a list, or all that is wrong with them.
func readHeading(cells []string) (*heading, error) {
	h := &heading{cells: cells}
	var faults HeadingError
	if len(cells) == 1 {
		for _, sep := range []string{";", "\t"} {
			if strings.Contains(cells[0], sep) {
				return nil, HeadingError{fmt.Sprintf("heading: the columns are parted by %q; want commas", sep)}
			}
		}
	}
	seen := map[string]int{}
	for i, cell := range cells {
		u, err := readUse(cell)
		if err != nil {
			faults = append(faults, fmt.Sprintf("heading, column %d: %v", i+1, err))
			continue
		}
		if before, ok := seen[u.column.Name]; ok {
			faults = append(faults, fmt.Sprintf("heading, column %d: %s again; it is column %d too", i+1, u.column.Name, before))
		}
		seen[u.column.Name] = i + 1
		h.uses = append(h.uses, u)
	}
	for _, side := range []string{"slot_width", "slot_height", "slot_depth"} {
		if seen["slot"] > 0 && seen[side] > 0 {
			faults = append(faults, fmt.Sprintf("heading, column %d: %s beside slot; want one of the two", seen[side], side))
		}
	}
	if faults != nil {
		return nil, faults
	}
	return h, nil
}

func readUse(cell string) (use, error) {
	text := strings.TrimSpace(cell)
	if text == "" {
		return use{}, fmt.Errorf("no name; want one of the columns that a list may have")
	}
	m := headed.FindStringSubmatch(text)
	if m == nil {
		return use{}, fmt.Errorf("%q cannot be read; want a name, and the unit in brackets as in design_airflow [cfm]", text)
	}
	c, err := columnNamed(m[1])
	if err != nil {
		return use{}, err
	}
	unit := m[2] + m[3] + m[4]
	switch {
	case unit == "":
	case c.kind == nil:
		return use{}, fmt.Errorf("%q has a unit, but %s is %s", text, c.Name, c.Kind)
	default:
		if _, err := c.kind.Parse("1 "+unit, ""); err != nil {
			return use{}, fmt.Errorf("%s: %q is not a unit of %s; want %s", c.Name, unit, c.kind.Name, c.kind.Wanted())
		}
	}
	return use{c, unit}, nil
}

func columnNamed(given string) (*column, error) {
	name := snake(given)
	names := make([]string, len(columns))
	for i := range columns {
		if columns[i].Name == name {
			return &columns[i], nil
		}
		names[i] = columns[i].Name
	}
	if strings.HasPrefix(name, resultPrefix) || name == errorColumn {
		return nil, fmt.Errorf("%q is a column that the screening writes; take it out of the list", given)
	}
	if near := fieldpath.Nearest(name, names); near != "" {
		return nil, fmt.Errorf("%q is not a column of a list of homes; want %q?", given, near)
	}
	return nil, fmt.Errorf("%q is not a column of a list of homes", given)
}

// snake folds a name onto the spelling of the job file.
func snake(s string) string {
	return strings.NewReplacer("-", "_", " ", "_").Replace(strings.ToLower(strings.TrimSpace(s)))
}
