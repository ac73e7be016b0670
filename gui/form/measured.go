package form

import (
	"strconv"

	"returnbench/gui/widgets"
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// Measured adds a quantity whose usual unit is not the one the trade reads it
// in here: feet of duct, hours a year. The text holds its unit; a bare number
// is read in it.
func Measured[T quantity](b *Builder, path, label string, at func(*sizing.Job) *T, ip, si string, looks ...QuantityLook) {
	var look QuantityLook
	for _, l := range looks {
		look = l
	}
	kind := T(0).Kind()
	name := func() string {
		if b.model().Units() == units.SI {
			return si
		}
		return ip
	}
	read := func(text string) (T, error) {
		if text == "" {
			return 0, nil
		}
		v, err := kind.Parse(text, name())
		return T(v), err
	}
	hint := look.Hint
	if hint == "" {
		hint = "in " + name()
	}
	b.add(widgets.NewText(widgets.TextOptions{
		Label: label, Hint: hint,
		Get: func() string {
			v := get(b, at)
			if v == 0 {
				return ""
			}
			return inUnit(float64(v), unitNamed(kind, name()))
		},
		Check: func(text string) string {
			v, err := read(text)
			switch {
			case err != nil:
				return "want " + kind.Wanted()
			case v < 0 && !look.Negated:
				return "it is below zero; want zero or more"
			}
			return ""
		},
		Set: func(text string) {
			v, _ := read(text) // Check has read it before
			set(b, path, label, at, v)
		},
	}), nil, path)
	b.last().covered = look.Covered
}

func unitNamed(kind *units.Kind, name string) units.Unit {
	for _, u := range kind.Units {
		if u.Name == name {
			return u
		}
	}
	panic("form: " + kind.Name + " has no unit " + name)
}

// inUnit writes a value in a unit, in seven figures; the value itself changes
// only when it is typed.
func inUnit(si float64, u units.Unit) string {
	n := (si - u.Offset) / u.Scale
	return strconv.FormatFloat(n, 'g', 7, 64) + " " + u.Name
}
