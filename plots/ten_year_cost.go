package plots

import (
	"returnbench/sizing"
	"returnbench/sizing/units"
)

// TenYearCost shows what each option costs in ten years: the work, the filters
// and the blower's power.
func TenYearCost(s *sizing.Study, look Look) Chart { return tenYearCostKind.Chart(s, look) }

var tenYearCostKind = Kind{"ten-year-cost", "Ten years' cost", tenYearCost}

func tenYearCost(s *sizing.Study, look Look) *frame {
	look = look.complete()
	b := &bars{total: "Cost over ten years", unit: look.unit(units.Money(0)), key: []legendEntry{swatch("upgrade", look.fill(0)), swatch("filters", look.fill(1)), swatch("blower power", look.fill(2))}}
	for i := range s.Options {
		o := &s.Options[i]
		if noFilter(o) {
			continue
		}
		r := bar{total: look.in(o.TenYearCost), sum: wholeMoney(o.TenYearCost), read: wholeMoney(o.TenYearCost)}
		for k, m := range []units.Money{o.Upgrade, o.TenYearFilter, o.TenYearPower} {
			r.pieces = append(r.pieces, piece{name: b.key[k].word, value: look.in(m), text: wholeMoney(m), read: wholeMoney(m), fill: look.fill(k)})
		}
		b.groups = append(b.groups, barGroup{name: o.Name, rows: []bar{r}})
	}
	return newBarFrame(look, b)
}
