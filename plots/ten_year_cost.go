package plots

import (
	"math"
	"strconv"

	"returnbench/sizing"
	"returnbench/sizing/units"
)

// TenYearCost shows what each option costs in ten years: the work, the filters,
// the power of the blower and that of the outdoor unit, at today's cooling.
func TenYearCost(s *sizing.Study, look Look) Chart { return tenYearCostKind.Chart(s, look) }

var tenYearCostKind = Kind{"ten-year-cost", "Ten years' cost", tenYearCost}

func tenYearCost(s Subject, look Look) *frame {
	look = look.complete()
	b := &bars{total: "Cost over ten years, {unit}", whole: "cost over ten years {value}", unit: look.unit(units.Money(0)), key: []legendEntry{swatch(look.say("upgrade"), look.money(0)), swatch(look.say("filters"), look.money(1)), swatch(look.say("blower power"), look.money(2)), swatch(look.say("outdoor unit"), look.money(3))}}
	for i := range s.Options {
		o := &s.Options[i]
		if noFilter(o) {
			continue
		}
		total, sum, read := o.TenYearCost, wholeMoney(o.TenYearCost, look.Units), wholeMoney(o.TenYearCost, look.Units)
		if !o.TenYearKnown { // the bar shows what is known
			total = o.TenYearPower + o.TenYearOutdoor + o.TenYearFilter
			sum, read = "–", look.say("not known")
		}
		r := bar{total: look.in(total), sum: sum, read: read}
		if known := s.ranges(i); known != nil && o.TenYearKnown {
			r.reach = reach(known.TenYearCost, look)
		}
		for k, m := range []units.Money{o.Upgrade, o.TenYearFilter, o.TenYearPower, o.TenYearOutdoor} {
			r.pieces = append(r.pieces, piece{name: b.key[k].word, value: look.in(m), text: wholeMoney(m, look.Units), read: wholeMoney(m, look.Units), fill: look.money(k)})
		}
		b.groups = append(b.groups, barGroup{name: sizing.OptionName(o.Name).Show(look.Units), rows: []bar{r}})
	}
	return newBarFrame(look, b)
}

// wholeMoney leaves out the cents, which are not known over ten years.
func wholeMoney(m units.Money, l units.Locale) string {
	if v := m.In(units.Dollar); finite(v) {
		return l.Dollars(strconv.FormatFloat(math.Round(v), 'f', 0, 64))
	}
	return "–"
}
