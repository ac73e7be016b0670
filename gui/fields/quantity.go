package fields

import (
	"strings"

	"returnbench/gui/parse"
	"returnbench/sizing/units"
)

// QuantityOptions describe a Quantity field.
type QuantityOptions struct {
	Label string
	Tip   string // on a term that the label names; empty: it names none
	Kind  *units.Kind
	Get   func() float64      // SI; zero is left open
	Set   func(si float64)    // on every typed text that can be read
	Unit  func() units.Locale // of a number without a unit, with its decimal mark
	Hint  string
	// In names the unit of a number without a unit in IP and in SI, where it is not the
	// usual one of the kind.
	In [2]string

	AllowZero     bool // zero is a value, not "left open"
	ZeroIsOpen    bool // zero may be typed, and is the same as leaving it open
	AllowNegative bool
}

// unit is that of a number without a unit.
func (o *QuantityOptions) unit() *units.Unit {
	sys := o.Unit()
	if name := o.In[sys.System]; name != "" {
		return o.Kind.Unit(name)
	}
	return o.Kind.Usual(sys)
}

// Quantity is a field for a number with a unit. A number without a unit is read in the
// usual unit of the system; any unit of the kind may be typed after it.
type Quantity struct {
	typedText
	opts QuantityOptions
	// what was typed last as a number without a unit: it stays as typed
	typed struct {
		text, unit string
		si         float64
	}
}

// NewQuantity makes the field.
func NewQuantity(opts QuantityOptions) *Quantity {
	q := &Quantity{opts: opts}
	q.entry = NewEntry()
	q.hint = opts.Hint
	q.state = func() string { return parse.Exact(opts.Get()) }
	q.unitNow = func() string { return q.opts.unit().Label() }
	q.one = func() string { return q.opts.unit().Name }
	q.show = q.text
	q.take = q.readText
	q.start(opts.Label, opts.Tip, q.entry)
	return q
}

func (q *Quantity) text() string {
	si := q.opts.Get()
	if si == 0 && !q.opts.AllowZero {
		return ""
	}
	if si == q.typed.si && q.typed.unit == q.opts.unit().Name {
		return q.typed.text
	}
	return parse.ShownText(q.opts.Unit(), q.opts.Kind, si, q.opts.unit())
}

func (q *Quantity) readText(text string) (state, fault string) {
	si, fault := parse.Quantity(q.opts.Unit(), q.opts.Kind, text, q.opts.unit(), q.opts.AllowZero || q.opts.ZeroIsOpen, q.opts.AllowNegative)
	if fault != "" {
		return "", fault
	}
	q.typed.text, q.typed.si, q.typed.unit = "", 0, ""
	if bare := strings.TrimSpace(text); bare != "" && strings.Trim(bare, "0123456789.,") == "" {
		q.typed.text, q.typed.si, q.typed.unit = bare, si, q.opts.unit().Name
	}
	q.opts.Set(si)
	return parse.Exact(si), ""
}
