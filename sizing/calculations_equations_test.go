package sizing

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"returnbench/sizing/calculations"
	"returnbench/sizing/study"
	"returnbench/sizing/units"
)

// byHand works out an equation as a person with a calculator does: the right side
// of "y = ...", with + - × / ^, brackets, ln and exp.
type byHand struct {
	text   []rune
	at     int
	values map[string]float64
}

func workOut(equation string, values map[string]float64) (result float64, err error) {
	_, right, found := strings.Cut(equation, "=")
	if !found {
		return 0, fmt.Errorf("%q: no equation", equation)
	}
	h := byHand{text: []rune(strings.ReplaceAll(right, " ", "")), values: values}
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("%q: %v", equation, r)
		}
	}()
	result = h.sum()
	if h.at != len(h.text) {
		panic("what is left over: " + string(h.text[h.at:]))
	}
	return result, nil
}

func (h *byHand) next(any string) rune {
	if h.at < len(h.text) && strings.ContainsRune(any, h.text[h.at]) {
		h.at++
		return h.text[h.at-1]
	}
	return 0
}

func (h *byHand) sum() float64 {
	v := h.product()
	for {
		switch h.next("+-") {
		case '+':
			v += h.product()
		case '-':
			v -= h.product()
		default:
			return v
		}
	}
}

func (h *byHand) product() float64 {
	v := h.power()
	for {
		switch h.next("×/") {
		case '×':
			v *= h.power()
		case '/':
			v /= h.power()
		default:
			return v
		}
	}
}

func (h *byHand) power() float64 {
	if h.next("-") != 0 {
		return -h.power()
	}
	v := h.term()
	if h.next("^") != 0 {
		return math.Pow(v, h.power())
	}
	return v
}

func (h *byHand) term() float64 {
	if h.next("(") != 0 {
		v := h.sum()
		if h.next(")") == 0 {
			panic("a bracket stays open")
		}
		return v
	}
	from := h.at
	number := h.at < len(h.text) && unicode.IsDigit(h.text[h.at])
	for h.at < len(h.text) {
		r := h.text[h.at]
		exponent := number && r == '-' && h.text[h.at-1] == 'e'
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && r != '_' && r != '.' && !exponent {
			break
		}
		h.at++
	}
	word := string(h.text[from:h.at])
	if number {
		v, err := strconv.ParseFloat(word, 64)
		if err != nil {
			panic(err)
		}
		return v
	}
	switch word {
	case "ln":
		return math.Log(h.term())
	case "exp":
		return math.Exp(h.term())
	}
	v, known := h.values[word]
	if !known {
		panic("no input " + word)
	}
	return v
}

func TestByHand_Identity(t *testing.T) {
	v, err := workOut("y = 2 × (a - 1)^2 / 4 + ln(exp(3)) - 1e-2", map[string]float64{"a": 5})
	require.NoError(t, err)
	assert.InDelta(t, 2*16/4.0+3-0.01, v, 1e-12)
	v, err = workOut("n = (1 + i)^(-n)", map[string]float64{"i": 0.05, "n": 10})
	require.NoError(t, err)
	assert.InDelta(t, math.Pow(1.05, -10), v, 1e-12)
	for _, bad := range []string{"a", "y = b", "y = (a", "y = a )", "y = "} {
		_, err := workOut(bad, map[string]float64{"a": 1})
		assert.Error(t, err, bad)
	}
}

var (
	printedInput  = regexp.MustCompile(`(\S+) = (-?[0-9.]+(?:e[+-]?\d+)?)`)
	printedResult = regexp.MustCompile(`-?[0-9]+\.?[0-9]*`)
)

// checkByHand works a step out from its printed inputs, and holds it to the digits
// that are printed.
func checkByHand(t *testing.T, where string, step Step, sys units.Locale) {
	t.Helper()
	numbers, result := step.In(sys)
	values := map[string]float64{}
	for _, m := range printedInput.FindAllStringSubmatch(numbers, -1) {
		v, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err, where)
		values[m[1]] = v
	}
	require.Len(t, values, len(step.Inputs), "%s: %q", where, numbers)
	got, err := workOut(step.Equation(sys), values)
	require.NoError(t, err, "%s: %q", where, numbers)
	plain := strings.NewReplacer("−", "-", "-$", "-", ",", "").Replace(result)
	shown := printedResult.FindString(plain)
	want, err := strconv.ParseFloat(shown, 64)
	require.NoError(t, err, "%s: %q", where, result)
	last := 0.5
	if _, digits, found := strings.Cut(shown, "."); found {
		last *= math.Pow(10, -float64(len(digits)))
	}
	assert.InDelta(t, want, got, last*1.02+1e-9, "%s: %s with %s = %s", where, step.Equation(sys), numbers, result)
}

// Every step can be checked by hand: its equation gives the printed result from
// the printed inputs, in either system of units, and no unit of the other system
// stands in it. What has no equation is looked up in a table, or not known.
func TestEveryStepCanBeWorkedOut_Identity(t *testing.T) {
	houses := map[string]Job{"two returns": twoReturns(), "cabinet": withCabinet(), "pulley": belted(1.3), "pleats": pleated()}
	for name, job := range houses {
		s := solved(t, job)
		checked, keys := 0, map[string]bool{}
		for _, w := range s.Workings() {
			keys[w.Key[strings.LastIndex(w.Key, ".")+1:]] = true
			for i, step := range w.Steps {
				where := fmt.Sprintf("%s, %s, step %d", name, w.Key, i+1)
				if len(step.Inputs) == 0 {
					assert.Regexp(t, "table 12-1|^-$|Q ~ n", step.Formula, where)
					continue
				}
				for _, sys := range []units.Locale{units.IP, units.SI} {
					checkByHand(t, where, step, sys)
				}
				checked++
				numbers, result := step.In(units.IP)
				assert.NotRegexp(t, `\bPa\b|L/s|\bmm\b|m/s|kg`, numbers+result, where)
				numbers, result = step.In(units.SI)
				assert.NotRegexp(t, `w\.c\.|cfm|fpm|\d in2?\b|\blb|\bft\b`, numbers+result+step.Text.In(units.SI), where)
			}
		}
		assert.Greater(t, checked, 60, name)
		assert.True(t, keys["annual_cost"] && keys["life"], name)
	}
}

// A fault in an equation or in an input is seen.
func TestCheckByHandSeesFaults(t *testing.T) {
	sound := study.EquationStep("", "", units.Speed(2), "v = 144 × Q / A", "v = 10 × Q / A", study.Input("Q", "", units.Flow(0.2)), study.Input("A", "", units.Area(0.1)))
	checkByHand(t, "sound", sound, units.SI)
	for _, wrong := range []Step{
		study.EquationStep("", "", units.Speed(2), "", "v = 11 × Q / A", sound.Inputs...),
		study.EquationStep("", "", units.Speed(2.01), "", "v = 10 × Q / A", sound.Inputs...),
	} {
		seen := &testing.T{}
		checkByHand(seen, "wrong", wrong, units.SI)
		assert.True(t, seen.Failed())
	}
}

// The ends of a range are samples: with 100 of them the 6th and the 95th, which
// are 1 + 0.05 x 99 and 1 + 0.95 x 99 rounded, and 89 lie between.
func TestRangesCanBeWorkedOut_Identity(t *testing.T) {
	job := withCabinet()
	s := solved(t, job)
	ranges, err := Ranges(context.Background(), job, 100, 1, nil)
	require.NoError(t, err)
	workings := calculations.RangeWorkings(s, ranges)
	require.NotEmpty(t, workings)
	keys := map[string]bool{}
	for _, w := range workings {
		keys[w.Key] = true
		require.Len(t, w.Steps, 4)
		assert.Equal(t, "6", w.Steps[0].Result)
		assert.Equal(t, "95", w.Steps[2].Result)
		for i, step := range w.Steps {
			for _, sys := range []units.Locale{units.IP, units.SI} {
				checkByHand(t, fmt.Sprintf("%s, step %d", w.Key, i+1), step, sys)
			}
		}
	}
	assert.True(t, keys["ranges[1].airflow"] && keys["ranges[1].life"] && keys["ranges[1].annual_cost"])
}

// Ten years and the pay-back, worked out from a priced option.
func TestMoneyCanBeWorkedOut_Identity(t *testing.T) {
	job := withCabinet()
	for i := range job.Options {
		job.Options[i].Price = 60
	}
	for _, rate := range []*float64{nil, new(0.0), new(0.06)} {
		job.Site.DiscountRate = 0.05
		if rate != nil {
			job.Site.DiscountRate = *rate
		}
		s := solved(t, job)
		found := map[string]bool{}
		for _, w := range s.Workings() {
			for i, step := range w.Steps {
				if len(step.Inputs) > 0 {
					checkByHand(t, fmt.Sprintf("%s, step %d", w.Key, i+1), step, units.IP)
				}
			}
			found[w.Key] = true
		}
		assert.True(t, found["options[2].ten_year_cost"])
		if p := s.Options[2].Payback; p.Pays {
			assert.True(t, found["payback[2]"])
		}
	}
}
