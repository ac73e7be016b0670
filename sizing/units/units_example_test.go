package units_test

import (
	"errors"
	"fmt"

	"returnbench/sizing/units"
)

func ExampleParse() {
	q, err := units.Parse[units.Flow]("566 L/s")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f cfm\n", q.In(units.CFM))
	fmt.Println(q)
	_, err = units.Parse[units.Flow]("1200")
	fmt.Println(err)
	// Output:
	// 1199.3 cfm
	// 566 L/s
	// "1200": the unit is missing; want an airflow in cfm, L/s, m3/h or m3/s
}

func ExampleOf_Show() {
	p := 0.52 * units.InchWater
	fmt.Println(p.Show(units.IP))
	fmt.Println(p.Show(units.SI))
	// Output:
	// 0.520 in. w.c.
	// 129.5 Pa
}

func ExampleOf_In() {
	q := 1200 * units.CFM
	fmt.Printf("%.1f\n", q.In(units.LitrePerSecond))
	// Output: 566.3
}

func ExampleKind_Parse() {
	// A form field that shows cfm reads a number without a unit as cfm.
	k := units.Flow(0).Kind()
	v, _ := k.Parse("1200", k.Usual(units.IP).Name)
	fmt.Println(units.Flow(v))
	// Output: 1200 cfm
}

func ExampleKind_TextIn() {
	q := 1200 * units.CFM
	fmt.Println(q.Kind().TextIn(q.SI(), units.IP))
	fmt.Println(q.Kind().TextIn(q.SI(), units.SI))
	// Output:
	// 1200 cfm
	// 566.33693184 L/s
}

func ExampleParseError() {
	_, err := units.Parse[units.Pressure]("0.5 psi")
	var fault *units.ParseError
	if errors.As(err, &fault) {
		fmt.Println(fault.Why())
		fmt.Println("want", fault.Kind.Wanted())
	}
	// Output:
	// "psi" is not a unit of pressure
	// want a pressure in in. w.c., Pa, mm w.c. or kPa
}

func ExampleFahrenheit() {
	t := units.Fahrenheit(70)
	fmt.Printf("%.2f K, %.1f C\n", t.SI(), units.ToCelsius(t))
	// Output: 294.26 K, 21.1 C
}
