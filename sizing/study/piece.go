package study

import (
	"returnbench/sizing/job"
	"returnbench/sizing/message"
	"returnbench/sizing/units"
)

// ReturnComponent is one part of the return side of today's house and what it costs.
type ReturnComponent struct {
	Branch job.ReturnName  `json:"branch"`
	Name   message.Message `json:"name"`
	Drop   units.Pressure  `json:"drop"` // of all its like, at the branch's airflow
	// Velocity at the piece's section: face velocity of a grille or filter.
	Velocity units.Speed `json:"velocity"`
	// EquivalentLength is the straight duct of the piece's own section that
	// drops as much; zero for grilles and filters.
	EquivalentLength units.Length `json:"equivalent_length,omitzero"`
	Undersized       bool         `json:"undersized"`
}
