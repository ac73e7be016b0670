package homes

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strconv"

	"returnbench/sizing/blower"
)

// Field means that the invented homes are drawn about, in. w.c.
const (
	// meanFieldStatic is the mean external static found in the field (secondary
	// text).
	meanFieldStatic = 0.82
	// meanFieldFilterDrop is the mean drop of 34 filters in the field: Proctor,
	// ASHRAE Journal, Oct. 2012 (secondary text).
	meanFieldFilterDrop = 0.28
)

// Spreads are invented, and so is the division of the static beyond the
// filter's drop; the shares follow those of the usual budget (common practice,
// no source): return 20 %, coil 40 %, supply 20 %.
const (
	filterSpread = 0.35
	restSpread   = 0.20
	returnPart   = 0.25
	coilPart     = 0.50
)

// heatingOutputs are invented furnaces by cooling capacity.
var heatingOutputs = map[string][]string{
	"1.5": {"26000", "32000"}, "2": {"32000", "38000"}, "2.5": {"38000", "48000"}, "3": {"48000", "57000"},
	"3.5": {"48000", "57000"}, "4": {"57000", "76000"}, "5": {"76000", "95000"},
}

var generated = []string{"name", "altitude [ft]", "cooling_capacity [ton]", "heating_output [Btu/h]", "rise_low [F]", "rise_high [F]", "motor", "power_price [$/kWh]", "dust", "slot", "filter_merv",
	"return_plenum [in. w.c.]", "blower_inlet [in. w.c.]", "blower_outlet [in. w.c.]", "supply_plenum [in. w.c.]", "filter_drop [in. w.c.]",
	"option_slot", "option_merv", "option_price [$]"}

// Generate writes a list of n invented homes, for tests and demonstrations. One
// seed always gives one list. External static and filter drop are drawn about
// the means found in the field; all else is invented. Half of the homes name an
// upgrade to compare.
func Generate(seed uint64, n int, w io.Writer) error {
	buffer := bufio.NewWriter(w)
	c := csv.NewWriter(buffer)
	if err := c.Write(generated); err != nil {
		return err
	}
	r := rand.New(rand.NewPCG(seed, 1))
	for i := range n {
		if err := c.Write(invent(r, i)); err != nil {
			return err
		}
	}
	c.Flush()
	if err := c.Error(); err != nil {
		return err
	}
	return buffer.Flush()
}

func invent(r *rand.Rand, i int) []string {
	tons := pick(r, []string{"1.5", "2", "2.5", "3", "3.5", "4", "5"}, []float64{5, 12, 18, 25, 18, 14, 8})
	large := tons == "4" || tons == "5"
	slot := pick(r, []string{"16x20x1", "16x25x1", "20x20x1", "20x25x1", "16x25x4", "20x25x4"}, []float64{15, 35, 12, 20, 10, 8})
	if large {
		slot = pick(r, []string{"16x25x1", "20x25x1", "20x25x4"}, []float64{20, 60, 20})
	}
	row := []string{
		fmt.Sprintf("invented home %d", i+1),
		strconv.Itoa(int(math.Round(math.Abs(r.NormFloat64())*80)) * 10),
		tons,
		pick(r, heatingOutputs[tons], []float64{40, 60}), "35", "65",
		pick(r, []string{string(blower.PSC), string(blower.ConstantTorque), string(blower.ConstantAirflow)}, []float64{45, 35, 20}),
		fmt.Sprintf("%.2f", 0.10+0.01*float64(r.IntN(21))),
		pick(r, []string{"low", "ordinary", "pets", "works"}, []float64{20, 50, 27, 3}),
		slot,
		pick(r, []string{"8", "11", "13"}, []float64{60, 22, 18}),
	}
	row = append(row, gaugeRound(r)...)
	if r.IntN(2) == 0 {
		return append(row, "", "", "")
	}
	return append(row, pick(r, []string{"16x25x4", "20x25x4", "20x25x5", "24x25x5"}, []float64{15, 45, 30, 10}),
		pick(r, []string{"8", "11", "13"}, []float64{20, 40, 40}), strconv.Itoa(350+25*r.IntN(19)))
}

// gaugeRound draws the filter's drop and the rest of the static independently,
// so that both keep their means, and returns the statics at the four ports and
// the filter's drop.
func gaugeRound(r *rand.Rand) []string {
	filter := lognormal(r, meanFieldFilterDrop, filterSpread)
	rest := lognormal(r, meanFieldStatic-meanFieldFilterDrop, restSpread)
	back := rest * returnPart * (0.8 + 0.4*r.Float64())
	coil := (rest - back) * coilPart / (1 - returnPart) * (0.85 + 0.3*r.Float64())
	supply := rest - back - coil
	gauge := func(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }
	return []string{gauge(-back), gauge(-back - filter), gauge(coil + supply), gauge(supply), gauge(filter)}
}

// lognormal draws about a mean with a coefficient of variation.
func lognormal(r *rand.Rand, mean, variation float64) float64 {
	s2 := math.Log1p(variation * variation)
	return mean * math.Exp(math.Sqrt(s2)*r.NormFloat64()-s2/2)
}

// pick draws a word by weight.
func pick(r *rand.Rand, words []string, weight []float64) string {
	sum := 0.0
	for _, w := range weight {
		sum += w
	}
	at := r.Float64() * sum
	for i, w := range weight {
		if at -= w; at < 0 {
			return words[i]
		}
	}
	return words[len(words)-1]
}
