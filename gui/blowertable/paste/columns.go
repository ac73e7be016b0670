package paste

import "returnbench/sizing/units"

// Columns of a table.
const (
	Static = iota
	Airflow
	Power
	Speed
	Columns
)

var Titles = [Columns]string{"External static", "Airflow", "Power", "Speed"}

// Title is the title of a column.
func Title(column int) string { return Titles[column] }

var Kinds = [Columns]*units.Kind{
	units.Pressure(0).Kind(), units.Flow(0).Kind(), units.Power(0).Kind(), units.Rotation(0).Kind(),
}
