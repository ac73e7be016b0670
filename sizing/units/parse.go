package units

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// ParseError names the text given and what is wanted. Its Error is English; package
// message writes it in other languages.
type ParseError struct {
	Kind   *Kind
	Given  string
	Reason Reason
	Unit   string // of UnknownUnit: the text in the unit's place
}

// Reason is what is wrong with a text, in English.
type Reason string

// Reasons.
const (
	NothingGiven     Reason = "nothing given"
	NoNumber         Reason = "no number at the start"
	CommaInNumber    Reason = "a comma may mean thousands or decimals; write 1200 or 1.2"
	UnreadableNumber Reason = "the number cannot be read"
	NoUnit           Reason = "the unit is missing"
	UnknownUnit      Reason = "{unit} is not a unit of {kind}"
	TooLarge         Reason = "the number is too large"
)

// Why is the reason in English.
func (e *ParseError) Why() string {
	return strings.NewReplacer("{unit}", strconv.Quote(e.Unit), "{kind}", e.Kind.Name).Replace(string(e.Reason))
}

func (e *ParseError) Error() string {
	return fmt.Sprintf("%q: %s; want %s", e.Given, e.Why(), e.Kind.Wanted())
}

// Wanted describes what the kind accepts: "an airflow in cfm, L/s, ...".
func (k *Kind) Wanted() string {
	names := make([]string, len(k.Units))
	for i, u := range k.Units {
		names[i] = u.Name
	}
	list := names[0]
	if n := len(names); n > 1 {
		list = strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	article := "a"
	if strings.ContainsRune("aeiou", rune(k.Name[0])) {
		article = "an"
	}
	return fmt.Sprintf("%s %s in %s", article, k.Name, list)
}

// 15 3/4, 15-3/4 and 3/4 are how the trade writes inches.
var number = regexp.MustCompile(`^([+\-−]?)(?:(\d+)[ \-])?(\d+)/(\d+)|^[+\-−]?(?:\d+\.?\d*|\.\d+)(?:[eE][+\-]?\d+)?`)

// Parse reads a number and a unit of this kind into SI. A number without a
// unit is read in defaultUnit; with that empty it is an error. Errors are
// *ParseError.
func (k *Kind) Parse(text, defaultUnit string) (float64, error) {
	fail := func(reason Reason) (float64, error) {
		return 0, &ParseError{Kind: k, Given: text, Reason: reason}
	}
	s := strings.TrimSpace(text)
	if s == "" {
		return fail(NothingGiven)
	}
	s = k.withoutCurrency(s)
	m := number.FindStringSubmatch(s)
	if m == nil {
		return fail(NoNumber)
	}
	rest := strings.TrimSpace(s[len(m[0]):])
	if strings.HasPrefix(rest, ",") {
		return fail(CommaInNumber)
	}
	v, ok := numberValue(m)
	if !ok {
		return fail(UnreadableNumber)
	}
	if rest == "" {
		rest = cmp.Or(defaultUnit, k.defaultUnit)
	}
	if rest == "" {
		return fail(NoUnit)
	}
	u, ok := k.unit(rest)
	if !ok {
		return 0, &ParseError{Kind: k, Given: text, Reason: UnknownUnit, Unit: rest}
	}
	si := u.ToSI(v)
	if math.IsInf(si, 0) || math.IsNaN(si) {
		return fail(TooLarge)
	}
	return si, nil
}

// withoutCurrency drops one currency sign before the number, also between a
// minus and the number, from kinds that may have one.
func (k *Kind) withoutCurrency(s string) string {
	if k.sign == "" {
		return s
	}
	minus := ""
	for _, m := range []string{"-", "−", "+"} {
		if rest, ok := strings.CutPrefix(s, m); ok {
			minus, s = m, rest
			break
		}
	}
	for _, c := range []string{"$", "€", "£"} {
		if rest, ok := strings.CutPrefix(s, c); ok {
			s = strings.TrimSpace(rest)
			break
		}
	}
	return minus + s
}

func numberValue(m []string) (float64, bool) {
	if m[4] == "" {
		v, err := strconv.ParseFloat(strings.Replace(m[0], "−", "-", 1), 64)
		return v, err == nil
	}
	whole := 0.0
	if m[2] != "" {
		w, err := strconv.ParseFloat(m[2], 64)
		if err != nil {
			return 0, false
		}
		whole = w
	}
	n, err1 := strconv.ParseFloat(m[3], 64)
	d, err2 := strconv.ParseFloat(m[4], 64)
	if err1 != nil || err2 != nil || d == 0 {
		return 0, false
	}
	v := whole + n/d
	if m[1] == "-" || m[1] == "−" {
		v = -v
	}
	return v, true
}
