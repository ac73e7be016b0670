package plots

import (
	"fmt"

	"returnbench/sizing/units"
)

func ExampleFanAndSystem() {
	p := FanAndSystem(testStudy(2), Light(units.IP)).Plot
	fmt.Printf("%s, from %.0f to %.0f\n", p.X.Label.Text, p.X.Min, p.X.Max)
	// Output: Airflow, cfm, from 500 to 1670
}

func ExampleNearest() {
	study, look := testStudy(1), Light(units.IP)
	chart := Kinds()[0].Chart(study, look)
	_, t := NewCanvas().Render(chart, look, 900, 500, 96)
	x, y := t.DataToPixel(800, 0.316) // on the line of today's house
	hit, _ := Nearest(chart.Lines, t, x, y)
	fmt.Println(hit.Show())
	// Output: Today, clean: 800 cfm, 0.316 in. w.c.
}
