package export

import (
	"io"
	"math"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// JSON writes {"study": {...}, "workings": [...]}: quantities as text with the
// usual unit of the system, at full precision, and sentences in English in those units. A
// quantity that has no finite value is null.
func JSON(w io.Writer, s *sizing.Study, sys units.Locale) error {
	return Document{Study: s}.JSON(w, sys)
}

// JSON adds "ranges" where there are any.
func (d Document) JSON(w io.Writer, sys units.Locale) error {
	sys = machine(sys)
	document := struct {
		Study    *sizing.Study    `json:"study"`
		Ranges   *Ranges          `json:"ranges,omitzero"`
		Workings []sizing.Working `json:"workings"`
	}{d.study(), d.Ranges, d.Study.Workings()}
	err := json.MarshalWrite(w, document,
		jsontext.WithIndent("  "),
		json.WithMarshalers(json.JoinMarshalers(
			json.MarshalToFunc(quantityIn(sys)),
			json.MarshalToFunc(findingIn(sys)),
			json.MarshalToFunc(stepIn(sys)),
			json.MarshalToFunc(sizeWith(d.Study, sys)),
			json.MarshalToFunc(number),
		)))
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, "\n")
	return err
}

func quantityIn(sys units.Locale) func(*jsontext.Encoder, units.Quantity) error {
	return func(e *jsontext.Encoder, q units.Quantity) error {
		if !finite(q.SI()) {
			return e.WriteToken(jsontext.Null)
		}
		return e.WriteToken(jsontext.String(q.Kind().TextIn(q.SI(), sys)))
	}
}

// number writes NaN and the infinities, which JSON lacks, as null.
func number(e *jsontext.Encoder, v float64) error {
	if !finite(v) {
		return e.WriteToken(jsontext.Null)
	}
	return e.WriteToken(jsontext.Float(v))
}

// sizeWith adds the verdict of the house with a size in it, and why.
func sizeWith(s *sizing.Study, sys units.Locale) func(*jsontext.Encoder, sizing.Size) error {
	type plain sizing.Size
	return func(e *jsontext.Encoder, z sizing.Size) error {
		with, err := s.With(z)
		if err != nil {
			return err
		}
		return json.MarshalEncode(e, struct {
			plain
			Verdict sizing.Severity `json:"verdict"`
			Why     string          `json:"why"`
		}{plain(z), with.Verdict, with.Why.In(sys)})
	}
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// findingIn adds the sentence to the fields, in the units of the system.
func findingIn(sys units.Locale) func(*jsontext.Encoder, sizing.Finding) error {
	return func(e *jsontext.Encoder, f sizing.Finding) error {
		return json.MarshalEncode(e, struct {
			Severity sizing.Severity    `json:"severity"`
			Code     string             `json:"code"`
			Option   string             `json:"option,omitzero"`
			Text     string             `json:"text"`
			Source   message.ID         `json:"source"`
			Problem  sizing.Problem     `json:"problem,omitzero"`
			State    sizing.FilterState `json:"state,omitzero"`
			Measured sizing.Amount      `json:"measured,omitempty"`
			Limit    sizing.Amount      `json:"limit,omitempty"`
		}{f.Severity, f.Code, f.Option, f.In(sys), f.Source, f.Problem, f.State, f.Measured, f.Limit})
	}
}

// stepIn puts the numbers into the units of the system; the plain type has the
// same fields and no marshaler.
func stepIn(sys units.Locale) func(*jsontext.Encoder, sizing.Step) error {
	type plain sizing.Step
	return func(e *jsontext.Encoder, s sizing.Step) error {
		s.Numbers, s.Result = s.In(sys)
		return json.MarshalEncode(e, plain(s))
	}
}
