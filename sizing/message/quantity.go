package message

import (
	"errors"
	"slices"
	"strconv"
	"strings"

	"returnbench/sizing/units"
)

// kindNames are the names of the kinds of quantity for a reader.
var kindNames = map[string]ID{
	"airflow":                      "airflow",
	"pressure":                     "pressure",
	"length":                       "length",
	"area":                         "area",
	"speed":                        "speed",
	"temperature":                  "temperature",
	"temperature difference":       "temperature difference",
	"power":                        "power",
	"heat rate":                    "heat rate",
	"cooling capacity":             "cooling capacity",
	"airflow per cooling capacity": "airflow per cooling capacity",
	"fan efficacy":                 "fan efficacy",
	"energy":                       "energy",
	"energy price":                 "energy price",
	"amount of money":              "amount of money",
	"mass":                         "mass",
	"dust rate":                    "dust rate",
	"density":                      "density",
	"time span":                    "time span",
	"rotational speed":             "rotational speed",
	"force":                        "force",
	"media resistance":             "media resistance",
	"air permeability":             "air permeability",
	"friction rate":                "friction rate",
}

// wanted describe what the kinds accept.
var wanted = map[string]ID{
	"airflow":                      "an airflow in {units}",
	"pressure":                     "a pressure in {units}",
	"length":                       "a length in {units}",
	"area":                         "an area in {units}",
	"speed":                        "a speed in {units}",
	"temperature":                  "a temperature in {units}",
	"temperature difference":       "a temperature difference in {units}",
	"power":                        "a power in {units}",
	"heat rate":                    "a heat rate in {units}",
	"cooling capacity":             "a cooling capacity in {units}",
	"airflow per cooling capacity": "an airflow per cooling capacity in {units}",
	"fan efficacy":                 "a fan efficacy in {units}",
	"energy":                       "an energy in {units}",
	"energy price":                 "an energy price in {units}",
	"amount of money":              "an amount of money in {units}",
	"mass":                         "a mass in {units}",
	"dust rate":                    "a dust rate in {units}",
	"density":                      "a density in {units}",
	"time span":                    "a time span in {units}",
	"rotational speed":             "a rotational speed in {units}",
	"force":                        "a force in {units}",
	"media resistance":             "a media resistance in {units}",
	"air permeability":             "an air permeability in {units}",
	"friction rate":                "a friction rate in {units}",
}

// reasons describe what is wrong with a text.
var reasons = map[units.Reason]ID{
	units.NothingGiven:     ID(units.NothingGiven),
	units.NoNumber:         ID(units.NoNumber),
	units.CommaInNumber:    ID(units.CommaInNumber),
	units.UnreadableNumber: ID(units.UnreadableNumber),
	units.NoUnit:           ID(units.NoUnit),
	units.UnknownUnit:      ID(units.UnknownUnit),
	units.TooLarge:         ID(units.TooLarge),
}

// KindName is the name of a kind of quantity for a reader: "airflow".
func KindName(k *units.Kind) ID { return kindNames[k.Name] }

// WantedOf describes what a kind of quantity accepts: "an airflow in cfm, L/s or
// m3/h".
func WantedOf(k *units.Kind) Message {
	names := make([]any, len(k.Units))
	for i, u := range k.Units {
		names[i] = u.Name
	}
	return New(wanted[k.Name], "units", Choice(names))
}

// ReasonOf is what is wrong with a text that was read as a quantity.
func ReasonOf(e *units.ParseError) Message {
	if e.Reason == units.UnknownUnit {
		return New(reasons[e.Reason], "unit", strconv.Quote(e.Unit), "kind", KindName(e.Kind))
	}
	return New(reasons[e.Reason])
}

// unread is the whole message about a text that is no quantity.
func unread(e *units.ParseError) Message {
	return New("{given}: {reason}; want {wanted}", "given", strconv.Quote(e.Given), "reason", ReasonOf(e), "wanted", WantedOf(e.Kind))
}

// OfError is an error as a message: its own message, or else its text.
func OfError(err error) Message {
	for e := err; e != nil && e.Error() == err.Error(); e = errors.Unwrap(e) {
		switch e := e.(type) {
		case *units.ParseError:
			return unread(e)
		case interface{ In(units.Locale) string }:
			return Verbatim(e)
		}
	}
	return Verbatim(err)
}

// Verbatim is a message that is its argument alone: a name, or a text written
// elsewhere.
func Verbatim(v any) Message { return New("{text}", "text", v) }

// Choice is messages, texts or quantities in a row, the last two joined by "or".
type Choice []any

// Show writes the choice: "a", "a or b", "a, b or c".
func (s Choice) Show(l units.Locale) string {
	items := make([]string, len(s))
	for i, v := range s {
		items[i] = write(l, v)
	}
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return Text(l, "{items} or {last}", "items", strings.Join(items[:last], ", "), "last", items[last])
}

// Exact is a quantity as a file has it, for Writing.
func Exact(q units.Quantity) string { return q.Kind().Text(q.SI()) }

// Rounded is a message whose quantities Writing leaves as they are: they are rounded
// for a reader.
type Rounded struct{ Message }

// Writing is the message with each quantity in it, also in messages within it,
// spelled by write.
func (m Message) Writing(write func(units.Quantity) string) Message {
	return m.Map(func(a any) any {
		if q, ok := a.(units.Quantity); ok {
			return write(q)
		}
		return a
	})
}

// Map is the message with the value of each argument, also in messages within it, as
// change has it.
func (m Message) Map(change func(any) any) Message {
	args := slices.Clone(m.Args)
	for i := 1; i < len(args); i += 2 {
		if inner, ok := args[i].(Message); ok {
			args[i] = inner.Map(change)
		} else {
			args[i] = change(args[i])
		}
	}
	return Message{m.ID, args}
}

// Map is Map of each sentence.
func (s Sentences) Map(change func(any) any) Sentences {
	out := make(Sentences, len(s))
	for i, m := range s {
		out[i] = m.Map(change)
	}
	return out
}
