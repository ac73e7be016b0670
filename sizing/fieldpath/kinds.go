package fieldpath

import (
	"reflect"
	"sync"
)

// Kinds is a set of kinds of Go values.
type Kinds uint

const anyKind = ^Kinds(0)

// KindsOf is the set of the kinds given.
func KindsOf(kinds ...reflect.Kind) (set Kinds) {
	for _, k := range kinds {
		set |= 1 << k
	}
	return set
}

// within reports whether a type is of the kinds or can contain a value that is.
func (s Kinds) within(t reflect.Type) bool {
	switch {
	case s&(1<<t.Kind()) != 0:
		return true
	case t.Kind() == reflect.Slice:
		return s.within(t.Elem())
	case t.Kind() == reflect.Struct:
		return len(leading(t, s)) > 0
	}
	return false
}

type typeAndKinds struct {
	reflect.Type
	Kinds
}

// fieldsKnown keeps the fields of each type: tags are slow to read.
var fieldsKnown = struct {
	sync.RWMutex
	of map[typeAndKinds][]Field
}{of: map[typeAndKinds][]Field{}}

// leading are the fields of a struct type that are of the kinds, or lead to one.
func leading(t reflect.Type, kinds Kinds) []Field {
	key := typeAndKinds{t, kinds}
	fieldsKnown.RLock()
	out, known := fieldsKnown.of[key]
	fieldsKnown.RUnlock()
	if known {
		return out
	}
	for _, f := range readFields(t) {
		if kinds == anyKind || kinds.within(f.Type) {
			out = append(out, f)
		}
	}
	fieldsKnown.Lock()
	fieldsKnown.of[key] = out
	fieldsKnown.Unlock()
	return out
}
