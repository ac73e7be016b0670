package cost_test

import (
	"fmt"

	"returnbench/sizing/cost"
	"returnbench/sizing/units"
)

func ExampleAnnual() {
	a := cost.Annual(cost.AnnualInput{
		Hours:        cost.Hours{Cooling: 1000 * units.Hour, Heating: 1200 * units.Hour},
		CoolingPower: 500, HeatingPower: 400,
		Price:          0.15 * units.MoneyPerKilowattHour,
		FiltersPerYear: 4, FilterPrice: 12,
	})
	fmt.Printf("%s, %.2f for power, %.2f in all\n", a.Energy.Show(units.IP), a.Power.SI(), a.Total.SI())
	// Output: 980 kWh, 147.00 for power, 195.00 in all
}

func ExampleTenYear() {
	a := cost.Annual(cost.AnnualInput{FiltersPerYear: 2, FilterPrice: 50})
	total, parts := cost.TenYear(a, 400, 0.05, 10)
	fmt.Printf("%.2f, of it filters %.2f\n", total.SI(), parts.Filters.SI())
	// Output: 1172.17, of it filters 772.17
}

func ExamplePayback() {
	years, pays := cost.Payback(500, 100, 0.05)
	fmt.Printf("%.1f %t\n", years, pays)
	_, pays = cost.Payback(500, 20, 0.05)
	fmt.Println(pays)
	// Output:
	// 5.9 true
	// false
}
