package study

import (
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Working is the steps behind a headline number.
type Working struct {
	Key  string          `json:"key"` // path of the number in the Study: "options[1].clean.airflow"
	Name message.Message `json:"name"`
	// Filter is the state of the filters, clean or loaded; empty where the number
	// has only one value, as for the house with no filter.
	Filter FilterState `json:"filter,omitzero"`
	Steps  []Step      `json:"steps"`
}

// Step is one line of a working.
type Step struct {
	Text    message.Message `json:"text"`    // what is done
	Formula string          `json:"formula"` // "rise = output / (rho cp Q)"
	Numbers string          `json:"numbers"` // the formula with numbers in, in English and IP units
	Result  string          `json:"result"`
	Source  message.Message `json:"source"`
	// Spread is true where the step is about the possible error of the number
	// before it.
	Spread bool `json:"spread,omitzero"`

	law     message.ID // a formula in words
	numbers message.Message
	result  any
	// of a step that can be checked by hand
	equation [2]string   // by system
	Inputs   []StepInput `json:"-"`
}

// NewStep is a step whose numbers are a sentence.
func NewStep(text, formula, source message.ID, result any, numbers message.ID, args ...any) Step {
	s := Step{Text: message.New(text), Formula: string(formula), Source: message.New(source), law: formula, numbers: message.New(numbers, args...), result: result}
	s.Numbers, s.Result = s.In(units.IP)
	return s
}

// Describing replaces the text of the step by one with arguments.
func (s Step) Describing(text message.ID, args ...any) Step {
	s.Text = message.New(text, args...)
	return s
}

// From replaces the source by one with arguments.
func (s Step) From(source message.ID, args ...any) Step {
	s.Source = message.New(source, args...)
	return s
}

// Result is the number to which the steps lead: that of the last step that is
// not about a possible error.
func (w Working) Result(sys units.Locale) string {
	for i := len(w.Steps) - 1; i >= 0; i-- {
		if !w.Steps[i].Spread {
			_, result := w.Steps[i].In(sys)
			return result
		}
	}
	return ""
}

// In writes the numbers and the result for a reader.
func (s Step) In(sys units.Locale) (numbers, result string) {
	switch {
	case len(s.Inputs) > 0:
		texts := make([]string, len(s.Inputs))
		for i, n := range s.Inputs {
			texts[i] = n.in(sys)
		}
		return strings.Join(texts, "; "), written(sys, s.result)
	case s.numbers.Empty():
		return s.Numbers, s.Result
	}
	return s.numbers.In(sys), written(sys, s.result)
}

// written is a value as an argument of a message is written.
func written(l units.Locale, v any) string { return message.List{v}.Show(l) }
