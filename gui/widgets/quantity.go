package widgets

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"returnbench/sizing/units"
)

// QuantityOptions describe a Quantity field.
type QuantityOptions struct {
	Label string
	Kind  *units.Kind
	Get   func() float64      // SI; zero is left open
	Set   func(si float64)    // on every typed text that can be read
	Unit  func() units.System // of a bare number
	Hint  string
	// In names the unit of a bare number in IP and in SI, where it is not the
	// usual one of the kind.
	In [2]string

	AllowZero     bool // zero is a value, not "left open"
	ZeroIsOpen    bool // zero may be typed, and is the same as leaving it open
	AllowNegative bool
}

// unit is that of a bare number.
func (o *QuantityOptions) unit() *units.Unit {
	sys := o.Unit()
	if name := o.In[sys]; name != "" {
		return o.Kind.Unit(name)
	}
	return o.Kind.Usual(sys)
}

// Quantity is a field for a number with a unit. A bare number is read in the
// usual unit of the system; any unit of the kind may be typed after it.
type Quantity struct {
	typed
	opts QuantityOptions
}

// NewQuantity makes the field.
func NewQuantity(opts QuantityOptions) *Quantity {
	q := &Quantity{opts: opts}
	q.entry = newEntry()
	q.hint = opts.Hint
	q.state = func() string { return exact(opts.Get()) }
	q.unitNow = func() string { return q.opts.unit().Label() }
	q.one = func() string { return q.opts.unit().Name }
	q.show = q.text
	q.take = q.typedText
	q.start(opts.Label, q.entry)
	return q
}

func exact(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

func (q *Quantity) text() string {
	si := q.opts.Get()
	if si == 0 && !q.opts.AllowZero {
		return ""
	}
	return NumberText(si, q.opts.unit())
}

func (q *Quantity) typedText(text string) (state, fault string) {
	si, fault := readQuantity(q.opts.Kind, text, q.opts.unit(), q.opts.AllowZero || q.opts.ZeroIsOpen, q.opts.AllowNegative)
	if fault != "" {
		return "", fault
	}
	q.opts.Set(si)
	return exact(si), ""
}

// shownDigits is how long an exact number may be before a rounded one stands
// for it on the screen. The value itself is never rounded: it changes only
// when a person types.
const shownDigits = 7

// NumberText spells si as a number of a unit: exactly where that is short, else
// in five figures.
func NumberText(si float64, u *units.Unit) string {
	text := u.Number(si)
	if len(text) <= shownDigits {
		return text
	}
	n, err := strconv.ParseFloat(text, 64)
	if err != nil || n == 0 {
		return text
	}
	decimals := max(0, 4-int(math.Floor(math.Log10(math.Abs(n)))))
	rounded := strconv.FormatFloat(n, 'f', decimals, 64)
	if strings.Contains(rounded, ".") {
		rounded = strings.TrimRight(strings.TrimRight(rounded, "0"), ".")
	}
	return rounded
}

// readQuantity reads a typed text; an empty one leaves the value open.
func readQuantity(k *units.Kind, text string, bare *units.Unit, zero, negative bool) (si float64, fault string) {
	if strings.TrimSpace(text) == "" {
		return 0, ""
	}
	si, err := k.Parse(text, bare.Name)
	if err != nil {
		var p *units.ParseError
		if errors.As(err, &p) {
			return 0, fmt.Sprintf("%s; want %s", p.Reason, k.Wanted())
		}
		return 0, err.Error()
	}
	switch {
	case si < 0 && !negative:
		return 0, fmt.Sprintf("%s is below zero; want zero or more", strings.TrimSpace(text))
	case si == 0 && !zero:
		return 0, "zero is no " + k.Name + " here; leave the field empty to have one assumed"
	}
	return si, ""
}
