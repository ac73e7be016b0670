package session

import (
	"fmt"
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"returnbench/sizing"
)

// fill gives every field of v a value, and every slice two items, so that a
// field added to the Job later is met too.
func fill(v reflect.Value, next func() float64) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			fill(v.Field(i), next)
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 5))
		for i := range v.Len() {
			fill(v.Index(i), next)
		}
	case reflect.Array:
		for i := range v.Len() {
			fill(v.Index(i), next)
		}
	case reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		fill(v.Elem(), next)
	case reflect.String:
		v.SetString(fmt.Sprint("text ", next()))
	case reflect.Float64:
		v.SetFloat(next())
	case reflect.Int:
		v.SetInt(int64(next()))
	case reflect.Bool:
		v.SetBool(true)
	default:
		panic("a Job holds a " + v.Kind().String() + ": teach Job.Clone about it")
	}
}

func full(t *rapid.T) sizing.Job {
	var j sizing.Job
	fill(reflect.ValueOf(&j).Elem(), func() float64 { return rapid.Float64Range(1, 99).Draw(t, "field") })
	return j
}

// shared lists the paths at which two values hold one and the same slice, or
// point to the same value.
func shared(a, b reflect.Value, path string) (out []string) {
	switch a.Kind() {
	case reflect.Struct:
		for i := range a.NumField() {
			out = append(out, shared(a.Field(i), b.Field(i), path+"."+a.Type().Field(i).Name)...)
		}
	case reflect.Pointer:
		if !a.IsNil() && a.Pointer() == b.Pointer() {
			out = append(out, path)
		}
	case reflect.Slice:
		if a.Len() > 0 && a.Pointer() == b.Pointer() {
			out = append(out, path)
		}
		for i := range a.Len() {
			out = append(out, shared(a.Index(i), b.Index(i), fmt.Sprintf("%s[%d]", path, i))...)
		}
	}
	return out
}

func TestTheSessionsCopiesShareNoSlice(t *testing.T) {
	var j sizing.Job
	n := 0.0
	fill(reflect.ValueOf(&j).Elem(), func() float64 { n++; return n })
	c := j.Clone()
	require.Equal(t, j, c)
	require.Empty(t, shared(reflect.ValueOf(j), reflect.ValueOf(c), "job"))
	require.Equal(t, sizing.Job{}, sizing.Job{}.Clone(), "nil slices stay nil")
}
