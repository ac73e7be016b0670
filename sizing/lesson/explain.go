package lesson

import (
	"regexp"
	"strconv"
	"strings"

	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Placeholders of an explanation:
//
//	{start airflow}          the number before the move
//	{end airflow}            and after it
//	{change airflow}         "12 % lower"
//	{least airflow}          the least along the move, {most airflow} the most
//	{at least airflow}       the setting where it is least, {at most airflow} where most
//	{setting start}          the move's first setting, {setting end} its last
var placeholder = regexp.MustCompile(`\{([^{}]*)\}`)

// blank is one placeholder, read.
type blank struct {
	what   string // "start", "end", "change", "least", "most", "at least", "at most", "setting"
	number Number
	end    string // of a setting
}

func readBlank(text string) (blank, error) {
	words := strings.Fields(text)
	if len(words) == 2 && words[0] == "setting" {
		if words[1] == "start" || words[1] == "end" {
			return blank{what: "setting", end: words[1]}, nil
		}
		return blank{}, message.Errorf("{start} or {end}", "start", "{setting start}", "end", "{setting end}")
	}
	if len(words) < 2 {
		return blank{}, message.Errorf("such as {examples} or {last}", "examples", "{start airflow}, {end airflow}, {change airflow}", "last", "{setting end}")
	}
	what, n := strings.Join(words[:len(words)-1], " "), Number(words[len(words)-1])
	if n.figure() == nil {
		return blank{}, message.Errorf("a number in place of {given}: one of {numbers}", "given", strconv.Quote(string(n)), "numbers", list(Numbers()))
	}
	switch what {
	case "start", "end", "change", "least", "most", "at least", "at most":
		return blank{what: what, number: n}, nil
	}
	return blank{}, message.Errorf("start, end, change, least, most, at least or at most in place of {given}", "given", strconv.Quote(what))
}

func (o Outcome) fill(b blank, sys units.Locale) string {
	switch b.what {
	case "setting":
		if b.end == "start" {
			return o.Start().Setting.Show(sys)
		}
		return o.End().Setting.Show(sys)
	case "start":
		return o.Start().Value(b.number).Show(sys)
	case "end":
		return o.End().Value(b.number).Show(sys)
	case "change":
		return o.Change(b.number).Words(sys)
	}
	_, s := o.extreme(b.number, strings.HasSuffix(b.what, "most"))
	if strings.HasPrefix(b.what, "at ") {
		return s.Setting.Show(sys)
	}
	return s.Value(b.number).Show(sys)
}

// Fill puts the numbers into a text. An unknown placeholder stays as it is;
// Check reports it.
func (o Outcome) Fill(text string, sys units.Locale) string {
	filled := placeholder.ReplaceAllStringFunc(text, func(m string) string {
		b, err := readBlank(m[1 : len(m)-1])
		if err != nil {
			return m
		}
		return o.fill(b, sys)
	})
	return strings.ReplaceAll(filled, "..", ".") // a unit that ends in a dot ends the sentence too
}

// Explain is the explanation with its numbers filled in.
func (o Outcome) Explain(sys units.Locale) []string {
	out := make([]string, len(o.Lesson.Explanation))
	for i, p := range o.Lesson.Explanation {
		out[i] = o.Fill(p, sys)
	}
	return out
}

// Ask is the question with its settings filled in. It cannot give the answer
// away: only {setting start} and {setting end} are filled.
func (l *Lesson) Ask(sys units.Locale) string {
	settings, err := l.Settings()
	if err != nil || len(settings) == 0 {
		return l.Question
	}
	return strings.NewReplacer(
		"{setting start}", settings[0].Show(sys),
		"{setting end}", settings[len(settings)-1].Show(sys)).Replace(l.Question)
}

func list[T ~string](all []T) string {
	out := make([]string, len(all))
	for i, s := range all {
		out[i] = string(s)
	}
	return strings.Join(out, ", ")
}
