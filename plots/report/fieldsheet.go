package report

import (
	"returnbench/sizing/export"
	"returnbench/sizing/units"
)

// fieldSheet is a page to fill in by hand at the house, in the order in which the
// window asks: house, equipment, blower, returns, filter, coil and supply,
// readings, room.
func (d *document) fieldSheet() {
	f := d.newFlow(0.9)
	f.tight = true
	t := style{size: 15, bold: true}
	title := f.textRow(t, f.x, "Field sheet")
	title.entry = "Field sheet"
	f.add(title)
	caution := style{size: 8.5, bold: true}
	f.paragraph(caution, string(export.Cautions()[0]+" "+export.Cautions()[3]))
	small, big, flow, pressure, degree := "in", "ft", "cfm", "in. w.c.", "F"
	if d.System.System == units.Metric {
		small, big, flow, pressure, degree = "mm", "m", "L/s", "Pa", "C"
	}
	d.blanks(f, "House", [][]string{
		{"Customer", "Phone", "Date"},
		{"Address", "Altitude, " + big, "Power price, $/kWh"},
		{"Cooling hours a year", "Heating hours a year", "Dust: little, ordinary, pets, works"},
	})
	d.blanks(f, "Equipment (from the plate)", [][]string{
		{"Furnace, furnace with coil, or air handler", "Maker, model", "Serial"},
		{"Cooling, tons or kW", "Heating output", "Temperature rise, from to, " + degree},
		{"Rated external static, " + pressure, "Airflow wanted, " + flow, "Fuel-burning units near, draft tested"},
	})
	f.orderHeading("Blower table (from the door or the manual); motor: PSC, constant torque, constant airflow")
	f.blankTable([]string{"tap", "static, " + pressure, "airflow, " + flow, "static", "airflow", "static", "airflow", "used for"}, 3, 15)
	f.orderHeading("Returns")
	f.blankTable([]string{"name", "grille, w x h, " + small, "kind of face", "filter in it", "duct, size", "length, " + big, "elbows, boots", "wall room, w x h"}, 4, 16)
	d.blanks(f, "Filter at the unit", [][]string{
		{"Width x height x depth, " + small, "Make, MERV", "Gap round the frame, " + small},
		{"Unit's return opening, w x h, " + small, "Return plenum, w x h, " + small, "Room for a cabinet, w x h x depth, " + small},
		{"Coil drop, " + pressure + " at " + flow, "Supply drop, " + pressure + " at " + flow, "Clear between studs, " + small},
	})
	d.blanks(f, "Readings (cooling or heating; tap; filter new or used)", [][]string{
		{"1 Before the filter, " + pressure, "2 After the filter, before the blower", "3 After the blower, before the coil"},
		{"4 After the coil", "Across the filter", "Airflow, " + flow + ", if measured"},
		{"Watts, if measured", "Return air, " + degree, "Supply air, " + degree},
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
	f.orderHeading("Sketch; photos taken of plate, closet, gauge")
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
