package paste

import (
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// Columns of a table.
const (
	Static = iota
	Airflow
	Power
	Speed
	Columns
)

var Titles = [Columns]message.ID{"External static, in a table", "Airflow", "Power", "Speed"}

// Title is the title of a column.
func Title(column int) message.ID { return Titles[column] }

var Kinds = [Columns]*units.Kind{
	units.Pressure(0).Kind(), units.Flow(0).Kind(), units.Power(0).Kind(), units.Rotation(0).Kind(),
}
