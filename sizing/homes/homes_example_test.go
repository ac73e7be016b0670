package homes_test

import (
	"context"
	"fmt"
	"os"
	"strings"

	"returnbench/sizing/homes"
)

func ExampleScreen() {
	list := "name,cooling_capacity,design_airflow [cfm]\ninvented,3 ton,1200\nunread,3 ton,twelve hundred\n"
	var out strings.Builder
	summary, err := homes.Screen(context.Background(), strings.NewReader(list), &out, homes.Options{
		Report: func(f homes.Fault) { fmt.Println(f.Line, f.Column) },
	})
	fmt.Println(summary.Homes, summary.Faulty, err)
	// Output:
	// 3 design_airflow
	// 2 1 <nil>
}

func ExampleGenerate() {
	if err := homes.Generate(1, 0, os.Stdout); err != nil {
		fmt.Println(err)
	}
	// Output: name,altitude [ft],cooling_capacity [ton],heating_output [Btu/h],rise_low [F],rise_high [F],motor,power_price [$/kWh],dust,slot,filter_merv,return_plenum [in. w.c.],blower_inlet [in. w.c.],blower_outlet [in. w.c.],supply_plenum [in. w.c.],filter_drop [in. w.c.],option_slot,option_merv,option_price [$]
}
