package report

import (
	"fmt"

	"returnbench/sizing"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// expectedReadings lists the expected reading at each port after the work, with
// room to write the actual one.
func (d *document) expectedReadings(f *flow) {
	ports := d.ports()
	p := d.plan
	c := &p.option.Clean
	f.orderHeading(d.say("What to read when done"))
	from := len(f.rows)
	f.paragraph(f.orderText(), d.say("In cooling at {tap}, a new filter in place, all doors and panels shut, every grille open. Zero the gauge first. A minus is suction.", "tap", d.study.Blower.TapName(p.tap).In(d.System)))
	f.add(row{height: 2})
	var cells [][]string
	for _, q := range ports {
		cells = append(cells, []string{fmt.Sprint(q.number), q.name, d.expected(q.Static), d.margin(q.Static), "", ""})
	}
	if a, b, ok := d.across(ports); ok {
		cells = append(cells, []string{d.say("{from} to {to}", "from", a, "to", b), d.say("difference: the external static pressure"), d.expected(c.ExternalStatic), d.margin(c.ExternalStatic), "", ""})
	}
	if p.central() != nil {
		cells = append(cells, []string{d.say("{from} to {to}", "from", 1, "to", 2), d.say("difference: the drop of the filter"), d.expected(c.FilterDrop), d.margin(c.FilterDrop), "", ""})
	}
	cells = append(cells, []string{"", d.say("airflow, where it is measured"), about(c.Airflow, d.System), d.tenth(c.Airflow), "", ""})
	switch {
	case p.option.WattsAssumed:
		cells = append(cells, []string{"", d.say("the blower's watts, where they are measured"), d.say("not in the table"), d.say("write it down"), "", ""})
	case c.BlowerPower > 0:
		cells = append(cells, []string{"", d.say("the blower's watts, where they are measured"), about(c.BlowerPower, d.System), d.tenth(c.BlowerPower), "", ""})
	}
	if rise := c.TemperatureRise; rise > 0 {
		cells = append(cells, d.riseCells(rise))
	}
	f.keepAll(from)
	f.rows[len(f.rows)-1].keep = true
	f.tallTable(f.orderText(), 15.5*f.scale, []column{
		{name: d.say("port")}, {name: d.say("what"), share: 1.25}, {name: d.say("expected")}, {name: d.say("accept")}, {name: d.say("read"), blank: true, least: 50}, {name: d.say("date"), blank: true, least: 40},
	}, cells)
	f.gap(1)
	f.paragraph(style{size: 8.25 * f.scale}, message.Sentences{
		message.New("Accepted is the wider of 10 % and {inches} in. w.c. ({pascals} Pa); of airflow, watts and temperature 10 %: common practice, no source.",
			"inches", message.Fixed(0.03, 2), "pascals", message.Fixed(7.5, 1)), // as sizing.ReadingMargin
		message.New("A reading outside: check tap, filter, grilles and ports before you leave the house."),
		message.New("The equipment is rated for an external static of {rated}.", "rated", about(d.study.RatedExternalStatic, d.System)),
		d.riseRange(),
	}.In(d.System))
}

// riseCells are the expected temperature rise, where the heating output is the
// nameplate's.
func (d *document) riseCells(rise units.TemperatureDifference) []string {
	what := d.say("heating: rise from return to supply air, at {tap}", "tap", d.study.Blower.TapName(d.study.Blower.HeatingTap).In(d.System))
	if d.study.Assumed("equipment.heating_output") {
		return []string{"", what, d.say("output not known"), d.say("the nameplate's range"), "", ""}
	}
	return []string{"", what, about(rise, d.System), d.tenth(rise), "", ""}
}

// riseRange repeats the nameplate's range where the job holds it.
func (d *document) riseRange() message.Message {
	e := d.job.Equipment
	if e.NoHeating || e.RiseLow == 0 || e.RiseHigh == 0 {
		return message.Message{}
	}
	return message.New("The nameplate's temperature rise, {low} to {high}, rules in any case.", "low", rounded(e.RiseLow, d.System), "high", about(e.RiseHigh, d.System))
}

// across finds the ports between which the external static stands.
func (d *document) across(ports []port) (from, to int, ok bool) {
	if d.part(sizing.PartInTable) {
		return 0, 0, false
	}
	upper := sizing.PortSupply
	if d.coilOutside() {
		upper = sizing.PortOutlet
	}
	lower := sizing.PortInlet
	if d.plan.central() == nil {
		lower = sizing.PortReturn
	}
	for _, q := range ports {
		switch q.Name {
		case lower:
			from = q.number
		case upper:
			to = q.number
		}
	}
	return from, to, from > 0 && to > 0
}

func (d *document) expected(p units.Pressure) string { return about(p, d.System) }

// margin is the range of pressure to accept.
func (d *document) margin(p units.Pressure) string {
	by := sizing.ReadingMargin(p)
	if p < 0 {
		return d.say("{low} to {high}", "low", rounded(p+by, d.System), "high", rounded(p-by, d.System))
	}
	return d.say("{low} to {high}", "low", rounded(p-by, d.System), "high", rounded(p+by, d.System))
}

// tenth is the range from a tenth below to a tenth above.
func (d *document) tenth(q units.Quantity) string {
	v := q.Kind().Usual(d.System).FromSI(q.SI())
	step := stepOf(q, d.System)
	return d.say("{low} to {high}", "low", d.System.Mark(steps(v*(1-sizing.ReadingShare), step)), "high", d.System.Mark(steps(v*(1+sizing.ReadingShare), step)))
}
