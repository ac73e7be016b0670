package study

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

// Severity of a finding.
type Severity string

const (
	Good    Severity = "good"
	Caution Severity = "caution"
	Stop    Severity = "stop"
)

// Rank orders severities: the more severe, the higher.
func (s Severity) Rank() int {
	switch s {
	case Stop:
		return 2
	case Caution:
		return 1
	}
	return 0
}

// severities are the words for them.
var severities = map[Severity]message.ID{Good: "good", Caution: "caution", Stop: "stop"}

// Word names the severity.
func (s Severity) Word() message.ID { return severities[s] }

// Show is Word, written for a reader.
func (s Severity) Show(l units.Locale) string { return message.Text(l, s.Word()) }

// Finding is a plain sentence about the house, compared with a limit.
type Finding struct {
	Severity Severity `json:"severity"`
	Code     string   `json:"code"`
	// Option is the name of the option that it is about; empty: the house.
	Option string     `json:"option,omitzero"`
	Source message.ID `json:"source"` // of the limit: a clause, the nameplate, "common practice, no source"

	// Problem identifies the same problem in every option, State is the filter
	// state in which it occurs, and Measured and Limit are the figure and its
	// limit: with a clean filter, unless the problem occurs only with a dirty
	// one.
	Problem  Problem     `json:"problem,omitzero"`
	State    FilterState `json:"state,omitzero"`
	Measured Amount      `json:"measured,omitempty"`
	Limit    Amount      `json:"limit,omitempty"`

	// Wrong is what is wrong and Advice what to do about it: whole sentences, written
	// where they are read.
	Wrong  message.Sentences `json:"-"`
	Advice message.Sentences `json:"-"`
	// BothWays is true where the check also reports that the limit is kept: an
	// option without such a finding was not checked.
	BothWays bool `json:"-"`
}

// NewFinding is a finding of one sentence.
func NewFinding(sev Severity, code string, source, text message.ID, args ...any) Finding {
	return FindingOf(sev, code, source, message.Sentences{message.New(text, args...)})
}

// FindingOf is a finding of several sentences.
func FindingOf(sev Severity, code string, source message.ID, wrong message.Sentences) Finding {
	return Finding{Severity: sev, Code: code, Source: source, Wrong: wrong}
}

// Then adds a sentence to what is wrong.
func (f Finding) Then(text message.ID, args ...any) Finding {
	f.Wrong = append(slices.Clip(f.Wrong), message.New(text, args...))
	return f
}

// Advise adds what to do about the finding.
func (f *Finding) Advise(text message.ID, args ...any) *Finding {
	f.Advice = append(slices.Clip(f.Advice), message.New(text, args...))
	return f
}

// Words is the whole finding, unwritten.
func (f Finding) Words() message.Sentences { return slices.Concat(f.Wrong, f.Advice) }

// Empty reports whether it has no sentence.
func (f Finding) Empty() bool { return len(f.Wrong) == 0 }

// Lead is what is wrong, without the advice, written for a reader.
func (f Finding) Lead(l units.Locale) string { return f.Wrong.In(l) }

// In writes the finding for a reader.
func (f Finding) In(l units.Locale) string { return f.Words().In(l) }

// Nominal is a nominal length, shown as a round number: 14 in and not 14.00 in.
type Nominal units.Length

// Show writes it in the units of a system.
func (n Nominal) Show(s units.Locale) string {
	number, unit, _ := strings.Cut(units.Length(n).Show(s), " ")
	if strings.ContainsAny(number, ".,") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".,")
	}
	return number + " " + unit
}

// Breach is one limit of the house or of the person that new filters or grilles
// exceed. A size of the search shows it as a limit missed, a person's own option
// as a finding.
type Breach struct {
	Severity Severity
	Code     string
	Source   message.ID
	Missed   message.ID // what is wrong, by how much, in a list of misses
	Sentence message.ID // the same and what to do, as a sentence
	Args     []any      // of both
}

// CodeUnexplained is the code of a drop that the gauge found in the return beyond
// that of its parts.
const CodeUnexplained = "unexplained_loss"

// Codes of parts that do not fit the room, whatever the airflow.
const (
	CodeWall    = "wall"
	CodeStudBay = "stud_bay"
	CodeRoom    = "room"
	CodeDepth   = "depth"
)

// Miss is the breach as a size of the search shows it.
func (b Breach) Miss() Finding { return NewFinding(Caution, b.Code, b.Source, b.Missed, b.Args...) }

// Finding is the breach as a person's own option shows it.
func (b Breach) Finding() Finding {
	return NewFinding(b.Severity, b.Code, b.Source, b.Sentence, b.Args...)
}

// Sides are width, height and depth in inches and sixteenths, or in whole
// millimeters: "21 1/2 x 26 1/2 in.", "545 x 672 mm"; where one is zero, and so has no
// limit, "24 in. of width".
type Sides []units.Length

var sideWords = []message.ID{"{length} of width", "{length} of height", "{length} of depth"}

// Show writes them in the units of a system.
func (s Sides) Show(sys units.Locale) string {
	if len(s) > 1 && slices.Contains(s, 0) {
		var limited []any
		for i, l := range s {
			if l != 0 {
				limited = append(limited, message.New(sideWords[i], "length", Sides{l}))
			}
		}
		return message.Rows{Mark: ", ", Items: limited}.Show(sys)
	}
	words, unit := make([]string, len(s)), " in."
	for i, l := range s {
		switch {
		case sys.System == units.Metric:
			words[i] = fmt.Sprint(math.Round(l.In(units.Millimetre)))
		default:
			words[i] = stock.Inches(l)
		}
	}
	if sys.System == units.Metric {
		unit = " mm"
	}
	return strings.Join(words, " x ") + unit
}

// Raise is NewFinding where no finding is nil.
func Raise(sev Severity, code string, source, text message.ID, args ...any) *Finding {
	f := NewFinding(sev, code, source, text, args...)
	return &f
}
