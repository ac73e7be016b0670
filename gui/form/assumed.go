package form

import (
	"slices"
	"strings"

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
		for _, a := range s.Assumptions {
			if a.Path == path {
				return value(a.Text, b.kind, sys)
			}
		}
	}
	return ""
}

// value is the end of an assumption that states one, in the units in use, or
// else the whole sentence.
func value(text string, kind *units.Kind, sys units.System) string {
	_, end, ok := strings.Cut(text, ": ")
	if !ok || kind == nil {
		return text
	}
	si, err := kind.Parse(end, "")
	if err != nil {
		return text
	}
	return kind.Show(si, sys)
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
