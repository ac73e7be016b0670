package study

import (
	"fmt"
	"strings"

	"returnbench/sizing/units"
)

// Working is the steps behind a headline number.
type Working struct {
	Key  string `json:"key"` // path of the number in the Study: "options[1].clean.airflow"
	Name string `json:"name"`
	// Filter is the state of the filters, clean or loaded; empty where the number
	// has only one, as of the house with no filter.
	Filter string `json:"filter,omitzero"`
	Steps  []Step `json:"steps"`
}

// Step is one line of a working.
type Step struct {
	Text    string `json:"text"`    // what is done, in words
	Formula string `json:"formula"` // "rise = output / (rho cp Q)"
	Numbers string `json:"numbers"` // the formula with numbers in, IP units
	Result  string `json:"result"`
	Source  string `json:"source"`
	// Spread says that the step tells how far the number may be off, after it.
	Spread bool `json:"spread,omitzero"`

	format string
	args   []any
	result any
	// of a step that can be checked by hand
	equation [2]string   // by system
	Inputs   []StepInput `json:"-"`
}

// newStep builds a step whose numbers can be shown in either system.
func NewStep(text, formula, source string, result any, format string, args ...any) Step {
	s := Step{Text: text, Formula: formula, Source: source, format: format, args: args, result: result}
	s.Numbers, s.Result = s.In(units.IP)
	return s
}

// Result is the number that the steps lead to: that of the last step which does
// not tell of its spread.
func (w Working) Result(sys units.Locale) string {
	for i := len(w.Steps) - 1; i >= 0; i-- {
		if !w.Steps[i].Spread {
			_, result := w.Steps[i].In(sys)
			return result
		}
	}
	return ""
}

// In gives the numbers and the result in the units of a system.
func (s Step) In(sys units.Locale) (numbers, result string) {
	if len(s.Inputs) > 0 {
		texts := make([]string, len(s.Inputs))
		for i, n := range s.Inputs {
			texts[i] = n.in(sys)
		}
		return strings.Join(texts, "; "), fmt.Sprint(shown([]any{s.result}, sys)[0])
	}
	if s.format == "" {
		return s.Numbers, s.Result
	}
	return fmt.Sprintf(s.format, shown(s.args, sys)...), fmt.Sprint(shown([]any{s.result}, sys)[0])
}
