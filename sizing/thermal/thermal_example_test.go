package thermal_test

import (
	"fmt"

	"returnbench/sizing/air"
	"returnbench/sizing/thermal"
	"returnbench/sizing/units"
)

func ExampleTemperatureRise() {
	house, err := air.New(0, units.Fahrenheit(70), 0.3)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(thermal.TemperatureRise(80000*units.BtuPerHour, 1200*units.CFM, house).Show(units.IP))
	// Output: 61.7 °F
}

func ExampleCoil_Run() {
	rating, err := air.FromWetBulb(0, units.Fahrenheit(80), units.Fahrenheit(67))
	if err != nil {
		fmt.Println(err)
		return
	}
	coil, err := thermal.NewCoil(3*units.Ton, 1200*units.CFM, rating, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	house, err := air.New(0, units.Fahrenheit(75), 0.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, q := range []units.Flow{700 * units.CFM, 1200 * units.CFM} {
		r, err := coil.Run(q, house)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println(q.Show(units.IP), r.Total.Show(units.IP), r.Leaving.Temperature.Show(units.IP), r.ApparatusDewPoint.Show(units.IP))
	}
	// Output:
	// 700 cfm 2.6 ton 46.1 °F 45.1 °F
	// 1200 cfm 2.8 ton 54.1 °F 50.7 °F
}
