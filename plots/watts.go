package plots

import (
	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Watts shows the blower's power in cooling, with each option's filter clean
// and at the change limit.
func Watts(s *sizing.Study, look Look) Chart { return wattsKind.Chart(s, look) }

var wattsKind = Kind{"watts", "Blower power", watts}

func watts(s Subject, look Look) *frame {
	look = look.complete()
	b := &bars{total: "Blower power, {unit}", whole: "blower power {value}", unit: look.unit(units.Power(0))}
	for i := range s.Options {
		o := &s.Options[i]
		g := barGroup{name: sizing.OptionName(o.Name).Show(look.Units), rows: []bar{wattBar(&o.Clean, cleanWord(o), s.rank(i), false, look)}}
		if known := s.ranges(i); known != nil {
			g.rows[0].reach = reach(known.BlowerPower, look)
		}
		if !noFilter(o) {
			g.rows = append(g.rows, wattBar(&o.Loaded, loadedState, s.rank(i), true, look))
		}
		b.groups = append(b.groups, g)
	}
	return newBarFrame(look, b)
}

func wattBar(c *sizing.Condition, state message.ID, r rank, loaded bool, look Look) bar {
	sum := c.BlowerPower.Show(look.Units)
	return bar{state: state, sum: sum, read: sum, total: look.in(c.BlowerPower), pieces: []piece{{value: look.in(c.BlowerPower), fill: look.series(r), hollow: loaded}}}
}
