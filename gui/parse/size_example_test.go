package parse_test

import (
	"fmt"

	"returnbench/gui/parse"
	"returnbench/sizing/units"
)

func ExampleSize() {
	w, h, d, _ := parse.Size(units.IP, "16 x 25 x 1", false)
	fmt.Println(w.In(units.Inch), h.In(units.Inch), d.In(units.Inch))
	_, _, _, fault := parse.Size(units.IP, "16x25", false)
	fmt.Println(fault)
	// Output:
	// 16 25 1
	// 2 numbers; want width x height x depth, as in 16x25x1 (inches) or 400x625x25 mm
}

func ExampleSizeText() {
	fmt.Println(parse.SizeText(units.IP, 16*units.Inch, 25*units.Inch, units.Inch))
	fmt.Println(parse.SizeText(units.IP, 400*units.Millimetre, 625*units.Millimetre, 25*units.Millimetre))
	// Output:
	// 16x25x1
	// 400x625x25 mm
}
