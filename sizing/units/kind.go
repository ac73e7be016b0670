package units

import (
	"cmp"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// System is a family of units.
type System int

const (
	InchPound System = iota // cfm, in. w.c., fpm
	Metric                  // L/s, Pa, m/s
)

func (s System) String() string {
	if s == Metric {
		return "SI"
	}
	return "IP"
}

// Unit is one way to write a quantity: SI value = number*Scale + Offset.
type Unit struct {
	Name    string // as written to files and screens
	Scale   float64
	Offset  float64
	aliases []string
	// readOnly units are understood but never chosen for exact text.
	readOnly bool
	// most is the largest number that a person would write in the unit; past it a
	// larger unit is taken where its number is no longer. Zero: any.
	most float64
	many string // what screens call it beside any number but one; empty: Name
}

// Label is the unit's name on a screen, where it stands for no certain number:
// "months" where a file writes "3 month".
func (u *Unit) Label() string { return cmp.Or(u.many, u.Name) }

// ToSI turns a number of the unit into SI. The conversion rounds the product
// by itself, so that no processor fuses it with the sum and every machine
// reads a file to the same bits.
func (u *Unit) ToSI(v float64) float64 { return float64(v*u.Scale) + u.Offset }

// FromSI is a number in SI as a number of the unit.
func (u *Unit) FromSI(si float64) float64 { return (si - u.Offset) / u.Scale }

// Kind is a dimension: its name in words, its units, and how it is shown.
type Kind struct {
	Name  string // "airflow", for messages
	Units []Unit // in order of preference for exact text; one has scale 1
	ip    display
	si    display
	usual [2]*Unit         // by system
	index map[string]*Unit // by folded spelling
	// lower is index without regard to case; a spelling that would then mean
	// two units is not in it.
	lower map[string]*Unit
	// sign may come before the number; defaultUnit is the unit of a number without one.
	sign, defaultUnit string
	// Show writes what is at least long in the units of far instead of in or mm.
	long float64 // SI; 0: nothing is
	far  [2]display
	// whole numbers alone are shown from here on, in the usual unit; 0: nowhere.
	whole float64
}

type display struct {
	unit     string
	decimals int
}

func newKind(name string, ip, si display, us ...Unit) *Kind {
	k := &Kind{Name: name, Units: us, ip: ip, si: si, index: map[string]*Unit{}, lower: map[string]*Unit{}}
	for i := range k.Units {
		u := &k.Units[i]
		for _, n := range append([]string{u.Name}, u.aliases...) {
			k.index[fold(n)] = u
		}
	}
	for n, u := range k.index {
		l := strings.ToLower(n)
		if other, ok := k.lower[l]; ok && other != u {
			u = nil
		}
		k.lower[l] = u
	}
	for s, d := range [...]display{InchPound: ip, Metric: si} {
		u, ok := k.index[fold(d.unit)]
		if !ok {
			panic("units: " + name + " has no unit " + d.unit)
		}
		k.usual[s] = u
	}
	return k
}

// signed allows the currency sign before the number; unit, if not empty,
// is the unit of a number without one.
func (k *Kind) signed(unit string) *Kind {
	k.sign, k.defaultUnit = "$", unit
	return k
}

// farther lets Show take other units from long on.
func (k *Kind) farther(long float64, ip, si display) *Kind {
	k.long, k.far = long, [2]display{ip, si}
	return k
}

// wholeFrom lets Show and Number leave out the decimals of what is at least so
// large in its usual unit.
func (k *Kind) wholeFrom(v float64) *Kind {
	k.whole = v
	return k
}

// SIUnit is the unit whose number is the SI value itself.
func (k *Kind) SIUnit() *Unit {
	for i := range k.Units {
		if u := &k.Units[i]; u.Scale == 1 && u.Offset == 0 {
			return u
		}
	}
	panic("units: " + k.Name + " has no SI unit")
}

// Difference is the kind of a difference of two values: that of a temperature is
// another one, since its units have offsets; that of any other kind is itself.
func (k *Kind) Difference() *Kind {
	if k == temperatureKind {
		return temperatureDifferenceKind
	}
	return k
}

// ParseError names the text given and what is wanted. Its Error is English; package
// message tells it in other languages.
type ParseError struct {
	Kind   *Kind
	Given  string
	Reason Reason
	Unit   string // of UnknownUnit: what stands in its place
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

// Wanted says in words what the kind accepts: "an airflow in cfm, L/s, ...".
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

// fold maps the spellings of a unit onto one: case, blanks, dots, degree
// signs and superscripts do not count.
var fold = strings.NewReplacer(
	" ", "", "\u00a0", "", "\u202f", "", ".", "", "°", "", "²", "2", "³", "3", "·", "", "*", "", "^", "", "(", "", ")", "",
	"′", "'", "″", `"`, "“", `"`, "”", `"`, "µ", "u",
).Replace

// Unit finds a unit of the kind by any of its spellings, nil where there is none.
func (k *Kind) Unit(name string) *Unit {
	u, _ := k.unit(name)
	return u
}

func (k *Kind) unit(name string) (*Unit, bool) {
	f := fold(name)
	if u, ok := k.index[f]; ok {
		return u, true
	}
	// Case is ignored only where the exact case is not itself a unit.
	u := k.lower[strings.ToLower(f)]
	return u, u != nil
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

// plainDigits is how short a number must be for its unit to be taken without
// looking for a shorter one: what a person would have typed.
const plainDigits = 7

// Text spells si exactly: the text parses back to the same float64. The unit
// is the first of the kind that makes a short number, so a value typed as
// "566 L/s" is written so, and one typed as "18 ft" not as "216 in".
func (k *Kind) Text(si float64) string {
	best, large, digits := "", "", 0
	for i := range k.Units {
		u := &k.Units[i]
		if u.readOnly {
			continue
		}
		n, ok := exactNumber(si, u)
		if !ok {
			continue
		}
		t := join(n, u.Name)
		switch {
		case len(n) > plainDigits:
		case u.most > 0 && math.Abs(u.FromSI(si)) > u.most:
			if large == "" || len(n) < digits {
				large, digits = t, len(n)
			}
		case large == "" || len(n) <= digits:
			return t
		default:
			return large
		}
		if best == "" || len(t) < len(best) {
			best = t
		}
	}
	return cmp.Or(large, best)
}

// TextIn spells si in the usual unit of the system: exactly where a float64
// number of that unit parses back to si, else to 15 digits.
func (k *Kind) TextIn(si float64, s Locale) string {
	u := k.Usual(s)
	return join(u.Number(si), u.Name)
}

// Number spells si as a number of the unit: exactly where a float64 number of it
// parses back to si, else to 15 digits.
func (u *Unit) Number(si float64) string {
	if n, ok := exactNumber(si, u); ok {
		return n
	}
	v, _ := strconv.ParseFloat(strconv.FormatFloat(u.FromSI(si), 'g', 15, 64), 64)
	return plain(v)
}

func join(number, unit string) string {
	if unit == "" {
		return number
	}
	return number + " " + unit
}

// exactNumber finds the shortest decimal that gives back si in unit u.
func exactNumber(si float64, u *Unit) (string, bool) {
	n := u.FromSI(si)
	for _, digits := range []int{6, 9, 12, 15, 16, 17} {
		v, err := strconv.ParseFloat(strconv.FormatFloat(n, 'g', digits, 64), 64)
		if err == nil && u.ToSI(v) == si {
			return plain(v), true
		}
	}
	for _, v := range []float64{math.Nextafter(n, math.Inf(1)), math.Nextafter(n, math.Inf(-1))} {
		if u.ToSI(v) == si {
			return plain(v), true
		}
	}
	return "", false
}

func plain(v float64) string {
	if v == 0 {
		return "0"
	}
	if a := math.Abs(v); a >= 1e-6 && a < 1e12 {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}

// Usual is the unit in which a system shows this kind.
func (k *Kind) Usual(s Locale) *Unit {
	return k.usual[s.System]
}

// Show rounds si for a screen: "0.520 in. w.c.", "$12.00". Small values keep
// two significant digits, so that nothing over 1e-9 of the unit shows as zero.
func (k *Kind) Show(si float64, s Locale) string {
	if k.long > 0 && math.Abs(si) >= k.long && !math.IsInf(si, 0) {
		d := k.far[s.System]
		return join(s.Mark(strconv.FormatFloat(k.index[fold(d.unit)].FromSI(si), 'f', d.decimals, 64)), d.unit)
	}
	n := s.Mark(k.number(si, s))
	if u := k.Usual(s); u.Name != k.sign {
		if v, err := strconv.ParseFloat(k.number(si, s), 64); err == nil && v == 1 {
			return join(n, u.Name)
		}
		return join(n, u.Label())
	}
	if rest, ok := strings.CutPrefix(n, "-"); ok {
		return "-" + k.sign + rest
	}
	return k.sign + n
}

// Number is Show without the unit, for tables whose heading holds it.
func (k *Kind) Number(si float64, s Locale) string { return s.Mark(k.number(si, s)) }

// number has a decimal point.
func (k *Kind) number(si float64, s Locale) string {
	t := k.Fixed(si, s)
	if v, err := strconv.ParseFloat(t, 64); err == nil && k.whole > 0 && math.Abs(v) >= k.whole {
		return strconv.FormatFloat(k.Usual(s).FromSI(si), 'f', 0, 64)
	}
	return t
}

// Fixed is Number with the decimals of the kind however large it is and a decimal
// point, for files.
func (k *Kind) Fixed(si float64, s Locale) string {
	u := k.Usual(s)
	decimals := k.ip.decimals
	if s.System == Metric {
		decimals = k.si.decimals
	}
	v := u.FromSI(si)
	switch {
	case math.IsNaN(v):
		return "–"
	case math.IsInf(v, 0):
		return "∞"
	}
	if a := math.Abs(v); a > 0 && a < 2*math.Pow(10, -float64(decimals)) && u.Offset == 0 && a > 1e-9 {
		decimals = int(math.Ceil(-math.Log10(a))) + 1
	}
	t := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(t, "-0.") == "" {
		t = strings.TrimPrefix(t, "-")
	}
	return t
}
