package stock_test

import (
	"fmt"

	"returnbench/sizing/stock"
	"returnbench/sizing/units"
)

func ExampleNearest() {
	// A filter measured with a rule.
	size, near := stock.Nearest(24.5*units.Inch, 19.5*units.Inch, 0.75*units.Inch)
	fmt.Println(size, near)
	fmt.Println(size.Face().Show(units.IP))
	// Output:
	// 20x25x1 true
	// 500 in2
}

func ExampleFits() {
	opening := 21 * units.Inch
	for _, c := range stock.Of(units.InchPound, stock.Cabinets()) {
		if stock.Fits(c, opening, opening) {
			fmt.Println(c, "actual", c.Actual())
		}
	}
	// Output:
	// 16x20x4 actual 15.625x19.625x3.75
	// 16x20x5 actual 15.625x19.625x4.375
	// 20x20x4 actual 19.625x19.625x3.75
	// 20x20x5 actual 19.625x19.625x4.375
}
