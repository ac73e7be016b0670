package study

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

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

// Rank orders severities: the graver, the higher.
func (s Severity) Rank() int {
	switch s {
	case Stop:
		return 2
	case Caution:
		return 1
	}
	return 0
}

// Finding is a plain sentence about the house, held against a limit.
type Finding struct {
	Severity Severity `json:"severity"`
	Code     string   `json:"code"`
	// Option is the name of the option it speaks of; empty: the house.
	Option string `json:"option,omitzero"`
	Source string `json:"source"` // of the limit: a clause, the nameplate, "common practice, no source"

	// Problem is what the same trouble is called in every option, State the state
	// of the filter in which it is there, and Measured and Limit what it is by:
	// with the filter clean unless it is there with a dirty one alone.
	Problem  Problem     `json:"problem,omitzero"`
	State    FilterState `json:"state,omitzero"`
	Measured Amount      `json:"measured,omitempty"`
	Limit    Amount      `json:"limit,omitempty"`

	// The sentence is a format with its quantities, written where it is read, in the
	// units in use.
	Format string   `json:"-"`
	Args   []any    `json:"-"`
	lead   Sentence // what is wrong, without what to do about it
	// bothWays says that the check also reports where the limit is kept, so that an
	// option without the finding was not held to it.
	BothWays bool `json:"-"`
}

// NewFinding builds the sentence from a format whose %v verbs take quantities
// or plain values.
func NewFinding(sev Severity, code, source, format string, args ...any) Finding {
	return Finding{Severity: sev, Code: code, Source: source, Format: format, Args: args}
}

// Advise adds what to do about the finding.
func (f *Finding) Advise(format string, args ...any) *Finding {
	f.lead = Sentence{f.Format, f.Args}
	f.Format, f.Args = f.Format+" "+format, append(slices.Clip(f.Args), args...)
	return f
}

// Wrong is what is wrong, without what to do about it.
func (f *Finding) Wrong() Sentence {
	if f.lead.Format == "" {
		return Sentence{f.Format, f.Args}
	}
	return f.lead
}

// Lead is what is wrong, without what to do about it, in the units of a system.
func (f Finding) Lead(sys units.Locale) string {
	w := f.Wrong()
	return Finding{Format: w.Format, Args: w.Args}.In(sys)
}

// In gives the sentence in the units of a system.
func (f Finding) In(s units.Locale) string {
	// A unit that ends in a dot ends the sentence too.
	return strings.ReplaceAll(fmt.Sprintf(f.Format, shown(f.Args, s)...), "..", ".")
}

func shown(args []any, s units.Locale) []any {
	out := make([]any, len(args))
	for i, a := range args {
		if q, ok := a.(interface{ Show(units.Locale) string }); ok {
			out[i] = q.Show(s)
		} else {
			out[i] = a
		}
	}
	return out
}

// Nominal is a length that a shop knows by a round number: 14 in and not 14.00 in.
type Nominal units.Length

// Show writes it in the units of a system.
func (n Nominal) Show(s units.Locale) string {
	number, unit, _ := strings.Cut(units.Length(n).Show(s), " ")
	if strings.Contains(number, ".") {
		number = strings.TrimRight(strings.TrimRight(number, "0"), ".")
	}
	return number + " " + unit
}

// Breach is one thing in which new filters or grilles go beyond what the house or
// the person allows. A size of the search shows it as what it misses, a person's
// own option as a finding.
type Breach struct {
	Severity     Severity
	Code, Source string
	What, Todo   string // formats of one sentence: what is wrong, by how much; what to do
	Args         []any
}

// Codes of what has no room. No air changes them.
const (
	CodeWall    = "wall"
	CodeStudBay = "stud_bay"
	CodeRoom    = "room"
	CodeDepth   = "depth"
)

// Miss is the breach as a size of the search shows it, its sentence unwritten.
func (b Breach) Miss() Finding {
	return Finding{Severity: Caution, Code: b.Code, Source: b.Source, Format: b.What, Args: b.Args}
}

func (b Breach) Finding() Finding {
	first := []rune(b.What)
	first[0] = unicode.ToUpper(first[0])
	return NewFinding(b.Severity, b.Code, b.Source, string(first)+": "+b.Todo+".", b.Args...)
}

// Sides are lengths as a tape reads them: "21 1/2 x 26 1/2 in.", "545 x 672 mm".
type Sides []units.Length

// Show writes them in the units of a system.
func (s Sides) Show(sys units.Locale) string {
	words, unit := make([]string, len(s)), " in."
	for i, l := range s {
		switch {
		case l == 0:
			words[i] = "any"
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

func Raise(sev Severity, code, source, format string, args ...any) *Finding {
	f := NewFinding(sev, code, source, format, args...)
	return &f
}

// Sentence grows by parts, each a format with its quantities.
type Sentence struct {
	Format string
	Args   []any
}

func (s *Sentence) Add(format string, args ...any) {
	s.Format += format
	s.Args = append(s.Args, args...)
}
