package message

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing/units"
)

// ID names an entry of the catalog. A constant of this type anywhere in the program
// is one, and a test holds the catalog to them.
type ID string

// Message is a sentence not yet written.
type Message struct {
	ID   ID
	Args []any // a name and a value in turn
}

// New is a message with its arguments, a name and a value in turn. The argument
// "count" chooses between singular and plural.
func New(id ID, args ...any) Message { return Message{id, args} }

// In writes the message for a reader.
func (m Message) In(l units.Locale) string { return Text(l, m.ID, m.Args...) }

// String writes the message in English, with inch-pound units.
func (m Message) String() string { return m.In(units.IP) }

// MarshalText writes the message in English, with inch-pound units, for files.
func (m Message) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// Empty reports whether there is nothing to say.
func (m Message) Empty() bool { return m.ID == "" }

// Text writes an entry of the catalog with its arguments: a name and a value in turn.
// Quantities are written in the units of the locale, messages in its language.
func Text(l units.Locale, id ID, args ...any) string {
	if id == "" {
		return ""
	}
	data := make(map[string]string, len(args)/2)
	var count any
	for i := 0; i+1 < len(args); i += 2 {
		name, ok := args[i].(string)
		if !ok {
			panic(fmt.Sprintf("message: %q: argument %d is %v, want a name", id, i, args[i]))
		}
		data[name] = write(l, args[i+1])
		if name == "count" {
			count = args[i+1]
		}
	}
	return lookUp(l, id, data, count)
}

// write spells one argument.
func write(l units.Locale, v any) string {
	switch v := v.(type) {
	case string:
		return v
	case ID:
		return Text(l, v)
	case int:
		return strconv.Itoa(v)
	case float64:
		return l.Mark(strconv.FormatFloat(v, 'g', -1, 64))
	case interface{ Show(units.Locale) string }:
		return v.Show(l)
	case interface{ In(units.Locale) string }:
		return v.In(l)
	case error:
		return Fault(l, v)
	}
	return fmt.Sprint(v)
}

// Number is a plain number with a fixed number of decimals.
type Number struct {
	Value    float64
	Decimals int
	Sign     bool // a plus sign before what is not negative
}

// Fixed is a number with its decimals, for an argument.
func Fixed(v float64, decimals int) Number { return Number{Value: v, Decimals: decimals} }

// Signed is Fixed with its sign, plus or minus.
func Signed(v float64, decimals int) Number { return Number{Value: v, Decimals: decimals, Sign: true} }

// Show writes the number with the decimal mark of a locale.
func (n Number) Show(l units.Locale) string {
	text := l.Mark(strconv.FormatFloat(n.Value, 'f', n.Decimals, 64))
	if n.Sign && !strings.HasPrefix(text, "-") {
		return "+" + text
	}
	return text
}

// List is messages, texts or quantities in a row, the last two joined by "and".
type List []any

// Show writes the list: "a", "a and b", "a, b and c".
func (s List) Show(l units.Locale) string {
	items := make([]string, len(s))
	for i, v := range s {
		items[i] = write(l, v)
	}
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return Text(l, "{items} and {last}", "items", strings.Join(items[:last], ", "), "last", items[last])
}

// Rows is messages, texts or quantities with a mark between them.
type Rows struct {
	Mark  string
	Items []any
}

// Show writes the rows.
func (s Rows) Show(l units.Locale) string {
	items := make([]string, len(s.Items))
	for i, v := range s.Items {
		items[i] = write(l, v)
	}
	return strings.Join(items, s.Mark)
}

// Sentences is messages one after another.
type Sentences []Message

// Show writes them with a space between them.
func (s Sentences) Show(l units.Locale) string {
	var out []string
	for _, m := range s {
		if text := m.In(l); text != "" {
			out = append(out, text)
		}
	}
	return strings.Join(out, " ")
}

// MarshalText writes them in English, with inch-pound units, for files.
func (s Sentences) MarshalText() ([]byte, error) { return []byte(s.Show(units.IP)), nil }

// In is Show.
func (s Sentences) In(l units.Locale) string { return s.Show(l) }

// Error is an error with a message. Its Error is English.
type Error struct {
	Message
	cause error
}

// Errorf is an error with a message. An argument that is an error is its cause.
func Errorf(id ID, args ...any) error {
	e := &Error{Message: New(id, args...)}
	for _, a := range args {
		if cause, ok := a.(error); ok {
			e.cause = cause
		}
	}
	return e
}

func (e *Error) Error() string { return e.String() }

// Unwrap is the cause.
func (e *Error) Unwrap() error { return e.cause }

// Fault writes an error for a reader: in the reader's language where the error
// has a message, or only wraps one that has.
func Fault(l units.Locale, err error) string {
	for e := err; e != nil && e.Error() == err.Error(); e = errors.Unwrap(e) {
		if m, ok := e.(interface{ In(units.Locale) string }); ok {
			return m.In(l)
		}
		switch f := e.(type) {
		case *units.ParseError:
			return unread(f).In(l)
		case *fs.PathError:
			return ofPath(l, f)
		case interface{ Unwrap() []error }:
			return eachOf(l, f.Unwrap())
		}
	}
	if id := ID(err.Error()); slices.Contains(systemFaults, id) {
		return Text(l, id)
	}
	return err.Error()
}

// systemFaults are the operating system's most frequent errors of a file.
var systemFaults = []ID{
	"file does not exist", "no such file or directory", "file already exists", "file exists", "permission denied", "operation not permitted",
	"no space left on device", "read-only file system", "is a directory", "not a directory", "file name too long", "input/output error",
}

// ofPath is a fault of a file. English keeps the system's own words, which name the call.
func ofPath(l units.Locale, f *fs.PathError) string {
	if l.Language == "" {
		return f.Error()
	}
	return Text(l, "{path}: {fault}", "path", f.Path, "fault", f.Err)
}

// eachOf writes errors that were joined, one a line.
func eachOf(l units.Locale, errs []error) string {
	lines := make([]string, len(errs))
	for i, err := range errs {
		lines[i] = Fault(l, err)
	}
	return strings.Join(lines, "\n")
}
