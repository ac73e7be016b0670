package lesson_test

import (
	"fmt"

	"returnbench/sizing"
	"returnbench/sizing/lesson"
	"returnbench/sizing/units"
)

func ExampleLesson_Run() {
	l := lesson.Lesson{
		Schema: lesson.Schema, Title: "A tighter supply", Question: "The supply takes more. And the airflow?",
		Predictions: []lesson.Prediction{
			{Text: "It rises", Claims: []lesson.Claim{{Number: lesson.Airflow, Goes: lesson.Up}}},
			{Text: "It falls", Claims: []lesson.Claim{{Number: lesson.Airflow, Goes: lesson.Down}}},
		},
		Move: lesson.Move{Name: "Supply drop", Path: "supply.drop", From: "0.1 in. w.c.", To: "0.3 in. w.c."},
		Job:  sizing.Job{Schema: sizing.Schema, DesignAirflow: 1200 * units.CFM, Supply: sizing.Part{Drop: 0.1 * units.InchWater}},
	}
	o, err := l.Run(sizing.NewSolver().Solve)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, right := range o.Right() {
		fmt.Println(l.Predictions[i].Text, right)
	}
	// Output:
	// It rises false
	// It falls true
}
