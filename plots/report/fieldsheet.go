package report

import (
	"returnbench/sizing/export"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// fieldSheet is a page to fill in by hand at the house, in the order in which the
// window asks: house, equipment, blower, returns, filter, coil and supply,
// readings, room.
func (d *document) fieldSheet() {
	f := d.newFlow(0.9)
	f.tight = true
	t := style{size: 15, bold: true}
	title := f.textRow(t, f.x, d.title)
	title.entry = d.title
	f.add(title)
	caution := style{size: 8.5, bold: true}
	f.paragraph(caution, message.Sentences{message.New(export.Cautions()[0]), message.New(export.Cautions()[3])}.Show(d.System))
	small, big, flow, pressure, degree := "in", "ft", "cfm", "in. w.c.", "F"
	if d.System.System == units.Metric {
		small, big, flow, pressure, degree = "mm", "m", "L/s", "Pa", "C"
	}
	d.blanks(f, d.say("House"), [][]string{
		{d.say("Customer"), d.say("Phone"), d.say("Date")},
		{d.say("Address"), d.say("Altitude, {unit}", "unit", big), d.say("Power price, $/kWh")},
		{d.say("Cooling hours a year"), d.say("Heating hours a year"), d.say("Dust: little, ordinary, pets, works")},
	})
	d.blanks(f, d.say("Equipment (from the plate)"), [][]string{
		{d.say("Furnace, furnace with coil, or air handler"), d.say("Maker, model"), d.say("Serial")},
		{d.say("Cooling, tons or kW"), d.say("Heating output"), d.say("Temperature rise, from to, {unit}", "unit", degree)},
		{d.say("Rated external static, {unit}", "unit", pressure), d.say("Airflow wanted, {unit}", "unit", flow), d.say("Fuel-burning units near, draft tested")},
	})
	f.orderHeading(d.say("Blower table (from the door or the manual); motor: PSC, constant torque, constant airflow"))
	f.blankTable([]string{d.say("tap"), d.say("static, {unit}", "unit", pressure), d.say("airflow, {unit}", "unit", flow), d.say("static"), d.say("airflow"), d.say("static"), d.say("airflow"), d.say("used for")}, 3, 15)
	f.orderHeading(d.say("Returns"))
	f.blankTable([]string{d.say("name"), d.say("grille, w x h, {unit}", "unit", small), d.say("kind of face"), d.say("filter in it"), d.say("duct, size"), d.say("length, {unit}", "unit", big), d.say("elbows, boots"), d.say("wall room, w x h")}, 4, 16)
	d.blanks(f, d.say("Filter at the unit"), [][]string{
		{d.say("Width x height x depth, {unit}", "unit", small), d.say("Make, MERV"), d.say("Gap round the frame, {unit}", "unit", small)},
		{d.say("Unit's return opening, w x h, {unit}", "unit", small), d.say("Return plenum, w x h, {unit}", "unit", small), d.say("Room for a cabinet, w x h x depth, {unit}", "unit", small)},
		{d.say("Coil drop, {pressure} at {airflow}", "pressure", pressure, "airflow", flow), d.say("Supply drop, {pressure} at {airflow}", "pressure", pressure, "airflow", flow), d.say("Clear between studs, {unit}", "unit", small)},
	})
	d.blanks(f, d.say("Readings (cooling or heating; tap; filter new or used)"), [][]string{
		{d.say("1 Before the filter, {unit}", "unit", pressure), d.say("2 After the filter, before the blower"), d.say("3 After the blower, before the coil")},
		{d.say("4 After the coil"), d.say("Across the filter"), d.say("Airflow, {unit}, if measured", "unit", flow)},
		{d.say("Watts, if measured"), d.say("Return air, {unit}", "unit", degree), d.say("Supply air, {unit}", "unit", degree)},
	})
	d.sketch(f)
	d.print(f.rows)
}

// blanks is a block of lines to write on, three a row, each with its name under it.
func (d *document) blanks(f *flow, heading string, rows [][]string) {
	f.orderHeading(heading)
	const gap = 12.0
	name := style{size: 8}
	for _, line := range rows {
		wide := (f.width - gap*float64(len(line)-1)) / float64(len(line))
		f.add(row{height: 26, draw: func(y float64) {
			for i, text := range line {
				x := f.x + float64(i)*(wide+gap)
				f.line(black, 0.5, nil, x, y+15, x+wide, y+15)
				fitted, words := f.fit(name, text, wide, 7)
				f.put(fitted, x, y+23, words)
			}
		}})
	}
}

// blankTable is an empty table with a head.
func (f *flow) blankTable(heads []string, rows int, high float64) {
	wide := f.width / float64(len(heads))
	f.add(row{height: 13, keep: true, draw: func(y float64) {
		f.fill(pale, f.x, y, f.width, 13)
		for i, text := range heads {
			fitted, words := f.fit(style{size: 8, bold: true}, text, wide-4, 7)
			f.put(fitted, f.x+float64(i)*wide+2, y+9.5, words)
		}
	}})
	for range rows {
		f.add(row{height: high, keep: true, draw: func(y float64) {
			for i := range heads {
				f.box(rule, 0.5, nil, f.x+float64(i)*wide, y, wide, high)
			}
		}})
	}
	f.rows[len(f.rows)-1].keep = false
}

// sketch is room to draw in: what is left of the page.
func (d *document) sketch(f *flow) {
	f.orderHeading(d.say("Sketch; photos taken of plate, closet, gauge"))
	left := d.sheet.h - marginTight - marginBottom - heightOf(f.rows) - 6
	if left < 30 {
		return
	}
	f.figure(left, func(y float64) {
		const step = 12.0
		for at := 0.0; at <= left-2; at += step {
			f.line(shade{210, 210, 210}, 0.4, nil, f.x, y+at, f.x+f.width, y+at)
		}
		for at := 0.0; at <= f.width; at += step {
			f.line(shade{210, 210, 210}, 0.4, nil, f.x+at, y, f.x+at, y+left-2)
		}
	})
}
