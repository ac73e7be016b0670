package jobfile

import (
	"reflect"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing/fieldpath"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// kindOf is the kind of JSON value that a Go type is written as; both booleans
// are 'f'.
func kindOf(t reflect.Type) jsontext.Kind {
	if fieldpath.QuantityOf(t) != nil {
		return '"'
	}
	switch t.Kind() {
	case reflect.Struct:
		return '{'
	case reflect.Slice:
		return '['
	case reflect.Bool:
		return 'f'
	case reflect.String:
		return '"'
	default:
		return '0'
	}
}

func kindWord(k jsontext.Kind) message.ID {
	switch k {
	case '{':
		return "an object in braces"
	case '[':
		return "a list in brackets"
	case '"':
		return "a text"
	case '0':
		return "a number"
	case 'n':
		return "null"
	default:
		return "true or false"
	}
}

// wantedOf describes what a type accepts.
func wantedOf(t reflect.Type) message.Message {
	if k := fieldpath.QuantityOf(t); k != nil {
		return message.New("{wanted}, as text such as {example}", "wanted", message.WantedOf(k), "example", strconv.Quote(exampleOf(k)))
	}
	switch t.Kind() {
	case reflect.Int:
		return message.New("a whole number")
	case reflect.String:
		if words := fieldpath.WordsOf(t); words != nil {
			return fieldpath.OneOf(words)
		}
	}
	return message.New(kindWord(kindOf(t)))
}

// exampleOf is a text that a kind accepts.
func exampleOf(k *units.Kind) string {
	if text, ok := examples[k.Name]; ok {
		return text
	}
	return k.Text(k.Units[0].Scale)
}

var examples = map[string]string{
	"airflow":                      "1200 cfm",
	"pressure":                     "0.25 in. w.c.",
	"length":                       "20 in",
	"area":                         "320 in2",
	"speed":                        "300 fpm",
	"temperature":                  "75 F",
	"temperature difference":       "35 F",
	"power":                        "450 W",
	"heat rate":                    "60000 Btu/h",
	"cooling capacity":             "3 ton",
	"airflow per cooling capacity": "400 cfm/ton",
	"energy price":                 "0.15 $/kWh",
	"amount of money":              "30 $",
	"mass":                         "120 g",
	"dust rate":                    "1.2 g/day",
	"time span":                    "3 month",
	"rotational speed":             "1050 rpm",
	"media resistance":             "60 Pa s/m",
	"air permeability":             "120 cfm/ft2",
}
