package session

import (
	"reflect"

	"returnbench/sizing"
)

// Differences counts the values in which two Jobs differ; what one has and the
// other lacks counts with all its values.
func Differences(a, b sizing.Job) int {
	return differences(reflect.ValueOf(a), reflect.ValueOf(b))
}

func differences(a, b reflect.Value) int {
	n := 0
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			n += differences(a.Field(i), b.Field(i))
		}
	case reflect.Slice:
		none := reflect.Zero(a.Type().Elem())
		for i := range max(a.Len(), b.Len()) {
			switch {
			case i >= a.Len():
				n += max(differences(none, b.Index(i)), 1)
			case i >= b.Len():
				n += max(differences(a.Index(i), none), 1)
			default:
				n += differences(a.Index(i), b.Index(i))
			}
		}
	case reflect.Pointer:
		switch {
		case a.IsNil() && b.IsNil():
		case a.IsNil() || b.IsNil():
			n = 1
		default:
			n = differences(a.Elem(), b.Elem())
		}
	default:
		if !a.Equal(b) {
			n = 1
		}
	}
	return n
}
