package air_test

import (
	"fmt"

	"returnbench/sizing/air"
	"returnbench/sizing/units"
)

func ExampleNew() {
	attic, err := air.New(5000*units.Foot, units.Fahrenheit(75), 0.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	wet, err := attic.WetBulb()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(attic.Density().Show(units.IP))
	fmt.Println(wet.Show(units.IP), attic.DewPoint().Show(units.IP))
	// Output:
	// 0.0613 lb/ft3
	// 61.8 °F 55.1 °F
}

func ExampleStandard() {
	s := air.Standard()
	fmt.Println(s.Density.Show(units.IP), s.Density.Show(units.SI))
	// Output: 0.0750 lb/ft3 1.201 kg/m3
}

func ExamplePressureAtAltitude() {
	fmt.Printf("%.0f Pa\n", air.PressureAtAltitude(1600).SI())
	// Output: 83528 Pa
}
