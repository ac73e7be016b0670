package jobfile

import (
	"encoding"
	"errors"
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// walker goes once through a JSON text that is known to be well formed. It sets
// each field that it can read and gathers a fault for each one that it cannot.
type walker struct {
	dec    *jsontext.Decoder
	faults sizing.FieldErrors
	more   int // faults beyond those reported
}

func (w *walker) fault(path string, given any, wanted message.Message) {
	if len(w.faults) == sizing.MostFaults {
		w.more++
		return
	}
	w.faults = append(w.faults, sizing.NewFieldError(path, given, wanted))
}

// value reads the next value into dst, which f describes.
func (w *walker) value(path string, dst reflect.Value, f fieldpath.Field) {
	if dst.Kind() == reflect.Pointer {
		w.pointed(path, dst)
		return
	}
	wanted := wantedOf(dst.Type())
	kind := w.dec.PeekKind()
	if kind != kindOf(dst.Type()) {
		if kind == 't' && kindOf(dst.Type()) == 'f' {
			kind = 'f'
		} else {
			w.wrongKind(path, wanted)
			return
		}
	}
	switch {
	case kind == '{':
		w.object(path, dst)
	case kind == '[':
		w.list(path, dst, f)
	case kind == 'f':
		t, _ := w.dec.ReadToken()
		dst.SetBool(t.Bool())
	case kind == '0':
		v, _ := w.dec.ReadValue()
		w.number(path, dst, f, string(v))
	default:
		t, _ := w.dec.ReadToken()
		w.text(path, dst, f, t.String())
	}
}

// pointed reads an optional value, of which zero is a value too; at a fault it
// stays nil.
func (w *walker) pointed(path string, dst reflect.Value) {
	before := len(w.faults)
	v := reflect.New(dst.Type().Elem())
	w.value(path, v.Elem(), fieldpath.Field{Required: true})
	if len(w.faults) == before {
		dst.Set(v)
	}
}

func (w *walker) wrongKind(path string, wanted message.Message) {
	v, _ := w.dec.ReadValue()
	if v.Kind() == 'n' {
		wanted = message.New("{wanted}; leave the name out where the value is not known", "wanted", wanted)
	}
	w.fault(path, brief(v), wanted)
}

func (w *walker) object(path string, dst reflect.Value) {
	fields := fieldpath.Fields(dst.Type())
	var seen []string
	_, _ = w.dec.ReadToken()
	for w.dec.PeekKind() != '}' {
		token, _ := w.dec.ReadToken()
		name := token.String()
		at := fieldpath.Join(path, spelled(name))
		i := slices.IndexFunc(fields, func(f fieldpath.Field) bool { return f.Name == name })
		switch {
		case i < 0 && len(w.faults) == sizing.MostFaults:
			w.more++
			_ = w.dec.SkipValue()
		case i < 0:
			w.fault(at, message.ID("a name that is not known here"), fieldpath.NearestName(name, fields))
			_ = w.dec.SkipValue()
		case slices.Contains(seen, name):
			w.fault(at, message.ID("the same name twice"), message.New("one value"))
			_ = w.dec.SkipValue()
		default:
			seen = append(seen, name)
			w.value(at, fields[i].In(dst), fields[i])
		}
	}
	_, _ = w.dec.ReadToken()
	for _, f := range fields {
		if f.Required && !slices.Contains(seen, f.Name) {
			w.fault(fieldpath.Join(path, f.Name), nothing, wantedOf(f.Type))
		}
	}
}

func (w *walker) list(path string, dst reflect.Value, f fieldpath.Field) {
	_, _ = w.dec.ReadToken()
	i, most := 0, sizing.MostItems(dst.Type().Elem())
	for ; w.dec.PeekKind() != ']'; i++ {
		if i >= most {
			_ = w.dec.SkipValue()
			continue
		}
		element := reflect.New(dst.Type().Elem()).Elem()
		w.value(fieldpath.At(path, i), element, f.Element())
		dst.Set(reflect.Append(dst, element))
	}
	_, _ = w.dec.ReadToken()
	if i > most {
		w.fault(path, message.New("{count} items", "count", i), message.New("at most {most}", "most", most))
	}
}

func (w *walker) number(path string, dst reflect.Value, f fieldpath.Field, text string) {
	v, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil:
		w.fault(path, text, message.New("a number that is not so large"))
	case v == 0 && f.ZeroIsOpen():
		w.fault(path, text, message.New("a number other than zero; leave the name out where the value is not known"))
	case dst.Kind() == reflect.Float64:
		dst.SetFloat(v + 0) // minus zero is zero
	case v != math.Trunc(v) || math.Abs(v) > 1e9:
		w.fault(path, text, message.New("a whole number"))
	default:
		dst.SetInt(int64(v))
	}
}

func (w *walker) text(path string, dst reflect.Value, f fieldpath.Field, text string) {
	if n, most := utf8.RuneCountInString(text), sizing.MostLetters(f.Name); n > most {
		w.fault(path, message.New("{count} letters", "count", n), message.New("at most {most}", "most", most))
		return
	}
	q, ok := dst.Addr().Interface().(encoding.TextUnmarshaler)
	if !ok {
		// A required word may still be open in a job that is being edited; the
		// engine's check asks for it.
		open := text == "" && f.Required && f.Owner != nil
		if words := fieldpath.WordsOf(dst.Type()); words != nil && !open && !slices.Contains(words, text) {
			w.fault(path, quote(text), fieldpath.NearestWord(text, words))
			return
		}
		dst.SetString(text)
		return
	}
	if err := q.UnmarshalText([]byte(text)); err != nil {
		wanted := wantedOf(dst.Type())
		if p := new(units.ParseError); errors.As(err, &p) {
			wanted = message.New("{wanted} ({reason})", "wanted", message.WantedOf(p.Kind), "reason", message.ReasonOf(p))
		}
		w.fault(path, quote(text), wanted)
		return
	}
	if dst.Float() == 0 {
		dst.SetFloat(0) // minus zero is zero
		if f.ZeroIsOpen() {
			w.fault(path, quote(text), message.New("{wanted} other than zero; leave the name out where the value is not known", "wanted", wantedOf(dst.Type())))
		}
	}
}

// spelled is any name of a file as a path shows it.
func spelled(name string) string {
	if strings.ContainsAny(name, ".[] \"\n\t") || name == "" {
		name = quote(name)
	}
	return shorten(name)
}

// nothing is what a message shows where a name is missing.
const nothing message.ID = "nothing"

// brief is a value as a message shows it: a text, or a term.
func brief(v jsontext.Value) any {
	switch v.Kind() {
	case '{', '[':
		return kindWord(v.Kind())
	case '"':
		t, err := jsontext.AppendUnquote(nil, v)
		if err == nil {
			return quote(string(t))
		}
	}
	return shorten(string(v))
}

func quote(text string) string { return strconv.Quote(shorten(text)) }

// shorten keeps a message readable whatever a file holds.
func shorten(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "..."
	}
	return text
}
