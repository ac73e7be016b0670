package form

import (
	"slices"
	"strings"

	"returnbench/gui/lang"
	"returnbench/gui/parse"
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// assumed is the value assumed for the field, empty where there is none.
func (b *boundField) assumed(s *sizing.Study, sys units.Locale) string {
	if s == nil {
		return ""
	}
	paths := b.paths
	if b.covered != "" {
		paths = append(slices.Clone(paths), b.covered)
	}
	for _, path := range paths {
		for i := range s.Assumptions {
			if a := &s.Assumptions[i]; a.Path == path {
				return b.value(a, sys)
			}
		}
	}
	return ""
}

// value is the quantity assumed for the field, in the units in use, or else the
// whole sentence.
func (b *boundField) value(a *sizing.Assumption, sys units.Locale) string {
	if a.Value == nil || a.Value.Kind() != b.kind {
		return a.In(sys)
	}
	if b.in[sys.System] != "" {
		return b.write(a.Value, sys)
	}
	return b.kind.Show(a.Value.SI(), sys)
}

// write spells a quantity as the field would hold it.
func (b *boundField) write(q units.Quantity, sys units.Locale) string {
	u := q.Kind().Usual(sys)
	if q.Kind() == b.kind && b.in[sys.System] != "" {
		u = b.kind.Unit(b.in[sys.System])
	}
	return strings.TrimSpace(parse.ShownText(sys, q.Kind(), q.SI(), u) + " " + u.Name)
}

// fault is what the engine found against the field.
func (b *boundField) fault(faults sizing.FieldErrors, sys units.Locale) string {
	for _, path := range b.paths {
		if f := faults.At(path); f != nil {
			return b.sentence(f, sys)
		}
	}
	return ""
}

// sentence puts a fault in words in the units of the field.
func (b *boundField) sentence(f *sizing.FieldError, sys units.Locale) string {
	given, wanted := f.Say(sys, func(q units.Quantity) string { return b.write(q, sys) })
	return sentence(given, wanted, sys)
}

// Sentence puts a fault in words without its path, as a file would have it.
func Sentence(f *sizing.FieldError) string {
	return sentence(f.Given, f.Wanted.Writing(message.Exact).In(lang.Locale()), lang.Locale())
}

// SentenceIn is Sentence in the units in use.
func SentenceIn(f *sizing.FieldError, sys units.Locale) string {
	return (&boundField{}).sentence(f, sys)
}

func sentence(given, wanted string, sys units.Locale) string {
	return message.Text(sys, "given {given}; want {wanted}", "given", given, "wanted", wanted)
}
