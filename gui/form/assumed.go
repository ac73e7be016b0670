package form

import (
	"slices"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// assumed tells what stands in for the field, empty where nothing does.
func (b *bound) assumed(s *sizing.Study, sys units.System) string {
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

// value is the quantity that stands in for the field, in the units in use, or
// else the whole sentence.
func (b *bound) value(a *sizing.Assumption, sys units.System) string {
	if a.Value == nil || a.Value.Kind() != b.kind {
		return a.In(sys)
	}
	return b.kind.Show(a.Value.SI(), sys)
}

// fault is what the engine found against the field.
func (b *bound) fault(faults sizing.FieldErrors) string {
	for _, path := range b.paths {
		if f := faults.At(path); f != nil {
			return Sentence(f)
		}
	}
	return ""
}

// Sentence puts a fault in words without its path.
func Sentence(f *sizing.FieldError) string {
	return "given " + f.Given + "; want " + f.Wanted
}
