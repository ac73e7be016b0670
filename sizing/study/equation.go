package study

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// StepInput is a number that goes into an equation.
type StepInput struct {
	Symbol string
	what   any        // to be read, as an argument of a message
	value  [2]float64 // in the unit shown, by system
	unit   [2]string
	word   message.ID // in place of the unit
}

// Input is a quantity in an equation, in the unit in which it is shown elsewhere.
func Input(symbol string, what message.ID, q units.Quantity) StepInput {
	in := StepInput{Symbol: symbol, what: what}
	for _, sys := range []units.Locale{units.IP, units.SI} {
		u := q.Kind().Usual(sys)
		in.value[sys.System], in.unit[sys.System] = (q.SI()-u.Offset)/u.Scale, u.Label()
	}
	return in
}

// InputNumber is a plain number in an equation, the same in either system.
func InputNumber(symbol string, what message.ID, v float64, unit string) StepInput {
	return StepInput{Symbol: symbol, what: what, value: [2]float64{v, v}, unit: [2]string{unit, unit}}
}

// InputIn is a quantity in units that are not those of its kind.
func InputIn(symbol string, what message.ID, ip, si float64, ipUnit, siUnit string) StepInput {
	return StepInput{Symbol: symbol, what: what, value: [2]float64{ip, si}, unit: [2]string{ipUnit, siUnit}}
}

// Named gives the input another name, one with arguments: a part, a message.
func (n StepInput) Named(what any) StepInput {
	n.what = what
	return n
}

// InUnit gives the input a unit that is a word: years.
func (n StepInput) InUnit(word message.ID) StepInput {
	n.word = word
	return n
}

// printedDigits of an input are enough for a result calculated from them by
// hand to have all digits printed.
const printedDigits = 7

// in writes the input: "airflow Q = 914.27 cfm".
func (n StepInput) in(sys units.Locale) string {
	return strings.TrimSpace(strings.TrimSpace(written(sys, n.what)+" "+n.Symbol) + " = " + strings.TrimSpace(n.Value(sys)+" "+n.unitIn(sys)))
}

// Value is the number alone, with the digits that a calculation by hand needs.
func (n StepInput) Value(sys units.Locale) string {
	if v := math.Abs(n.value[sys.System]); v < 1e-4 && v > 0 || v >= 1e7 {
		return sys.Mark(strconv.FormatFloat(n.value[sys.System], 'e', printedDigits-1, 64))
	}
	return sys.Mark(strconv.FormatFloat(n.value[sys.System], 'g', printedDigits, 64))
}

// Term is the meaning of an input's symbol, and its unit.
func (n StepInput) Term(sys units.Locale) (what, unit string) {
	return written(sys, n.what), n.unitIn(sys)
}

func (n StepInput) unitIn(sys units.Locale) string {
	if n.word != "" {
		return message.Text(sys, n.word)
	}
	return n.unit[sys.System]
}

// EquationStep is a step that can be checked by hand: the equation, in the units
// shown, gives the result from the inputs as they are printed. An empty equation
// for SI is the same as for IP.
func EquationStep(text, source message.ID, result any, ip, si string, inputs ...StepInput) Step {
	if si == "" {
		si = ip
	}
	s := Step{Text: message.New(text), Source: message.New(source), Formula: ip, equation: [2]string{ip, si}, Inputs: inputs, result: result}
	s.Numbers, s.Result = s.In(units.IP)
	return s
}

// Equation is the formula for the units of a reader.
func (s Step) Equation(sys units.Locale) string {
	text := s.equation[sys.System]
	switch {
	case text == "" && s.law != "":
		return message.Text(sys, s.law)
	case text == "":
		text = s.Formula
	}
	if sys.Comma {
		return decimal.ReplaceAllString(text, "$1,$2")
	}
	return text
}

// decimal finds the decimal point of a constant in an equation.
var decimal = regexp.MustCompile(`(\d)\.(\d)`)

// AsSpread marks the step as one about the possible error of the number.
func (s Step) AsSpread() Step {
	s.Spread = true
	return s
}

// Factor writes a constant of an equation.
func Factor(v float64) string { return strconv.FormatFloat(v, 'g', 8, 64) }
