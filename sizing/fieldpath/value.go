package fieldpath

import (
	"encoding"
	"fmt"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Value is a field of a certain job, or an element of one of its lists.
type Value struct {
	Field
	v reflect.Value
}

// Reflect is the value itself.
func (v Value) Reflect() reflect.Value { return v.v }

// Quantity is the kind of a quantity, nil for any other value.
func (v Value) Quantity() *units.Kind { return QuantityOf(v.Type) }

// IsNumber reports whether it is a quantity or a plain number that is not optional.
func (v Value) IsNumber() bool { return v.Type.Kind() == reflect.Float64 || v.IsWhole() }

// IsWhole reports whether it is a whole number.
func (v Value) IsWhole() bool { return v.Type.Kind() == reflect.Int }

// IsText reports whether it is a text or a word.
func (v Value) IsText() bool { return v.Type.Kind() == reflect.String }

// IsOpen reports whether the value is left open.
func (v Value) IsOpen() bool { return v.v.IsZero() && v.ZeroIsOpen() }

// SameKind reports whether two fields accept the same texts.
func (v Value) SameKind(other Value) bool {
	return v.Type.Kind() == other.Type.Kind() && v.Quantity() == other.Quantity()
}

// Text is the value as Set takes it: "16 in", "psc". An optional number that is
// left open has none.
func (v Value) Text() string {
	at := v.v
	if at.Kind() == reflect.Pointer {
		if at.IsNil() {
			return ""
		}
		at = at.Elem()
	}
	return fmt.Sprint(at.Interface())
}

// Number reads a text as a number of the field, in SI. The error is an *Error or
// a *units.ParseError.
func (v Value) Number(text string) (float64, error) {
	if k := v.Quantity(); k != nil {
		return k.Parse(text, "")
	}
	wanted := message.New("a number")
	if v.IsWhole() {
		wanted = message.New("a whole number")
	}
	n, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	if err != nil || math.IsInf(n, 0) || math.IsNaN(n) || v.IsWhole() && (n != math.Trunc(n) || math.Abs(n) > mostWhole) {
		return 0, &Error{Path: v.Name, Given: strconv.Quote(text), Wanted: wanted}
	}
	return n, nil
}

// mostWhole is larger than any count of a house.
const mostWhole = 1e9

// SetNumber puts a number, in SI, into the field; a whole one is rounded.
func (v Value) SetNumber(n float64) {
	if v.IsWhole() {
		v.v.SetInt(int64(math.Round(n)))
		return
	}
	v.v.SetFloat(n + 0) // minus zero is zero
}

// Set puts a text into the field as a file would have it. Where it cannot be read
// the field stays as it was.
func (v Value) Set(text string) error {
	switch v.Type.Kind() {
	case reflect.Pointer:
		return v.setOptional(text)
	case reflect.Bool:
		return v.setBool(text)
	case reflect.String:
		if words := WordsOf(v.Type); words != nil && text != "" && !slices.Contains(words, text) {
			return &Error{Path: v.Name, Given: strconv.Quote(text), Wanted: NearestWord(text, words)}
		}
		v.v.SetString(text)
		return nil
	case reflect.Struct, reflect.Slice:
		return &Error{Path: v.Name, Given: strconv.Quote(text), Wanted: message.New("the path of one value in it: {path}", "path", v.example())}
	}
	if u, ok := v.v.Addr().Interface().(encoding.TextUnmarshaler); ok {
		return u.UnmarshalText([]byte(text))
	}
	n, err := v.Number(text)
	if err == nil {
		v.SetNumber(n)
	}
	return err
}

// setOptional puts in a number, or leaves it open where there is no text.
func (v Value) setOptional(text string) error {
	if text == "" {
		v.v.SetZero()
		return nil
	}
	to := v.Field
	to.Type = v.Type.Elem()
	made := Value{Field: to, v: reflect.New(to.Type).Elem()}
	if err := made.Set(text); err != nil {
		return err
	}
	v.v.Set(made.v.Addr())
	return nil
}

func (v Value) setBool(text string) error {
	if text != "true" && text != "false" {
		return &Error{Path: v.Name, Given: strconv.Quote(text), Wanted: message.New("true or false")}
	}
	v.v.SetBool(text == "true")
	return nil
}

// example is the path of the first value that it holds.
func (v Value) example() string { return leaves(v.Type, v.Name)[0] }
