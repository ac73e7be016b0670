package blower_test

import (
	"fmt"

	"returnbench/sizing/blower"
	"returnbench/sizing/units"
)

func ExampleNewCurve() {
	c, err := blower.NewCurve([]blower.Point{
		{ExternalStatic: 0.3 * units.InchWater, Airflow: 1310 * units.CFM, Power: 520},
		{ExternalStatic: 0.5 * units.InchWater, Airflow: 1210 * units.CFM, Power: 490},
		{ExternalStatic: 0.7 * units.InchWater, Airflow: 1070 * units.CFM, Power: 450},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	q, inside := c.Airflow(0.6 * units.InchWater)
	fmt.Println(q.Show(units.IP), inside)
	p, _ := c.Static(q)
	fmt.Println(p.Show(units.IP))
	fmt.Println(c.ReadingSpread(0.6 * units.InchWater).Show(units.IP))
	_, inside = c.Airflow(1 * units.InchWater)
	fmt.Println(inside)
	// Output:
	// 1145 cfm true
	// 0.600 in. w.c.
	// 5 cfm
	// false
}

func ExampleGeneric() {
	table := blower.Generic(blower.ConstantAirflow, 1200*units.CFM, 0.5*units.InchWater)
	tap, _ := table.Tap(table.CoolingTap)
	c, _ := tap.Curve()
	for _, p := range []units.Pressure{0.3 * units.InchWater, 0.5 * units.InchWater, 0.8 * units.InchWater} {
		q, _ := c.Airflow(p)
		w, _ := c.Power(p)
		fmt.Println(p.Show(units.IP), q.Show(units.IP), w.Show(units.IP))
	}
	// Output:
	// 0.300 in. w.c. 1205 cfm 308 W
	// 0.500 in. w.c. 1200 cfm 384 W
	// 0.800 in. w.c. 1188 cfm 494 W
}

func ExampleTap_AtSpeed() {
	tap := blower.Tap{Name: "medium", Points: []blower.Point{{ExternalStatic: 100, Airflow: 0.5, Power: 400}}}
	p := tap.AtSpeed(0.9).Points[0]
	fmt.Println(p.ExternalStatic.Show(units.SI), p.Airflow.Show(units.SI), p.Power.Show(units.SI))
	// Output: 81.0 Pa 450 L/s 292 W
}
