package sizing

import (
	"fmt"

	"returnbench/sizing/units"
)

// Working is the steps behind a headline number.
type Working struct {
	Key   string `json:"key"` // path of the number in the Study: "options[1].clean.airflow"
	Name  string `json:"name"`
	Steps []Step `json:"steps"`
}

// Step is one line of a working.
type Step struct {
	Text    string `json:"text"`    // what is done, in words
	Formula string `json:"formula"` // "rise = output / (rho cp Q)"
	Numbers string `json:"numbers"` // the formula with numbers in, IP units
	Result  string `json:"result"`
	Source  string `json:"source"`

	format string
	args   []any
	result any
}

// newStep builds a step whose numbers can be shown in either system.
func newStep(text, formula, source string, result any, format string, args ...any) Step {
	s := Step{Text: text, Formula: formula, Source: source, format: format, args: args, result: result}
	s.Numbers, s.Result = s.In(units.IP)
	return s
}

// In gives the numbers and the result in the units of a system.
func (s Step) In(sys units.System) (numbers, result string) {
	if s.format == "" {
		return s.Numbers, s.Result
	}
	return fmt.Sprintf(s.format, shown(s.args, sys)...), fmt.Sprint(shown([]any{s.result}, sys)[0])
}
